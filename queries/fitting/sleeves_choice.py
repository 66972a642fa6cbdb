"""No sleeve named: which two of those at home, with the best plan in them.

A quick bound for every pair, then the pairs are solved in the order of their bounds, until none that is left can be
better. Pure but for the clock, which it reads to keep its time.
"""

from collections.abc import Sequence
from time import monotonic

from indexer.errors import PlanError
from queries.fitting.bounds import prices_of, upper_bound
from queries.fitting.planning import plan_of, table_for
from queries.fitting.solving import Solution, solve, solve_above
from queries.fitting.table import Table
from queries.fitting.values import Asked, Picture, Plan, openings_of
from queries.fitting.weights import PROVEN_GAP, WEIGHTS, Weights
from queries.fitting.worth import Case
from queries.sleeves.values import Sleeve

#: Left and right page, each the face as it is seen; None where the page has no sleeve.
Pair = tuple[Sleeve, Sleeve]


def plan_over_sleeves(
    pictures: Sequence[Picture],
    choices: Sequence[Pair],
    asked: Asked,
    *,
    before: Plan | None = None,
    seconds: float = 60.0,
    by: Weights = WEIGHTS,
) -> tuple[Plan, Pair]:
    """The best plan over all pairs of sleeves, and its pair; both are the faces as they are seen.

    Pairs that what was asked does not suit (a pin on L9 where there are six pockets) are passed over. Raises PlanError
    where it suits none, or where there is no pair. The plan's `gap` counts the pairs that there was no time for.
    """
    until = monotonic() + seconds
    tables = _tables(pictures, choices, asked, before, by)
    bounds = _bounds([table for _, table in tables])
    order = sorted(range(len(tables)), key=lambda at: -bounds[at])
    best: tuple[Solution, int] | None = None
    proven, problem = float("-inf"), None
    for at in order:
        if best and (bounds[at] <= best[0].value * (1 + PROVEN_GAP / 2) or monotonic() > until):
            proven = max(proven, bounds[at])
            break
        left = max(until - monotonic(), 1.0)
        if best is None:
            try:
                best = solve(tables[at][1], left), at
            except PlanError as error:
                problem = error
                continue
            proven = max(proven, min(best[0].bound, bounds[at]))
            continue
        found, bound = solve_above(tables[at][1], left, best[0].value)
        proven = max(proven, min(bound, bounds[at]))
        if found and found.value > best[0].value:
            best = found, at
    if best is None:
        raise problem or PlanError("there is no pair of sleeves to choose from; say which ones are at home")
    solution, at = best
    whole = Solution(solution.filled, solution.value, max(proven, solution.value))
    return plan_of(tables[at][1].case, whole), tables[at][0]


def _tables(
    pictures: Sequence[Picture], choices: Sequence[Pair], asked: Asked, before: Plan | None, by: Weights
) -> list[tuple[Pair, Table]]:
    found, problem = [], None
    for pair in choices:
        try:
            found.append((pair, table_for(Case(pictures, openings_of(*pair), asked, before, by))))
        except PlanError as error:
            problem = problem or error
    if problem and not found:
        raise problem
    return found


def _bounds(tables: Sequence[Table]) -> list[float]:
    """A bound for each: the lower of two, with the prices of the pair in the middle, then with those of the most
    promising one."""
    if len(tables) < 2:
        return [float("inf")] * len(tables)
    prices = prices_of(tables[len(tables) // 2])
    first = [upper_bound(table, prices) for table in tables]
    prices = prices_of(tables[max(range(len(tables)), key=lambda at: first[at])])
    return [min(bound, upper_bound(table, prices)) for bound, table in zip(first, tables, strict=True)]
