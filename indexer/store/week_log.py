"""The log of what was told of each week."""

import json
import sqlite3
from collections.abc import Collection, Sequence
from datetime import date

from indexer.errors import WordError
from indexer.store.words import is_text, new_stamp


def tell_week(
    connection: sqlite3.Connection,
    first_day: date,
    state: str,
    *,
    waiting_for: Sequence[str] = (),
    note: str = "",
    holding: Collection[str] = (),
) -> None:
    """Add a word about the week that begins on `first_day`; `holding` are the keys of the photos it holds when done.

    Runs inside the caller's transaction. Raises WordError for text that no backup could carry.
    """
    if any(not is_text(text) for text in (*waiting_for, note)):
        raise WordError("a note or a wait holds bytes that are no text; type it anew")
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO week_log (uuid, told_at, first_day, state, waiting_for, note) VALUES (?, ?, ?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, first_day.isoformat(), state, json.dumps(list(waiting_for)), note),
    )
    connection.executemany(
        "INSERT INTO week_holding (log_uuid, photo_key) VALUES (?, ?)", [(stamp.uuid, key) for key in sorted(holding)]
    )
