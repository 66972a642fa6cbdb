"""All that may go where, and what it is worth: the numbers that programme and bounds are made of. Pure.

Cells of one size in one opening are alike to a photo, whichever collage they belong to: they make one kind of cell, so
that a grid of four asks once for each photo, not four times, and mirrored collages share their kinds.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from queries.fitting.order import places_in_story, places_on_spread, standings
from queries.fitting.slots import Slot, Way
from queries.fitting.worth import Case, look_worth, stood_in, way_worth
from queries.sleeves.values import Box

Floats = NDArray[np.float64]
Size = tuple[float, float]


@dataclass(frozen=True, slots=True)
class WayCost:
    """A way with its own worth and how many cells of each kind it has."""

    way: Way
    worth: float
    needs: Mapping[int, int]


@dataclass(frozen=True, slots=True)
class Row:
    """An opening: its ways, and what a card or nothing in it is worth; None where it may not be."""

    slot: Slot
    ways: tuple[WayCost, ...]
    card: float | None
    empty: float | None


@dataclass(frozen=True, slots=True)
class Table:
    """`rows` are the openings. `worths` has a row for each kind of cell and a column for each photo; `kind_rows` says
    which opening a kind belongs to, `kind_numbers` which kind cells of a size in an opening are."""

    case: Case
    rows: tuple[Row, ...]
    worths: Floats
    kind_rows: tuple[int, ...]
    kind_numbers: Mapping[tuple[int, Size], int]

    def kind_of(self, row: int, cell: Box) -> int:
        return self.kind_numbers[row, size_of(cell)]


def size_of(cell: Box) -> Size:
    return round(cell.width, 6), round(cell.height, 6)


def table_of(case: Case, slots: Sequence[Slot]) -> Table:
    """The table of a spread whose openings may hold what the slots say."""
    numbers: dict[tuple[int, Size], int] = {}
    rows, stood = [], stood_in(case.before)
    for at, slot in enumerate(slots):
        ways = []
        for way in slot.ways:
            kinds = Counter(numbers.setdefault((at, size_of(cell)), len(numbers)) for cell in way.cells)
            ways.append(WayCost(way, way_worth(slot.opening, way, case.by), kinds))
        name = slot.opening.name
        card = case.by.stay * (name in stood.cards) if slot.may_be_card else None
        empty = -case.by.empty * (name not in case.asked.empty) if slot.may_be_empty else None
        rows.append(Row(slot, tuple(ways), card, empty))
    return Table(case, tuple(rows), _worths(case, numbers), tuple(at for at, _ in numbers), numbers)


def _worths(case: Case, kinds: Mapping[tuple[int, Size], int]) -> Floats:
    """What each photo is worth in each kind of cell: its look there, its place in the story, and whether it stays."""
    if not case.pictures or not kinds:
        return np.zeros((len(kinds), len(case.pictures)))
    story, standing = np.array(places_in_story(case.pictures)), standings(case.pictures)
    looks = {
        size: np.array([
            look_worth(picture, stands, Box(0, 0, *size), case.by)
            for picture, stands in zip(case.pictures, standing, strict=True)
        ])
        for _, size in kinds
    }  # fmt: skip
    places = places_on_spread(len(case.openings))
    stood = stood_in(case.before).photos
    stays = {
        opening.name: np.array([stood.get(picture.key) == opening.name for picture in case.pictures])
        for opening in case.openings
    }
    return np.array([
        looks[size] - case.by.story * (story - places[at]) ** 2 + case.by.stay * stays[case.openings[at].name]
        for at, size in kinds
    ])  # fmt: skip
