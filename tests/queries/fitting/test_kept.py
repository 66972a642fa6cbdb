"""Shares kept by a crop, held against the losses in the facts page."""

from random import Random

import pytest

from queries.fitting.kept import cut_at_the_sides, is_turned, kept_share
from queries.sleeves.values import Box
from tests.queries.fitting.made_spreads import picture

WIDE, FOUR_BY_THREE, UPRIGHT = Box(0, 0, 6, 4), Box(0, 0, 4, 3), Box(0, 0, 3, 4)


@pytest.mark.parametrize(
    ("sides", "lost_on_6x4", "lost_on_4x3"),
    [((4000, 3000), 11.11, 0.0), ((6000, 4000), 0.0, 11.11), ((3840, 2160), 15.62, 25.0)],
)
def test_losses(sides: tuple[int, int], lost_on_6x4: float, lost_on_4x3: float) -> None:
    """4:3, 3:2 and 16:9 lose in 6x4 and 4x3 what arithmetic says (facts page, "Prints, pockets, cutting")."""
    for cell, lost in ((WIDE, lost_on_6x4), (FOUR_BY_THREE, lost_on_4x3)):
        assert 100 * (1 - kept_share(picture(0, *sides), cell)) == pytest.approx(lost, abs=0.006)


def test_share_is_that_of_the_largest_window() -> None:
    """The share is the area of the largest window of the cell's aspect, in the picture and turned with it."""
    draw = Random(1)
    for _ in range(2000):
        shot = picture(0, draw.randint(90, 9000), draw.randint(90, 9000))
        cell = Box(0, 0, draw.uniform(1, 12), draw.uniform(1, 12))
        scale = min(shot.width / cell.width, shot.height / cell.height)
        window = cell.width * cell.height * scale**2
        assert kept_share(shot, cell) == pytest.approx(window / (shot.width * shot.height))
        assert 0 < kept_share(shot, cell) <= 1 + 1e-12
        turned = picture(0, shot.height, shot.width)
        assert kept_share(turned, Box(0, 0, cell.height, cell.width)) == pytest.approx(kept_share(shot, cell))


def test_zoom_shows_less() -> None:
    """Zoomed by 1.25, both sides show 1/1.25 of what they would."""
    assert kept_share(picture(0, 6000, 4000, zoom=1.25), WIDE) == pytest.approx(0.64)


def test_turned() -> None:
    """An upright picture in a wide cell is turned; a square one, or one within 3 %, never is."""
    assert is_turned(picture(0, 3000, 4000), WIDE)
    assert is_turned(picture(0, 4000, 3000), UPRIGHT)
    assert not is_turned(picture(0, 4000, 3000), WIDE)
    assert not is_turned(picture(0, 3000, 3080), WIDE)
    assert not is_turned(picture(0, 3000, 4000), Box(0, 0, 4, 4))


def test_side_that_is_cut() -> None:
    """16:9 in a 6x4 is cut at the sides, 4:3 is not."""
    assert cut_at_the_sides(picture(0, 3840, 2160), WIDE)
    assert not cut_at_the_sides(picture(0, 4000, 3000), WIDE)
