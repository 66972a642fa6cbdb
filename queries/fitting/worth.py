"""What a filling is worth, in points. Pure.

`value_of` goes through a plan as it stands, pocket by pocket. The programme adds up the same terms in its matrices, and
tests hold the two against each other.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from queries.fitting.balance import Frame, frames_of, halves_of, in_frame, things_of
from queries.fitting.collages import oddness
from queries.fitting.kept import is_turned, kept_share
from queries.fitting.order import places_in_story, places_on_spread, standings
from queries.fitting.resolution import dpi_of, lack_of
from queries.fitting.slots import Way
from queries.fitting.values import Asked, Filled, Opening, Picture, Plan
from queries.fitting.weights import LARGE_CELL, PHOTO_WEIGHT, WEIGHTS, Weights
from queries.sleeves.values import Box


@dataclass(frozen=True, slots=True)
class Case:
    """All that the worth of a filling depends on, besides the filling."""

    pictures: Sequence[Picture]
    openings: Sequence[Opening]
    asked: Asked
    before: Plan | None
    by: Weights = WEIGHTS


@dataclass(frozen=True, slots=True)
class Stood:
    """What stood where in the plan before: photo key -> opening, and the openings that held cards."""

    photos: Mapping[str, str]
    cards: frozenset[str]


def look_worth(picture: Picture, standing: float, cell: Box, by: Weights) -> float:
    """A photo in a cell of that size, wherever it is; `standing` 1 for the first of the shortlist, 0 for the last."""
    size = min(1.0, cell.width * cell.height / LARGE_CELL)
    return (
        by.rank * standing * (1 - by.lead + by.lead * size)
        - by.cut * (1 - kept_share(picture, cell))
        - by.turned * is_turned(picture, cell)
        - lack_of(dpi_of(picture, cell), by)
    )


def wanted_photos(case: Case) -> int:
    """How many photos count for being placed at all: those asked for; else all, up to the pockets free for them."""
    asked = case.asked
    if asked.photo_count is not None:
        return min(asked.photo_count, len(case.pictures))
    taken = len(asked.cards | asked.empty) + max(0, (asked.card_count or 0) - len(asked.cards))
    return min(len(case.pictures), len(case.openings) - taken)


def story_worth(photo_place: float, pocket_place: float, by: Weights) -> float:
    return -by.story * (photo_place - pocket_place) ** 2


def way_worth(opening: Opening, way: Way, by: Weights) -> float:
    """An opening that is filled in this way, whichever the photos."""
    worth = by.filled + by.area * opening.box.width * opening.box.height
    if way.collage is None:
        return worth
    return worth - by.collage - by.crowd * (len(way.cells) - 1) - by.odd * oddness(way.collage)


def stood_in(before: Plan | None) -> Stood:
    filled = before.filled if before else ()
    return Stood(
        {placed.key: each.opening.name for each in filled for placed in each.photos},
        frozenset(each.opening.name for each in filled if each.holds == "card"),
    )


def axes_of(openings: Sequence[Opening], by: Weights) -> list[tuple[Frame, int, float]]:
    """The centre lines that count: frame, 0 for left and right or 1 for above and below, points for each inch cubed of
    difference."""
    spread, pages = frames_of(openings)
    found = []
    for frame, weight in ((spread, by.balance_spread), *((page, by.balance_page) for page in pages)):
        full = [t for o in openings for t in in_frame(frame, o.side, (o.box,), PHOTO_WEIGHT)]
        for axis, halves in enumerate(halves_of(frame, full)):
            total = (halves.first + halves.second) / 2
            found += [(frame, axis, weight / total)] if total else []
    return found


def value_of(case: Case, filled: Sequence[Filled]) -> float:
    """The worth of a plan."""
    by, stood = case.by, stood_in(case.before)
    pictures = {picture.key: at for at, picture in enumerate(case.pictures)}
    story, standing = places_in_story(case.pictures), standings(case.pictures)
    value = by.placed * min(wanted_photos(case), sum(len(each.photos) for each in filled))
    for each, place in zip(filled, places_on_spread(len(case.openings)), strict=True):
        name = each.opening.name
        if each.holds == "empty" and name not in case.asked.empty:
            value -= by.empty
        if each.holds == "card" and name in stood.cards:
            value += by.stay
        if each.photos:
            value += way_worth(each.opening, Way(each.collage, tuple(p.cell for p in each.photos)), by)
        for placed in each.photos:
            at = pictures[placed.key]
            value += look_worth(case.pictures[at], standing[at], placed.cell, by) + story_worth(story[at], place, by)
            value += by.stay * (stood.photos.get(placed.key) == name)
    return value - _unbalance(case, filled) - by.even * _unevenness(filled)


def _unbalance(case: Case, filled: Sequence[Filled]) -> float:
    lost = 0.0
    for frame, axis, weight in axes_of(case.openings, case.by):
        halves = halves_of(frame, things_of(frame, filled))[axis]
        lost += weight * abs(halves.first - halves.second)
    return lost


def _unevenness(filled: Sequence[Filled]) -> float:
    """The difference of the shares of pockets that hold cards, 0..1; none where there is one page only."""
    left, right = ([f.holds == "card" for f in filled if f.opening.side == side] for side in ("left", "right"))
    return abs(sum(left) / len(left) - sum(right) / len(right)) if left and right else 0.0
