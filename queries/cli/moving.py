"""What `clock` and `assign` share: tell a word, then say which weeks it touched."""

import sqlite3
from collections.abc import Callable, Iterator
from typing import TypeVar

from queries.cli.output import plural
from queries.cli.session import Session
from queries.week_log import latest_words
from queries.week_moves import WeekMoves, placed_by_key, week_moves
from queries.weeks import week_words

_T = TypeVar("_T")


def tell_and_compare(session: Session, tell: Callable[[sqlite3.Connection], _T]) -> tuple[_T, WeekMoves]:
    """Tell inside one transaction; what `tell` gave, and the photos that are in another week by it."""
    rule, starts_at = session.settings.week_rule, session.settings.day_starts_at
    with session.telling() as connection:
        before = placed_by_key(connection)
        told = tell(connection)
        after = placed_by_key(connection)
    return told, week_moves(before, after, latest_words(session.connection, rule), rule, starts_at)


def done_lines(moves: WeekMoves) -> Iterator[str]:
    """A line for each done week that is touched."""
    for week in moves.done:
        yield f"{week_words(week)} is done and stays as made; photos late or gone: weeksheaf week {week.name}"


def moved_line(moves: WeekMoves) -> str:
    """How many photos are in another week."""
    if not moves.keys:
        return "No photo changes its week."
    return f"{plural(len(moves.keys), 'photo is', 'photos are')} in another week now."
