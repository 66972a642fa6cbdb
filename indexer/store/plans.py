"""What was told of a week's spread: its plan, whole, or that it is forgotten."""

import sqlite3
from datetime import date

from indexer.store.words import new_stamp


def tell_plan(connection: sqlite3.Connection, first_day: date, plan: str | None) -> None:
    """Keep the plan (JSON text) of the week that begins on `first_day`; None: it has none any longer.

    Runs inside the caller's transaction.
    """
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO plan_log (uuid, told_at, first_day, plan) VALUES (?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, first_day.isoformat(), plan),
    )
