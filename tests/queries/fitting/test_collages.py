"""Collages by rule."""

from itertools import combinations
from math import isclose
from random import Random

import pytest

from queries.fitting.collages import collages_for, oddness, panorama_collages
from queries.fitting.values import Collage, Style
from queries.fitting.weights import LONGEST_CELL, SMALLEST_CELL
from queries.sleeves.values import Box

WIDE = (6.0, 4.0)


def distance(one: Box, other: Box) -> float:
    """How far two cells are apart along the axis that parts them; negative when they overlap."""
    across = max(one.x, other.x) - min(one.x + one.width, other.x + other.width)
    down = max(one.y, other.y) - min(one.y + one.height, other.y + other.height)
    return max(across, down)


def check(collage: Collage, width: float, height: float, style: Style) -> None:
    for one, other in combinations(collage.cells, 2):
        assert distance(one, other) > style.gap - 1e-9
    for cell in collage.cells:
        assert cell.x >= style.border - 1e-9
        assert cell.y >= style.border - 1e-9
        assert cell.x + cell.width <= width - style.border + 1e-9
        assert cell.y + cell.height <= height - style.border + 1e-9
        assert min(cell.width, cell.height) >= SMALLEST_CELL
        if collage.strip:
            assert distance(cell, collage.strip) >= style.border - 1e-9
    assert list(collage.cells) == sorted(collage.cells, key=lambda cell: (round(cell.y, 6), cell.x))


def test_cells_keep_gap_border_and_strip() -> None:
    """Cells are apart by the gap and lie within the border, clear of the strip, in reading order, for any pocket."""
    draw, seen = Random(2), 0
    for _ in range(300):
        width, height = draw.uniform(2, 12), draw.uniform(2, 12)
        edge = draw.choice(("top", "bottom", "left", "right"))
        style = Style(draw.uniform(0, 0.3), draw.uniform(0, 0.3), strip=draw.choice((0, 0.75)), strip_edge=edge)
        for collage in collages_for(width, height, style, asked=True):
            check(collage, width, height, style)
            assert all(max(c.width / c.height, c.height / c.width) <= LONGEST_CELL + 1e-9 for c in collage.cells)
            seen += 1
        for collage in panorama_collages(width, height, style):
            check(collage, width, height, style)
    assert seen > 1000


def test_whole_pocket_is_used() -> None:
    """Cells and gaps fill what the border leaves: in a 6x4, two uprights of 2 13/16 x 3 3/4 inches."""
    side_by_side = collages_for(*WIDE, Style())[0]
    assert side_by_side.name == "2 side by side"
    assert side_by_side.cells == (Box(0.125, 0.125, 2.8125, 3.75), Box(3.0625, 0.125, 2.8125, 3.75))


def test_counts_and_usual_shapes() -> None:
    """A 6x4 may hold 2, 3 or 4; the plainest of each count comes first and is close to a usual shape."""
    found = collages_for(*WIDE, Style())
    assert {len(each.cells) for each in found} == {2, 3, 4}
    for count in (2, 3, 4):
        odd = [oddness(each) for each in found if len(each.cells) == count]
        assert odd == sorted(odd)
        assert odd[0] < 0.05


def test_small_pockets_hold_collages_only_when_asked() -> None:
    """A 3x4 holds none unasked; asked, two lying ones fit; in a 2x2 nothing does."""
    assert collages_for(3.0, 4.0, Style()) == ()
    assert any(len(each.cells) == 2 for each in collages_for(3.0, 4.0, Style(), asked=True))
    assert collages_for(2.0, 2.0, Style(), asked=True) == ()


def test_style_is_carried() -> None:
    """A collage says its gap, border, corner, background and strip."""
    style = Style(0.2, 0.1, 0.25, "#f4efe6", strip=1, strip_edge="left")
    made = collages_for(8.0, 6.0, style)[0]
    assert (made.gap, made.border, made.corner, made.background) == (0.2, 0.1, 0.25, "#f4efe6")
    assert made.strip == Box(0, 0, 1, 6)


def test_panorama_goes_across() -> None:
    """A 3 : 1 picture goes from border to border in the middle of a 6x4."""
    across = next(each for each in panorama_collages(*WIDE, Style()) if each.name == "1 across, 3 : 1")
    (cell,) = across.cells
    assert isclose(cell.width / cell.height, 3)
    assert cell.width == pytest.approx(5.75)
    assert cell.y + cell.height / 2 == pytest.approx(2)
