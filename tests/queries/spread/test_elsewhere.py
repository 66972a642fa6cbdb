"""Photos of a plan that stand on the pages of another week"""

import sqlite3

from indexer.store.plans import tell_plan
from indexer.store.week_log import tell_week
from queries.spread.elsewhere import elsewhere_words, found_on, used_elsewhere
from queries.spread.kept import kept_plans
from queries.spread.plan_words import plan_text
from queries.week_log import latest_words
from tests.queries.made_rows import put_set
from tests.queries.spread.made_plans import CAT, GULL, KITE, PIER, RULE, kept, week, wide

MARCH, APRIL = week("2026-03-30"), week("2026-04-06")


def test_a_photo_is_told_of_once_a_week_the_nearest_likeness_first() -> None:
    """Itself before its copy before one of its burst."""
    alike = {KITE: {PIER: "copy", GULL: "burst"}}
    (same, copy) = found_on([KITE], alike, {MARCH: {KITE, PIER}, APRIL: {PIER, GULL}}, {APRIL})
    assert (same.kind, same.other, same.is_done) == ("same", KITE, False)
    assert (copy.kind, copy.other, copy.is_done) == ("copy", PIER, True)


def test_photos_that_stand_nowhere_else_are_not_told_of() -> None:
    """No page, nothing said."""
    assert found_on([KITE], {}, {MARCH: {PIER}}, set()) == []


def test_in_words() -> None:
    """The codes, the week, and whether its pages are made."""
    codes = {KITE: "kite1", PIER: "pier2"}
    (found,) = found_on([KITE], {KITE: {PIER: "copy"}}, {MARCH: {PIER}}, {MARCH})
    assert elsewhere_words(found, codes) == (
        "kite1 stands in 30 Mar - 5 Apr 2026, week 14 (done) already, as its copy pier2."
    )


def test_plans_and_done_pages_are_looked_through(index: sqlite3.Connection) -> None:
    """A done week with a plan holds what the plan holds; one without, what it was marked done with; an open week
    without a plan holds nothing."""
    tell_week(index, MARCH.first_day, "done", holding=[KITE, CAT])
    tell_plan(index, MARCH.first_day, plan_text(kept(wide("L1", KITE), wide("R1", PIER))))
    tell_week(index, week("2026-03-02").first_day, "done", holding=[GULL])
    put_set(index, 1, "burst", [CAT, PIER])
    plans, words = kept_plans(index, RULE).by_week, latest_words(index, RULE)
    found = used_elsewhere(index, [KITE, GULL, CAT], APRIL, plans, words)
    assert [(item.key, item.other, item.kind, item.week.name) for item in found] == [
        (KITE, KITE, "same", "2026-W14"),
        (GULL, GULL, "same", "2026-W10"),
        (CAT, PIER, "burst", "2026-W14"),
    ]
    assert used_elsewhere(index, [KITE], MARCH, plans, words) == []
