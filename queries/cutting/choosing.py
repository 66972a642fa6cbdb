"""Which patterns are printed, and how often: the fewest prints that hold all pieces, by integer programming. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, inf

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, linprog, milp

from queries.cutting.trees import Counts, Tree

Floats = NDArray[np.float64]

#: What a bound in floating point may be above the true one.
_HAIR = 1e-6

#: The search for fewer different patterns ends after so many branches, so that the same order gives the same prints.
_BRANCHES = 200


@dataclass(frozen=True, slots=True)
class Pattern:
    """Pieces that fit on one print together; `shrunk`: only when they are shrunk. `tree` is one way to lay them."""

    counts: Counts
    tree: Tree
    shrunk: bool = False


@dataclass(frozen=True, slots=True)
class Chosen:
    """How often each pattern is printed; no choice of the same patterns takes fewer than `lower_bound`."""

    uses: tuple[int, ...]
    lower_bound: int

    @property
    def prints(self) -> int:
        return sum(self.uses)


def fewest(patterns: Sequence[Pattern], demand: Counts, seconds: float, *, at_least: int = 1) -> Chosen:
    """The fewest prints, as far as the time allows; `at_least` are known to be needed.

    Every kind of piece stands in some pattern.
    """
    found = milp(
        np.ones(len(patterns)),
        integrality=np.ones(len(patterns)),
        bounds=Bounds(0, sum(demand)),
        constraints=LinearConstraint(
            np.vstack([_matrix(patterns), np.ones(len(patterns))]), np.array([*demand, at_least], float), inf
        ),
        options={"time_limit": max(seconds, 0.5), "mip_rel_gap": 0.0},
    )
    if found.x is None:
        return _one_each(patterns, demand)
    return Chosen(_uses(found.x), _bound(found))


def least_bother(patterns: Sequence[Pattern], demand: Counts, chosen: Chosen, seconds: float) -> Chosen:
    """As few prints, of them fewest shrunk, then with the fewest different patterns, as far as a short search finds."""
    count, total = len(patterns), chosen.prints
    dear = [float(pattern.shrunk) * (count + 1) for pattern in patterns]
    matrix = _matrix(patterns)
    zeros = np.zeros_like(matrix)
    used = np.hstack([np.eye(count), -np.diag(_most_uses(matrix, demand, total))])
    found = milp(
        np.array(dear + [1.0] * count),
        integrality=np.ones(2 * count),
        bounds=Bounds(0, np.array([float(total)] * count + [1.0] * count)),
        constraints=[
            LinearConstraint(np.hstack([matrix, zeros]), np.array(demand, float), inf),
            LinearConstraint(np.array([[1.0] * count + [0.0] * count]), total, total),
            LinearConstraint(used, -inf, 0),
        ],
        options={"node_limit": _BRANCHES, "time_limit": max(seconds, 0.5)},
    )
    if found.x is None:
        return chosen
    better = Chosen(_uses(found.x[:count]), chosen.lower_bound)
    return better if _bother(patterns, better) < _bother(patterns, chosen) else chosen


@dataclass(frozen=True, slots=True)
class Relaxed:
    """The programme with parts of prints allowed: its value, how often each pattern is printed, and what one more piece
    of each kind costs."""

    value: float
    uses: Floats
    prices: Floats


def relaxed(patterns: Sequence[Pattern], demand: Counts) -> Relaxed:
    found = linprog(np.ones(len(patterns)), A_ub=-_matrix(patterns), b_ub=-np.array(demand, float), method="highs")
    return Relaxed(float(found.fun), found.x, np.maximum(-found.ineqlin.marginals, 0.0))


def whole_bound(value: float) -> int:
    """The fewest whole prints that a bound in floating point proves."""
    return ceil(value - _HAIR * max(1.0, value))


def _matrix(patterns: Sequence[Pattern]) -> Floats:
    return np.array([pattern.counts for pattern in patterns], float).T


def _uses(found: Floats) -> tuple[int, ...]:
    return tuple(round(value) for value in found)


def _bound(found: OptimizeResult) -> int:
    return max(1, whole_bound(found.fun if found.status == 0 else found.mip_dual_bound or 1.0))


def _most_uses(matrix: Floats, demand: Counts, total: int) -> Floats:
    """A pattern is never needed more often than its most wanted kind asks for."""
    wanted = np.ceil(np.array(demand, float)[:, None] / np.maximum(matrix, 1.0)) * (matrix > 0)
    most: Floats = np.minimum(wanted.max(axis=0), total)
    return most


def _bother(patterns: Sequence[Pattern], chosen: Chosen) -> tuple[int, int, int]:
    pairs = list(zip(patterns, chosen.uses, strict=True))
    shrunk = sum(uses for pattern, uses in pairs if pattern.shrunk)
    return chosen.prints, shrunk, sum(uses > 0 for _, uses in pairs)


def _one_each(patterns: Sequence[Pattern], demand: Counts) -> Chosen:
    """Each kind by the pattern that has most of it: what is left when time is up."""
    uses = [0] * len(patterns)
    for kind, count in enumerate(demand):
        best = max(range(len(patterns)), key=lambda number: patterns[number].counts[kind])
        uses[best] += -(-count // patterns[best].counts[kind])
    return Chosen(tuple(uses), 1)
