"""The spread as a mixed-integer programme. Pure.

Variables: for each way to fill an opening 0 or 1, the same for its card and for leaving it empty; for each kind of cell
and photo 0..1; for each centre line, and for the cards, a difference that is paid for. Once the ways are fixed, what is
left is an assignment problem, whose corners are whole numbers: so only the ways need be integers.
"""

from dataclasses import dataclass, field
from math import inf

import numpy as np
from scipy.optimize import LinearConstraint
from scipy.sparse import coo_array

from queries.fitting.balance import halves_of, in_frame
from queries.fitting.table import Floats, Table
from queries.fitting.weights import CARD_WEIGHT, PHOTO_WEIGHT
from queries.fitting.worth import axes_of, wanted_photos

#: What an opening holds: the number of its way, a card or nothing.
Choice = int | str
CARD, EMPTY = "card", "empty"


@dataclass(slots=True)
class Programme:
    """Maximise `worth` over variables between `lower` and `upper`; those of `whole` 1 are integers.

    `choices` has, for each opening, the columns of what it may hold. `rows` gathers the constraints: low, high, and a
    coefficient for each column. `photos` is the first column of the photos, `photo_rows` the first of the rows that let
    each be placed once.
    """

    worth: list[float] = field(default_factory=list)
    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    choices: list[dict[Choice, int]] = field(default_factory=list)
    photos: int = 0
    photo_rows: int = 0
    rows: list[tuple[float, float, list[int], list[float]]] = field(default_factory=list)

    def variable(self, worth: float, upper: float = 1.0, *, whole: bool = False) -> int:
        self.worth.append(worth)
        self.lower.append(0.0)
        self.upper.append(upper)
        self.whole.append(int(whole))
        return len(self.worth) - 1

    def bind(self, low: float, high: float, terms: dict[int, float]) -> None:
        self.rows.append((low, high, list(terms), list(terms.values())))

    def constraints(self) -> LinearConstraint:
        at = np.repeat(np.arange(len(self.rows)), [len(columns) for _, _, columns, _ in self.rows])
        columns = [column for _, _, columns, _ in self.rows for column in columns]
        values = [value for *_, values in self.rows for value in values]
        matrix = coo_array((values, (at, columns)), shape=(len(self.rows), len(self.worth))).tocsc()
        return LinearConstraint(matrix, [row[0] for row in self.rows], [row[1] for row in self.rows])


def programme_of(table: Table) -> Programme:
    made = Programme()
    for row in table.rows:
        columns: dict[Choice, int] = {n: made.variable(way.worth, whole=True) for n, way in enumerate(row.ways)}
        if row.card is not None:
            columns[CARD] = made.variable(row.card, whole=True)
        if row.empty is not None:
            columns[EMPTY] = made.variable(row.empty, whole=True)
        made.choices.append(columns)
        made.bind(1, 1, dict.fromkeys(columns.values(), 1.0))
    made.photos = len(made.worth)
    _bind_photos(made, table)
    _reward_photos(made, table)
    _bind_pins(made, table)
    _bind_counts(made, table)
    _bind_balance(made, table)
    _bind_even_cards(made, table)
    return made


def photo_column(made: Programme, table: Table, kind: int, photo: int) -> int:
    return made.photos + kind * len(table.case.pictures) + photo


def _bind_photos(made: Programme, table: Table) -> None:
    """As many photos in a kind of cell as the way chosen has of them; each photo once at most."""
    kinds, photos = table.worths.shape
    for worth in table.worths.ravel():
        made.variable(float(worth))
    for kind, at in enumerate(table.kind_rows):
        terms = {photo_column(made, table, kind, photo): 1.0 for photo in range(photos)}
        needs = {made.choices[at][n]: -float(way.needs.get(kind, 0)) for n, way in enumerate(table.rows[at].ways)}
        made.bind(0, 0, terms | {column: need for column, need in needs.items() if need})
    made.photo_rows = len(made.rows)
    for photo in range(photos):
        made.bind(0, 1, {photo_column(made, table, kind, photo): 1.0 for kind in range(kinds)})


def _reward_photos(made: Programme, table: Table) -> None:
    """Points for each photo placed, up to the number wanted."""
    counted = made.variable(table.case.by.placed, upper=wanted_photos(table.case))
    made.bind(0, inf, {counted: -1.0} | _photos_of_ways(made, table))


def _photos_of_ways(made: Programme, table: Table) -> dict[int, float]:
    return {
        made.choices[at][n]: float(len(way.way.cells))
        for at, row in enumerate(table.rows)
        for n, way in enumerate(row.ways)
    }


def _bind_pins(made: Programme, table: Table) -> None:
    """A pinned photo is in its opening; pinned to a cell, in the kind of cell that the chosen way has there."""
    numbers = {picture.key: at for at, picture in enumerate(table.case.pictures)}
    for at, row in enumerate(table.rows):
        kinds = [kind for kind, owner in enumerate(table.kind_rows) if owner == at]
        for key, cell in row.slot.pins.items():
            columns = {kind: photo_column(made, table, kind, numbers[key]) for kind in kinds}
            made.bind(1, 1, dict.fromkeys(columns.values(), 1.0))
            for n, way in enumerate(row.ways if cell is not None else ()):
                made.bind(0, 1, {columns[table.kind_of(at, way.way.cells[cell or 0])]: 1.0, made.choices[at][n]: -1.0})


def _bind_counts(made: Programme, table: Table) -> None:
    asked, photos = table.case.asked, _photos_of_ways(made, table)
    if asked.card_count is not None:
        cards = [columns[CARD] for columns in made.choices if CARD in columns]
        made.bind(asked.card_count, asked.card_count, dict.fromkeys(cards, 1.0))
    if asked.photo_count is not None:
        made.bind(asked.photo_count, asked.photo_count, photos)


def _bind_balance(made: Programme, table: Table) -> None:
    """For each centre line a variable that is at least the difference of the halves, either way."""
    for frame, axis, weight in axes_of(table.case.openings, table.case.by):
        terms: dict[int, float] = {}
        for row, columns in zip(table.rows, made.choices, strict=True):
            side = row.slot.opening.side
            for choice, column in columns.items():
                cells = row.ways[choice].way.cells if isinstance(choice, int) else (row.slot.opening.box,)
                density = PHOTO_WEIGHT if isinstance(choice, int) else CARD_WEIGHT * (choice == CARD)
                halves = halves_of(frame, in_frame(frame, side, cells, density))[axis]
                if halves.first != halves.second:
                    terms[column] = weight * (halves.first - halves.second)
        _pay(made, terms, 1.0)


def _bind_even_cards(made: Programme, table: Table) -> None:
    sides = [row.slot.opening.side for row in table.rows]
    if len(set(sides)) == 2:
        terms = {
            columns[CARD]: (1 if side == "left" else -1) / sides.count(side)
            for side, columns in zip(sides, made.choices, strict=True)
            if CARD in columns
        }
        _pay(made, terms, table.case.by.even)


def _pay(made: Programme, terms: dict[int, float], points: float) -> None:
    """Take off so many points for each unit of the terms' sum, whichever its sign."""
    if terms and points:
        difference = made.variable(-points, upper=inf)
        made.bind(0, inf, {difference: 1.0} | {column: -value for column, value in terms.items()})
        made.bind(0, inf, {difference: 1.0} | terms)


def choices_in(made: Programme, found: Floats) -> tuple[Choice, ...]:
    """What each opening holds in a solution."""
    return tuple(max(columns, key=lambda choice: found[columns[choice]]) for columns in made.choices)
