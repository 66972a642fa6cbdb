"""Ways chosen -> the openings filled: which photo in which cell, by `scipy.optimize.linear_sum_assignment`. Pure."""

from collections.abc import Mapping, Sequence

import numpy as np
from scipy.optimize import linear_sum_assignment

from queries.fitting.kept import kept_share
from queries.fitting.programme import EMPTY, Choice
from queries.fitting.resolution import dpi_of
from queries.fitting.table import Floats, Table
from queries.fitting.values import Filled, Picture, Placed
from queries.sleeves.values import Box

#: Points that outweigh all else, so that pins hold; small enough to leave the other figures exact.
_MUST = 1e6


def filled_by(table: Table, choices: Sequence[Choice]) -> tuple[Filled, ...]:
    """The openings filled as chosen, with the photos that are worth most in them all together. No reasons yet."""
    cells = [
        (at, number, cell)
        for at, choice in enumerate(choices)
        for number, cell in enumerate(table.rows[at].ways[choice].way.cells if isinstance(choice, int) else ())
    ]
    photos = _best_photos(table, cells)
    return tuple(
        _filled(
            table, at, choice, _in_story_order(table, {n: photos[at, n] for a, n, _ in cells if a == at}, at, choice)
        )
        for at, choice in enumerate(choices)
    )


def placed_in(picture: Picture, cell: Box) -> Placed:
    return Placed(picture.key, cell, kept_share(picture, cell), dpi_of(picture, cell))


def _best_photos(table: Table, cells: Sequence[tuple[int, int, Box]]) -> dict[tuple[int, int], int]:
    """Opening and number of cell -> the number of its photo."""
    if not cells:
        return {}
    worth = np.array([table.worths[table.kind_of(at, cell)] for at, _, cell in cells])
    rows, columns = linear_sum_assignment(worth + _pinned(table, cells), maximize=True)
    return {cells[row][:2]: int(column) for row, column in zip(rows, columns, strict=True)}


def _pinned(table: Table, cells: Sequence[tuple[int, int, Box]]) -> Floats:
    """Points that put pinned photos where they belong, and nowhere else."""
    points = np.zeros((len(cells), len(table.case.pictures)))
    for number, picture in enumerate(table.case.pictures):
        for owner, row in enumerate(table.rows):
            if picture.key in row.slot.pins:
                wanted = row.slot.pins[picture.key]
                points[:, number] = [
                    _MUST if at == owner and wanted in (None, n) else -_MUST for at, n, _ in cells
                ]  # fmt: skip
    return points


def _in_story_order(table: Table, photos: Mapping[int, int], at: int, choice: Choice) -> list[int]:
    """An opening's photos in the order of its cells: those in cells of one kind, pins aside, as they were lived."""
    if not isinstance(choice, int):
        return []
    pictures, row = table.case.pictures, table.rows[at]
    pins = row.slot.pins
    arranged = dict(photos)
    for kind in row.ways[choice].needs:
        cells = [
            n
            for n, cell in enumerate(row.ways[choice].way.cells)
            if table.kind_of(at, cell) == kind and pins.get(pictures[photos[n]].key) is None
        ]
        ordered = sorted((photos[n] for n in cells), key=lambda number: pictures[number].order)
        arranged |= dict(zip(cells, ordered, strict=True))
    return [arranged[n] for n in sorted(arranged)]


def _filled(table: Table, at: int, choice: Choice, photos: Sequence[int]) -> Filled:
    row = table.rows[at]
    if not isinstance(choice, int):
        return Filled(row.slot.opening, "empty" if choice == EMPTY else "card", (), None, "")
    way = row.ways[choice].way
    placed = tuple(placed_in(table.case.pictures[number], cell) for number, cell in zip(photos, way.cells, strict=True))
    return Filled(row.slot.opening, "collage" if way.collage else "photo", placed, way.collage, "")
