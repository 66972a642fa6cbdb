"""What was told of sleeves: drawings, and which sleeves are at home."""

import sqlite3
from collections.abc import Iterable

from indexer.store.words import new_stamp


def tell_drawing(connection: sqlite3.Connection, name: str, cell: str, drawing: str) -> None:
    """Keep a checked drawing under its name, in place of an earlier one. Runs inside the caller's transaction."""
    _tell(connection, name, cell, drawing)


def take_back_drawing(connection: sqlite3.Connection, name: str) -> None:
    """Keep that a drawn sleeve is no more. Runs inside the caller's transaction."""
    _tell(connection, name, None, None)


def tell_owned(connection: sqlite3.Connection, names: Iterable[str], *, owned: bool) -> None:
    """Keep that these sleeves are at home, or are not. Runs inside the caller's transaction."""
    for name in names:
        stamp = new_stamp(connection)
        connection.execute(
            "INSERT INTO sleeve_own_log (uuid, told_at, name, owned) VALUES (?, ?, ?, ?)",
            (stamp.uuid, stamp.told_at, name, int(owned)),
        )


def _tell(connection: sqlite3.Connection, name: str, cell: str | None, drawing: str | None) -> None:
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO sleeve_log (uuid, told_at, name, cell, drawing) VALUES (?, ?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, name, cell, drawing),
    )
