"""The balance measure, held against the values in the facts page."""

from random import Random

import pytest

from queries.fitting.balance import Frame, Weighed, balance_measure, frames_of, halves_of, spread_balance
from queries.fitting.values import Filled
from queries.sleeves.values import Box
from tests.queries.fitting.made_spreads import openings

PAGE = Frame(12, 12, {"left": 0.0})


def squares(*corners: tuple[float, float]) -> list[Weighed]:
    return [Weighed(Box(x, y, 4, 4)) for x, y in corners]


@pytest.mark.parametrize(
    ("corners", "expected"), [(((1, 1), (7, 1), (1, 7), (7, 7)), 1.0), (((1, 4),), 0.5), (((1, 1),), 0.0)]
)
def test_published_measure(corners: tuple[tuple[float, float], ...], expected: float) -> None:
    """Squares of 4 on a page of 12 (Ngo, Teo and Byrne 2003; values run, facts page "Colour and balance")."""
    assert balance_measure(PAGE, squares(*corners)) == pytest.approx(expected)


def test_cutting_a_thing_in_two_changes_nothing() -> None:
    """A rectangle weighs what its parts weigh, wherever it is cut, over the centre line or not."""
    draw = Random(3)
    for _ in range(500):
        x, y, width, height = (draw.uniform(0, 6) for _ in range(4))
        cut = draw.uniform(0, width)
        parts = [Weighed(Box(x, y, cut, height)), Weighed(Box(x + cut, y, width - cut, height))]
        for whole, two in zip(
            halves_of(PAGE, [Weighed(Box(x, y, width, height))]), halves_of(PAGE, parts), strict=True
        ):
            assert (whole.first, whole.second) == pytest.approx((two.first, two.second))


def test_measure_is_a_share_and_does_not_know_left_from_right() -> None:
    """0..1, and the same for the mirror image."""
    draw = Random(4)
    for _ in range(300):
        things = [Weighed(Box(draw.uniform(0, 9), draw.uniform(0, 9), 3, 3), draw.random()) for _ in range(4)]
        mirrored = [Weighed(Box(12 - t.box.x - 3, t.box.y, 3, 3), t.density) for t in things]
        assert 0 <= balance_measure(PAGE, things) <= 1
        assert balance_measure(PAGE, things) == pytest.approx(balance_measure(PAGE, mirrored))


def test_nothing_is_balanced() -> None:
    """An empty page leans nowhere."""
    assert balance_measure(PAGE, []) == 1


def test_pages_lie_side_by_side() -> None:
    """The frame of the spread is as wide as both pages, the right one begins where the left one ends."""
    spread, pages = frames_of(openings(((6,), (6,)), ((6, 6), (6, 6))))
    assert (spread.width, spread.height, spread.offsets["right"]) == (18, 8, 6)
    assert [page.width for page in pages] == [6, 12]


def test_cards_weigh_less_than_photos() -> None:
    """A spread with a photo left and a card right leans to the left, and less so than with nothing on the right."""
    left, right = openings(((6,),), ((6,),))
    photo = Filled(left, "photo", (), None, "")
    card, other, nothing = (Filled(o, h, (), None, "") for o, h in ((right, "card"), (left, "card"), (right, "empty")))
    assert spread_balance([other, card]) == pytest.approx(1)
    assert spread_balance([other, nothing]) == pytest.approx(0.5)
    assert spread_balance([photo, nothing]) == 1
