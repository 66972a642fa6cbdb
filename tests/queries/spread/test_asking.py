"""What is fixed in a plan"""

from dataclasses import replace
from random import Random

import pytest

from queries.fitting.values import Asked, Style
from queries.spread.asking import asked_for, on_pages, pocket_of
from queries.spread.values import Wishes
from tests.queries.spread.made_plans import CAT, GULL, KITE, PIER

BEFORE = Asked(
    pins={"L1": KITE, "R3.2": PIER},
    cards=frozenset({"L2"}),
    collages={"R3": 3},
    empty=frozenset({"R9"}),
    card_count=4,
    mat=0.125,
)


def test_nothing_asked_leaves_all_as_it_was() -> None:
    """What was fixed before stays fixed."""
    assert asked_for(BEFORE, Wishes()) == BEFORE


@pytest.mark.parametrize(
    ("wishes", "pins"),
    [
        (Wishes(pins={"L1": GULL}), {"L1": GULL, "R3.2": PIER}),
        (Wishes(pins={"L5": KITE}), {"L5": KITE, "R3.2": PIER}),
        (Wishes(cards=frozenset({"L1"})), {"R3.2": PIER}),
        (Wishes(freed=frozenset({"L1", "R3"})), {}),
        (Wishes(collages={"L1": 3}), {"L1": KITE, "R3.2": PIER}),
        (Wishes(collages={"R3": 2}), {"L1": KITE}),
        (Wishes(pins={"R3.1": CAT}), {"L1": KITE, "R3.2": PIER, "R3.1": CAT}),
        (Wishes(pins={"R3.2": CAT}), {"L1": KITE, "R3.2": CAT}),
        (Wishes(pins={"R3": CAT}), {"L1": KITE, "R3.2": PIER, "R3": CAT}),
        (Wishes(pins={"L1.2": CAT}), {"L1.2": CAT, "R3.2": PIER}),
    ],
)
def test_a_pin_stays_until_its_photo_or_its_pocket_is_fixed_otherwise(wishes: Wishes, pins: dict[str, str]) -> None:
    """Pins of other pockets and photos are not touched by what is asked for now."""
    assert asked_for(BEFORE, wishes).pins == pins


def test_pockets_that_are_pinned_hold_no_card_any_more() -> None:
    """A pin on the pocket of a card, or on an empty one, takes its place."""
    asked = asked_for(BEFORE, Wishes(pins={"L2": GULL, "R9": CAT}))
    assert (asked.cards, asked.empty) == (frozenset(), frozenset())


def test_a_card_ends_a_collage() -> None:
    """A pocket that is to hold a card holds no collage any more, nor a photo of it."""
    asked = asked_for(BEFORE, Wishes(cards=frozenset({"R3"})))
    assert (asked.cards, asked.collages, asked.pins) == (frozenset({"L2", "R3"}), {}, {"L1": KITE})


def test_contradictions_of_now_are_left_for_the_plan_to_refuse() -> None:
    """A pin and a card asked for together both stand."""
    asked = asked_for(BEFORE, Wishes(pins={"L7": CAT}, cards=frozenset({"L7"})))
    assert (asked.pins["L7"], "L7" in asked.cards) == (CAT, True)


def test_a_number_of_photos_sets_aside_a_number_of_cards() -> None:
    """Of the two counts, the one told last holds, alone."""
    asked = asked_for(BEFORE, Wishes(photo_count=7))
    assert (asked.card_count, asked.photo_count) == (None, 7)
    assert asked_for(asked, Wishes(mat=0.0)) == replace(asked, mat=0.0)


def test_photos_that_are_gone_are_pinned_no_longer() -> None:
    """A pin of a lost photo falls away."""
    assert asked_for(BEFORE, Wishes(), {PIER}).pins == {"L1": KITE}


def test_the_style_changes_where_it_is_asked_to() -> None:
    """Only the fields named change."""
    before = replace(BEFORE, style=Style(gap=0.25))
    assert asked_for(before, Wishes(style={"corner": 0.1})).style == Style(gap=0.25, corner=0.1)


def test_what_was_fixed_on_a_page_goes_with_its_sleeve() -> None:
    """Of a page that has another sleeve, nothing that was fixed stays; the counts do."""
    asked = on_pages(BEFORE, "R")
    assert (asked.pins, asked.cards, asked.collages, asked.empty) == ({"R3.2": PIER}, frozenset(), {"R3": 3}, {"R9"})
    assert asked.card_count == 4


def test_the_pocket_of_a_cell() -> None:
    """ "L12.3" lies in "L12"."""
    assert (pocket_of("L12.3"), pocket_of("R1")) == ("L12", "R1")


@pytest.mark.parametrize("seed", range(100))
def test_what_was_said_last_of_a_pocket_and_of_a_photo_holds(seed: int) -> None:
    """Over many tellings, a pocket holds what was last fixed there and a photo stands where it was last pinned."""
    chance = Random(seed)
    pockets, keys = [f"L{number}" for number in range(1, 6)], [KITE, PIER, GULL, CAT]
    asked, pins, cards = Asked(), dict[str, str](), set[str]()
    for _ in range(30):
        pocket, key, what = (
            chance.choice(pockets),
            chance.choice(keys),
            chance.choice(["pin", "card", "free", "nothing"]),
        )
        wishes = {
            "pin": Wishes(pins={pocket: key}),
            "card": Wishes(cards=frozenset({pocket})),
            "free": Wishes(freed=frozenset({pocket})),
            "nothing": Wishes(mat=0.1),
        }[what]
        asked = asked_for(asked, wishes)
        if what != "nothing":
            pins.pop(pocket, None)
            cards.discard(pocket)
        if what == "pin":
            pins = {place: other for place, other in pins.items() if other != key} | {pocket: key}
        if what == "card":
            cards.add(pocket)
        assert (asked.pins, asked.cards) == (pins, cards)
        assert not pins.keys() & cards
        assert len(set(pins.values())) == len(pins)
