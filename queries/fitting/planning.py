"""Photos and pockets -> the plan of a spread: the story of fitting. Pure, but for the time it takes."""

from collections.abc import Sequence
from dataclasses import replace

from queries.fitting.asking import check
from queries.fitting.balance import spread_balance
from queries.fitting.explaining import explained, notes_on
from queries.fitting.slots import slots_of
from queries.fitting.solving import Solution, solve
from queries.fitting.table import Table, table_of
from queries.fitting.values import Asked, Opening, Picture, Plan
from queries.fitting.weights import PROVEN_GAP, WEIGHTS, Weights
from queries.fitting.worth import Case


def plan_spread(
    pictures: Sequence[Picture],
    openings: Sequence[Opening],
    asked: Asked,
    *,
    before: Plan | None = None,
    seconds: float = 60.0,
    by: Weights = WEIGHTS,
) -> Plan:
    """The best plan of these photos in these pockets that meets what was asked.

    `before` is a plan that is to be kept as far as that costs little. Raises PlanError, one clear line, for what cannot
    be met; too few photos are no error, nor is running out of `seconds` once a plan was found: `gap` says how good that
    one is.
    """
    case = Case(pictures, openings, asked, before, by)
    return plan_of(case, solve(table_for(case), seconds))


def table_for(case: Case) -> Table:
    """The case checked, and made into numbers. Asked for more photos than there are, all that there are count."""
    check(case.pictures, case.openings, case.asked)
    wanted = case.asked.photo_count
    if wanted is not None and wanted > len(case.pictures):
        case = replace(case, asked=replace(case.asked, photo_count=len(case.pictures)))
    return table_of(case, slots_of(case.pictures, case.openings, case.asked))


def plan_of(case: Case, found: Solution) -> Plan:
    return Plan(
        filled=explained(case, found.filled),
        optimal=found.gap <= PROVEN_GAP,
        gap=found.gap,
        balance=spread_balance(found.filled),
        value=found.value,
        words=notes_on(case, found.filled, found.gap),
    )
