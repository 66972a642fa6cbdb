"""Which faces the two pages of a spread may be"""

import pytest

from indexer.errors import PlanError, WordError
from queries.fitting.values import Asked
from queries.sleeves.values import Box, Sleeve
from queries.spread.faces import Shelf, face_kept, pages_of, pairs_for, shared_faces, with_pockets
from queries.spread.faces_of_week import bound_pages
from queries.spread.values import Wishes
from tests.queries.spread.made_plans import kept, week

LOPSIDED = Sleeve("lopsided", 6, 4, (Box(0, 0, 4, 4), Box(4, 0, 2, 4)), "drawn")
SINGLE = Sleeve("single", 6, 4, (Box(0, 0, 6, 4),), "drawn")


def named(name: str) -> Sleeve:
    for sleeve in (LOPSIDED, SINGLE):
        if sleeve.name == name:
            return sleeve
    raise WordError(name)


SHELF = Shelf(named, (LOPSIDED, SINGLE))
BEFORE, AFTER = week("2026-03-30"), week("2026-04-13")


def test_without_a_name_every_pair_at_home_is_tried() -> None:
    """Left pages are backs, right pages fronts."""
    pairs = pairs_for(Wishes(), None, {}, SHELF)
    assert len(pairs) == 4
    assert (LOPSIDED.back(), LOPSIDED) in pairs
    assert LOPSIDED.back() != LOPSIDED


def test_a_named_sleeve_is_taken() -> None:
    """One name leaves the other page free; an unknown name is an error."""
    assert pairs_for(Wishes(left="lopsided"), None, {}, SHELF) == [
        (LOPSIDED.back(), LOPSIDED),
        (LOPSIDED.back(), SINGLE),
    ]
    with pytest.raises(WordError, match="hexagon"):
        pairs_for(Wishes(right="hexagon"), None, {}, SHELF)


def test_a_shared_page_mirrors_its_neighbour() -> None:
    """The face of a bound page is the neighbour's page in the mirror; a name still goes before it."""
    plans = {BEFORE: kept()}
    shared = shared_faces(bound_pages(BEFORE, AFTER, plans), plans)
    assert shared["left"] == face_kept(kept(), "right").back()
    assert {left for left, _ in pairs_for(Wishes(), None, shared, SHELF)} == {shared["left"]}
    assert {left for left, _ in pairs_for(Wishes(left="single"), None, shared, SHELF)} == {SINGLE.back()}


def test_a_planned_week_keeps_its_pages_though_a_sleeve_was_drawn_anew() -> None:
    """Its pockets are those that it was planned with."""
    (pair,) = pairs_for(Wishes(), kept(), {}, Shelf(named, ()))
    assert [face.pockets for face in pair] == [(Box(0, 0, 6, 4), Box(0, 4, 6, 4))] * 2
    assert pages_of(pair, {}) == kept().pages


def test_with_no_sleeve_at_home_there_is_nothing_to_plan_with() -> None:
    """The error names the way out."""
    with pytest.raises(PlanError, match="sleeves own NAME"):
        pairs_for(Wishes(left="single"), None, {}, Shelf(named, ()))


def test_pairs_without_the_pockets_that_are_asked_of_fall_away() -> None:
    """A pin on L2 leaves the left pages that have two pockets; where none has, the plan is to say so."""
    pairs = pairs_for(Wishes(), None, {}, SHELF)
    assert {left.name for left, _ in with_pockets(pairs, Asked(pins={"L2.1": "a"}))} == {"lopsided"}
    assert with_pockets(pairs, Asked(cards=frozenset({"R7"}))) == pairs
