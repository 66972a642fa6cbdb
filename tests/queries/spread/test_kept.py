"""The plans that are kept of weeks' spreads"""

import sqlite3
from datetime import date

from indexer.store.plans import tell_plan
from queries.spread.kept import album_neighbours, kept_plans
from queries.spread.plan_words import plan_text
from queries.week_log import Word
from queries.weeks import WeekRule
from tests.queries.spread.made_plans import CAT, GULL, KITE, PIER, RULE, kept, week, wide

MARCH, APRIL = week("2026-03-30"), week("2026-04-06")


def test_the_latest_plan_of_a_week_holds(index: sqlite3.Connection) -> None:
    """A later plan takes the place of an earlier one, of that week alone."""
    tell_plan(index, MARCH.first_day, plan_text(kept(named=(KITE,))))
    tell_plan(index, APRIL.first_day, plan_text(kept(named=(CAT,))))
    tell_plan(index, MARCH.first_day, plan_text(kept(named=(PIER,))))
    found = kept_plans(index, RULE)
    assert {week: plan.named for week, plan in found.by_week.items()} == {MARCH: (PIER,), APRIL: (CAT,)}
    assert not found.unreadable


def test_a_plan_can_be_forgotten_and_made_again(index: sqlite3.Connection) -> None:
    """Forgetting is a word too, and the last one holds."""
    tell_plan(index, MARCH.first_day, plan_text(kept()))
    tell_plan(index, MARCH.first_day, None)
    assert kept_plans(index, RULE).by_week == {}
    tell_plan(index, MARCH.first_day, plan_text(kept()))
    assert kept_plans(index, RULE).by_week == {MARCH: kept()}


def test_a_plan_told_when_weeks_began_on_another_day(index: sqlite3.Connection) -> None:
    """It shows in the week that holds its fourth day, and is forgotten there."""
    sunday = WeekRule(6, 1)
    tell_plan(index, date(2026, 3, 29), plan_text(kept()))
    assert kept_plans(index, RULE).by_week == {MARCH: kept()}
    assert list(kept_plans(index, sunday).by_week) == [sunday.week_of(date(2026, 3, 29))]
    tell_plan(index, MARCH.first_day, None)
    assert kept_plans(index, RULE).by_week == {}
    assert kept_plans(index, sunday).by_week == {}


def test_a_plan_that_cannot_be_read_is_told_of(index: sqlite3.Connection) -> None:
    """It is not taken for no plan at all."""
    tell_plan(index, MARCH.first_day, '{"form": 99}')
    found = kept_plans(index, RULE)
    assert (found.by_week, set(found.unreadable)) == ({}, {MARCH})


def test_a_photo_edited_and_saved_over_stays_on_its_plan(index: sqlite3.Connection) -> None:
    """Its new key stands where the old one stood, also after a second edit; a plan that has both is left alone."""
    tell_plan(index, MARCH.first_day, plan_text(kept(wide("L1", KITE), wide("R1", CAT), named=(KITE,))))
    tell_plan(index, APRIL.first_day, plan_text(kept(wide("L1", KITE), wide("R1", PIER))))
    for number, (old, new) in enumerate([(KITE, PIER), (PIER, GULL)]):
        index.execute("INSERT INTO succession VALUES (?, ?, ?, ?)", (str(number), f"2026-05-0{number + 1}", old, new))
    found = kept_plans(index, RULE).by_week
    assert (found[MARCH].keys, found[MARCH].named) == ((GULL, CAT), (GULL,))
    assert found[APRIL].keys == (KITE, GULL)


def test_the_album_s_neighbours_pass_over_skipped_weeks() -> None:
    """A skipped week has no pages; at the edge of the calendar there is no neighbour."""
    skipped = {week(day): Word("", "", "skipped", (), "") for day in ("2026-03-30", "2026-03-23")}
    assert album_neighbours(APRIL, {}, RULE) == (MARCH, week("2026-04-13"))
    assert album_neighbours(APRIL, skipped, RULE) == (week("2026-03-16"), week("2026-04-13"))
    assert album_neighbours(APRIL, {MARCH: Word("", "", "done", (), "")}, RULE)[0] == MARCH
    first = RULE.week_of(date(1, 1, 8))
    assert album_neighbours(first, {}, RULE)[0] == RULE.week_of(date(1, 1, 1))
    assert album_neighbours(RULE.week_of(date(1, 1, 1)), {}, RULE)[0] is None
