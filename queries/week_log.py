"""What the person told of each week."""

import json
import sqlite3
from dataclasses import dataclass
from datetime import date

from queries.weeks import Week, WeekRule


@dataclass(frozen=True, slots=True)
class Word:
    """One entry of a week's log. `told_at` is UTC."""

    uuid: str
    told_at: str
    state: str
    waiting_for: tuple[str, ...]
    note: str


UNTOLD = Word("", "", "open", (), "")


def latest_words(connection: sqlite3.Connection, rule: WeekRule) -> dict[Week, Word]:
    """What holds for each week that anything was told of, by the week that holds the told week's fourth day."""
    rows = connection.execute("SELECT * FROM week_state ORDER BY told_at, uuid")
    return {week: _word(row) for row in rows if (week := rule.whole_week_told(date.fromisoformat(row["first_day"])))}


def log_of(connection: sqlite3.Connection, week: Week, rule: WeekRule) -> list[Word]:
    """All that was told of a week, oldest first."""
    rows = connection.execute("SELECT * FROM week_log ORDER BY told_at, uuid")
    return [_word(row) for row in rows if rule.whole_week_told(date.fromisoformat(row["first_day"])) == week]


def _word(row: sqlite3.Row) -> Word:
    return Word(row["uuid"], row["told_at"], row["state"], tuple(json.loads(row["waiting_for"])), row["note"])
