"""What was told of photos by hand: the week each belongs to, and when it was taken."""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from indexer.store.alikes import renew_followed_words, renew_sets
from indexer.store.pictures import judge_all
from indexer.store.words import new_stamp


@dataclass(frozen=True, slots=True)
class Assignment:
    """What holds for one photo: the first day of its week as told, and its time; None where nothing was told."""

    week: str | None = None
    taken: str | None = None


def tell_week(connection: sqlite3.Connection, keys: Sequence[str], first_day: date | None, today: date) -> None:
    """Keep that these photos belong to the week that begins on `first_day`, None: to that of their time.

    Judges every photo anew and compares who is dated otherwise, inside the caller's transaction.
    """
    _tell(connection, keys, "week", first_day.isoformat() if first_day else None, today)


def tell_taken(connection: sqlite3.Connection, keys: Sequence[str], time: str | None, today: date) -> None:
    """Keep when these photos were taken, a local wall clock in ISO 8601 of reduced precision; None: what the evidence
    says. Otherwise as `tell_week`."""
    _tell(connection, keys, "taken", time, today)


def forget(connection: sqlite3.Connection, keys: Sequence[str], today: date) -> None:
    """Take back what was told of the week and the time of these photos, inside the caller's transaction."""
    held = assignments(connection)
    for key in keys:
        told = held.get(key, Assignment())
        for what, value in (("week", told.week), ("taken", told.taken)):
            if value is not None:
                _write(connection, key, what, None)
    _derive(connection, today)


def assignments(connection: sqlite3.Connection) -> dict[str, Assignment]:
    """By key: what holds for each photo of which something was told by hand."""
    found: dict[str, dict[str, str]] = {}
    for key, what, value in connection.execute("SELECT photo_key, what, value FROM photo_assignment"):
        found.setdefault(key, {})[what] = value
    return {key: Assignment(**told) for key, told in found.items()}


def _tell(
    connection: sqlite3.Connection, keys: Sequence[str], what: Literal["week", "taken"], value: str | None, today: date
) -> None:
    for key in keys:
        _write(connection, key, what, value)
    _derive(connection, today)


def _write(connection: sqlite3.Connection, key: str, what: str, value: str | None) -> None:
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO assignment (uuid, told_at, photo_key, what, value) VALUES (?, ?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, key, what, value),
    )


def _derive(connection: sqlite3.Connection, today: date) -> None:
    renew_followed_words(connection)
    judge_all(connection, today)
    renew_sets(connection)
