"""Whether every photo was looked at, compared and put into its sets: one question, asked by every index run."""

import sqlite3

from indexer.alike.values import COMPARING, GROUPING
from indexer.facts.picture_files import LOOKING

#: In `about`: the methods by which all was done. Not there while something is left to do.
_NAME = "alike_settled"
_METHODS = f"looking {LOOKING}, comparing {COMPARING}, grouping {GROUPING}"


def is_settled(connection: sqlite3.Connection) -> bool:
    """Whether nothing is left to do."""
    row = connection.execute("SELECT value FROM about WHERE name = ?", (_NAME,)).fetchone()
    return row is not None and row["value"] == _METHODS


def mark_settled(connection: sqlite3.Connection) -> None:
    """Keep that nothing is left to do, in the caller's transaction."""
    connection.execute(
        "INSERT INTO about (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
        (_NAME, _METHODS),
    )


def unsettle(connection: sqlite3.Connection) -> None:
    """Keep that photos were judged anew, in the caller's transaction: some may be new, dated otherwise, or gone."""
    connection.execute("DELETE FROM about WHERE name = ?", (_NAME,))
