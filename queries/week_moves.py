"""Which photos a word moves to another week, and whether a done week is touched by it. Pure, but for the gathering."""

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import time

from queries.week_log import Word
from queries.weeks import Week, WeekRule, day_of

#: By key: what puts each photo into a week.
Placed = Mapping[str, str | None]


@dataclass(frozen=True, slots=True)
class WeekMoves:
    """`keys` are in another week than before, or in none; `done` are the done weeks that lose or gain some."""

    keys: frozenset[str] = frozenset()
    done: tuple[Week, ...] = ()


NO_MOVES = WeekMoves()


def placed_by_key(connection: sqlite3.Connection) -> Placed:
    """What puts each photo that is there into a week."""
    return dict(map(tuple, connection.execute("SELECT key, placed FROM photo WHERE present")))


def week_moves(before: Placed, after: Placed, words: Mapping[Week, Word], rule: WeekRule, starts_at: time) -> WeekMoves:
    """The photos whose week differs; `words` are what holds of each week."""
    pairs = [
        (key, week_of(before.get(key), rule, starts_at), week_of(placed, rule, starts_at))
        for key, placed in after.items()
        if placed != before.get(key)
    ]
    moved = [(key, weeks) for key, *weeks in pairs if weeks[0] != weeks[1]]
    touched = {week for _, weeks in moved for week in weeks if week}
    done = sorted(week for week in touched if week in words and words[week].state == "done")
    return WeekMoves(frozenset(key for key, _ in moved), tuple(done))


def week_of(placed: str | None, rule: WeekRule, starts_at: time) -> Week | None:
    """The week that a time puts a photo into, None where no day is known."""
    day = day_of(placed, starts_at)
    return rule.whole_week_of(day) if day else None
