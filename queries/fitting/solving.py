"""A spread solved by `scipy.optimize.milp`. Pure."""

from dataclasses import dataclass
from math import inf, isfinite

import numpy as np
from scipy.optimize import Bounds, OptimizeResult, milp

from indexer.errors import PlanError
from queries.fitting.assigning import filled_by
from queries.fitting.programme import Programme, choices_in, programme_of
from queries.fitting.table import Table
from queries.fitting.values import Filled
from queries.fitting.weights import PROVEN_GAP
from queries.fitting.worth import value_of

#: What `milp` says of a programme that no values of the variables can meet.
_INFEASIBLE = 2


@dataclass(frozen=True, slots=True)
class Solution:
    """A filling found, without its reasons, and its value; `bound` is proven: none is worth more."""

    filled: tuple[Filled, ...]
    value: float
    bound: float

    @property
    def gap(self) -> float:
        """How much better another filling could be at most, as a share of the value."""
        return gap_of(self.value, self.bound)


def gap_of(value: float, bound: float) -> float:
    return max(0.0, bound - value) / max(abs(value), 1.0)


def solve(table: Table, seconds: float) -> Solution:
    """The best filling of the table's openings that is found in the time. Raises PlanError where there is none."""
    made, found = _solved(table, seconds)
    if found.x is None:
        raise PlanError(_no_plan(found.status, seconds))
    return _solution(table, made, found)


def solve_above(table: Table, seconds: float, value: float) -> tuple[Solution | None, float]:
    """The same, as far as a filling is worth more than `value`: None where none is found. And the proven bound."""
    made, found = _solved(table, seconds, above=value)
    if found.x is not None:
        solution = _solution(table, made, found)
        return solution, solution.bound
    return None, value if found.status == _INFEASIBLE else inf


def _solved(table: Table, seconds: float, above: float | None = None) -> tuple[Programme, OptimizeResult]:
    made = programme_of(table)
    if above is not None:
        made.bind(above, inf, dict(enumerate(made.worth)))
    found = milp(
        -np.array(made.worth),
        integrality=made.whole,
        bounds=Bounds(0, made.upper),
        constraints=made.constraints(),
        options={"time_limit": max(seconds, 0.1), "mip_rel_gap": PROVEN_GAP / 10},
    )
    return made, found


def _solution(table: Table, made: Programme, found: OptimizeResult) -> Solution:
    filled = filled_by(table, choices_in(made, found.x))
    value = value_of(table.case, filled)
    bound = -found.mip_dual_bound if found.mip_dual_bound is not None and isfinite(found.mip_dual_bound) else inf
    return Solution(filled, value, max(bound, value))


def _no_plan(status: int, seconds: float) -> str:
    if status == _INFEASIBLE:
        return "no plan meets all that was asked together; ask for fewer cards, photos, pins or collages"
    return f"no plan was found within {seconds:g} seconds; name fewer photos, or the sleeves"
