"""The told settings."""

import sqlite3
from datetime import date

from indexer.store.alikes import renew_sets
from indexer.store.archive import BEARING
from indexer.store.pictures import judge_all
from indexer.store.words import new_stamp


def tell_setting(connection: sqlite3.Connection, name: str, value: str | None, today: date) -> None:
    """Keep a checked setting; None goes back to the tool's own choice. Runs inside the caller's transaction.

    A new time zone or start of weeks or days judges every photo anew in the same transaction, and whoever is dated
    otherwise is compared anew: verdicts and sets are derived.
    """
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO setting_log (uuid, told_at, name, value) VALUES (?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, name, value),
    )
    if name in BEARING:
        judge_all(connection, today)
        renew_sets(connection)
