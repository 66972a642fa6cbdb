"""The plans that are kept of weeks' spreads."""

import sqlite3
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from indexer.errors import WeekError
from queries.spread.plan_words import plan_in
from queries.spread.values import KeptPlan
from queries.week_log import Word
from queries.weeks import Week, WeekRule


@dataclass(frozen=True, slots=True)
class KeptPlans:
    """The plan of each week that has one; `unreadable` are the weeks of which what was kept cannot be read."""

    by_week: Mapping[Week, KeptPlan]
    unreadable: Collection[Week] = frozenset()


def kept_plans(connection: sqlite3.Connection, rule: WeekRule) -> KeptPlans:
    """The latest plan of each week, by the week that holds the told week's fourth day."""
    texts: dict[Week, str | None] = {}
    # the log and not its view: the last word holds whichever first day the week had when it was told
    for row in connection.execute("SELECT first_day, plan FROM plan_log ORDER BY told_at, uuid"):
        if week := rule.whole_week_told(date.fromisoformat(row["first_day"])):
            texts[week] = row["plan"]
    edits = connection.execute("SELECT old_key, new_key FROM succession ORDER BY told_at, uuid").fetchall()
    plans = {week: plan_in(_followed(text, edits)) for week, text in texts.items() if text is not None}
    return KeptPlans(
        {week: plan for week, plan in plans.items() if plan}, {week for week, plan in plans.items() if not plan}
    )


def _followed(text: str, edits: Iterable[tuple[str, str]]) -> str:
    """The plan with the photos that took the place of those which were edited and saved over; keys stand nowhere but
    for photos."""
    for old, new in edits:
        if old in text and new not in text:
            text = text.replace(old, new)
    return text


def album_neighbours(week: Week, words: Mapping[Week, Word], rule: WeekRule) -> tuple[Week | None, Week | None]:
    """The weeks whose pages come before and after in the album: skipped weeks have none."""
    return _beside(week, -1, words, rule), _beside(week, 7, words, rule)


def _beside(week: Week, days: int, words: Mapping[Week, Word], rule: WeekRule) -> Week | None:
    while True:
        try:
            week = rule.week_of(date.fromordinal(week.first_day.toordinal() + days))
        except (WeekError, ValueError, OverflowError):  # the edge of the calendar
            return None
        if week not in words or words[week].state != "skipped":
            return week
