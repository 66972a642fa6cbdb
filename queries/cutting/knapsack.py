"""The worthiest set of pieces that fits on one print, each kind as often as one likes. Pure.

The two-dimensional guillotine knapsack of Gilmore and Gomory (1965: from memory): the best of a rectangle is a piece or
the best two rectangles that one cut makes of it. Only sums of the pieces' sides need be looked at as places of cuts
(Herz 1972: from memory).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from queries.cutting.trees import Form, Tree, join

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: More places of cuts than this along a side take too long.
MOST_PLACES = 320


@dataclass(frozen=True, slots=True)
class Grid:
    """The places of cuts along both sides; `rest_x[i, k]` is the place of what is left of place i less place k.

    `sizes` are the forms' widths and heights, in the unit of the places.
    """

    forms: tuple[Form, ...]
    sizes: tuple[tuple[int, int], ...]
    xs: Ints
    ys: Ints
    rest_x: Ints
    rest_y: Ints


def grids_of(forms: Sequence[Form], width: int, height: int) -> tuple[Grid, Grid]:
    """A grid for sets that fit, and one for bounds on them: the same one where the places are few enough.

    Else lengths count in units so coarse that the places are few: rounded up, what fits the grid fits the paper;
    rounded down, what fits the paper fits the grid.
    """
    exact = _grid(forms, (width, height), 1, 0)
    if exact is not None:
        return exact, exact
    unit = max(width, height) // (MOST_PLACES - 1) + 1
    fitting, bounding = _grid(forms, (width, height), unit, unit - 1), _grid(forms, (width, height), unit, 0)
    assert fitting is not None, "fewer units than places"
    assert bounding is not None
    return fitting, bounding


def _grid(forms: Sequence[Form], size: tuple[int, int], unit: int, more: int) -> Grid | None:
    sizes = tuple(((form.width + more) // unit, (form.height + more) // unit) for form in forms)
    xs = _sums({width for width, _ in sizes}, size[0] // unit)
    ys = _sums({height for _, height in sizes}, size[1] // unit)
    return None if xs is None or ys is None else Grid(tuple(forms), sizes, xs, ys, _rests(xs), _rests(ys))


def worthiest(grid: Grid, worth: Sequence[float]) -> tuple[float, Tree | None]:
    """The largest sum of worths that fits, and a tree that has it; no tree where nothing is worth more than 0."""
    best = _best(grid, worth)
    at = (len(grid.xs) - 1, len(grid.ys) - 1)
    return float(best[at]), _tree(grid, worth, best, *at)


def _best(grid: Grid, worth: Sequence[float]) -> Floats:
    best = np.zeros((len(grid.xs), len(grid.ys)))
    for form, (width, height) in zip(grid.forms, grid.sizes, strict=True):
        area = best[np.searchsorted(grid.xs, width) :, np.searchsorted(grid.ys, height) :]
        np.maximum(area, worth[form.kind], out=area)
    halves_x, halves_y = _halves(grid.xs), _halves(grid.ys)
    for i in range(1, len(grid.xs)):
        row = np.maximum(best[i], best[i - 1], out=best[i])
        first = slice(1, halves_x[i])
        if halves_x[i] > 1:
            np.maximum(row, (best[first] + best[grid.rest_x[i, first]]).max(axis=0), out=row)
        for j in range(1, len(grid.ys)):
            row[j] = max(row[j], row[j - 1])
            upper = slice(1, halves_y[j])
            if halves_y[j] > 1:
                row[j] = max(row[j], (row[upper] + row[grid.rest_y[j, upper]]).max())
    return best


def _tree(grid: Grid, worth: Sequence[float], best: Floats, i: int, j: int) -> Tree | None:
    """The tree behind a best value: found again by asking which choice has it."""
    value = best[i, j]
    if value <= 0:
        return None
    for form, (width, height) in zip(grid.forms, grid.sizes, strict=True):
        if width <= grid.xs[i] and height <= grid.ys[j] and worth[form.kind] >= value - 1e-12:
            return form
    beside = best[1 : i + 1, j] + best[grid.rest_x[i, 1 : i + 1], j]
    below = best[i, 1 : j + 1] + best[i, grid.rest_y[j, 1 : j + 1]]
    k, m = int(beside[:-1].argmax()) if i > 1 else 0, int(below[:-1].argmax()) if j > 1 else 0
    if i > 1 and beside[k] >= value - 1e-12:
        parts = _tree(grid, worth, best, k + 1, j), _tree(grid, worth, best, int(grid.rest_x[i, k + 1]), j)
        return _joined(True, *parts)
    if j > 1 and below[m] >= value - 1e-12:
        parts = _tree(grid, worth, best, i, m + 1), _tree(grid, worth, best, i, int(grid.rest_y[j, m + 1]))
        return _joined(False, *parts)
    return _tree(grid, worth, best, i - 1, j) if best[i - 1, j] >= value - 1e-12 else _tree(grid, worth, best, i, j - 1)


def _joined(beside: bool, first: Tree | None, second: Tree | None) -> Tree | None:
    return join(beside, first, second) if first and second else first or second


def _sums(lengths: set[int], most: int) -> Ints | None:
    """Every sum of the lengths, each as often as one likes, from 0 to `most`; None where there are too many."""
    found, edge = {0}, {0}
    while edge:
        edge = {at + length for at in edge for length in lengths if at + length <= most} - found
        found |= edge
        if len(found) > MOST_PLACES:
            return None
    return np.array(sorted(found), np.int64)


def _rests(places: Ints) -> Ints:
    rest = places[:, None] - places[None, :]
    places_left: Ints = np.searchsorted(places, np.maximum(rest, 0), side="right") - 1
    return places_left


def _halves(places: Ints) -> list[int]:
    """For each place, the first one beyond half of it."""
    return [int(at) for at in np.searchsorted(places, places / 2, side="right")]
