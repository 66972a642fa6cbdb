"""The value of a plan, reckoned by hand."""

import pytest

from queries.fitting.assigning import placed_in
from queries.fitting.values import Asked, Filled, Plan
from queries.fitting.weights import WEIGHTS
from queries.fitting.worth import Case, value_of, wanted_photos
from tests.queries.fitting.made_spreads import openings, picture

OPENINGS = openings(((6,),), ((6,),))
BEST, LAST = picture(0, 4000, 3000, rank=0), picture(1, 3000, 4000, rank=1)


def photo(at: int, shot: object) -> Filled:
    return Filled(OPENINGS[at], "photo", (placed_in(shot, OPENINGS[at].box),), None, "")


def card(at: int) -> Filled:
    return Filled(OPENINGS[at], "card", (), None, "")


def test_two_photos() -> None:
    """Two wide pockets with a 4:3 photo, lying and upright: every term by hand."""
    by, case = WEIGHTS, Case([BEST, LAST], OPENINGS, Asked(), None)
    expected = 2 * (by.placed + by.filled + 24 * by.area) + by.rank - by.cut * (1 / 9 + 1 / 2) - by.turned
    assert value_of(case, [photo(0, BEST), photo(1, LAST)]) == pytest.approx(expected)
    swapped = expected - 2 * by.story * 0.25
    assert value_of(case, [photo(0, LAST), photo(1, BEST)]) == pytest.approx(swapped)


def test_photo_and_card() -> None:
    """A card right of a photo: the spread leans by 0.6 of a half, and all cards are on one page."""
    by, case = WEIGHTS, Case([BEST], OPENINGS, Asked(), None)
    expected = by.placed + by.filled + 24 * by.area + by.rank - by.cut / 9 - by.story * 0.0625
    assert value_of(case, [photo(0, BEST), card(1)]) == pytest.approx(expected - 0.6 * by.balance_spread - by.even)


def test_staying() -> None:
    """A photo and a card that stand where they stood before are worth that much more."""
    filled = (photo(0, BEST), card(1))
    before = Plan(filled, True, 0, 1, 0, ())
    gain = value_of(Case([BEST], OPENINGS, Asked(), before), filled) - value_of(
        Case([BEST], OPENINGS, Asked(), None), filled
    )
    assert gain == pytest.approx(2 * WEIGHTS.stay)


def test_wanted_photos() -> None:
    """All photos, up to the pockets that are free of cards; or as many as were asked for, if there are so many."""
    photos = [picture(n) for n in range(3)]
    for asked, wanted in (
        (Asked(), 2),
        (Asked(cards=frozenset({"L1"})), 1),
        (Asked(cards=frozenset({"L1"}), card_count=2), 0),
        (Asked(empty=frozenset({"L1"}), card_count=1), 0),
        (Asked(photo_count=3), 3),
        (Asked(photo_count=9), 3),
    ):
        assert wanted_photos(Case(photos, OPENINGS, asked, None)) == wanted
