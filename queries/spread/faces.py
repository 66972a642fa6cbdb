"""Which faces the two pages of a spread may be. Pure."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from indexer.errors import PlanError
from queries.fitting.values import Asked, openings_of
from queries.sleeves.values import Sleeve
from queries.spread.asking import pocket_of
from queries.spread.faces_of_week import OTHER_SIDE, face_of, page_on
from queries.spread.values import SIDES, Bound, KeptPlan, Page, Side, Wishes
from queries.weeks import Week

#: Left and right page, as they are seen.
Pair = tuple[Sleeve, Sleeve]


@dataclass(frozen=True, slots=True)
class Shelf:
    """The sleeves: `named` finds one by its name, or raises; `at_home` are those that the person has."""

    named: Callable[[str], Sleeve]
    at_home: Sequence[Sleeve]


def pairs_for(wishes: Wishes, own: KeptPlan | None, shared: Mapping[Side, Sleeve], shelf: Shelf) -> list[Pair]:
    """The pairs of faces to choose from: by side the one that is named, was planned with, or is `shared` with a
    neighbouring week; else all at home. Raises PlanError where there is no sleeve at home."""
    left, right = (_faces(side, wishes.sleeve(side), own, shared.get(side), shelf) for side in SIDES)
    if not left or not right:
        raise PlanError("no sleeve is at home to plan with; tick those you have: weeksheaf sleeves own NAME")
    return list(product(left, right))


def shared_faces(bound: Mapping[Side, Bound], plans: Mapping[Week, KeptPlan]) -> dict[Side, Sleeve]:
    """By side: the face that a bound page shows, the mirror image of the neighbour's page."""
    return {side: face_kept(plans[shared.week], OTHER_SIDE[side]).back() for side, shared in bound.items()}


def with_pockets(pairs: Sequence[Pair], asked: Asked) -> list[Pair]:
    """Those of the pairs that have every pocket that something was asked of; all where none has."""
    places = {pocket_of(place) for place in asked.pins} | asked.cards | asked.collages.keys() | asked.empty
    fit = [pair for pair in pairs if places <= {opening.name for opening in openings_of(*pair)}]
    return fit or list(pairs)


def face_kept(kept: KeptPlan, side: Side) -> Sleeve:
    """The face that a page of a plan shows, as it was when it was planned: its sleeve may have been drawn anew."""
    page = page_on(kept.pages, side)
    boxes = (filled.opening.box for filled in kept.plan.filled if filled.opening.side == side)
    return Sleeve(page.sleeve, page.width, page.height, tuple(boxes), "drawn")


def pages_of(pair: Pair, bound: Mapping[Side, Bound]) -> tuple[Page, Page]:
    """The pages that a pair of faces makes."""
    left, right = (
        Page(side, face.name, face_of(side, bound, face.name), face.width, face.height)
        for side, face in zip(SIDES, pair, strict=True)
    )
    return left, right


def _faces(side: Side, name: str | None, own: KeptPlan | None, shared: Sleeve | None, shelf: Shelf) -> list[Sleeve]:
    if name is not None:
        return [_seen(shelf.named(name), side)]
    if own is not None:
        return [face_kept(own, side)]
    return [shared] if shared else [_seen(sleeve, side) for sleeve in shelf.at_home]


def _seen(sleeve: Sleeve, side: Side) -> Sleeve:
    return sleeve.back() if side == "left" else sleeve
