"""What was told for weeks' journaling cards: their own words, and words taken back."""

import sqlite3
from datetime import date

from indexer.errors import WordError
from indexer.store.words import is_text, new_stamp


def tell_note(connection: sqlite3.Connection, first_day: date, day: date | None, text: str) -> str:
    """Keep a text for the week that begins on `first_day`, of one day or of the whole week (None); its UUID.

    Runs inside the caller's transaction. Raises WordError for a text that is empty or that no backup could carry.
    """
    if not text or not is_text(text):
        raise WordError("a note is empty or holds bytes that are no text; type it anew")
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO note_log (uuid, told_at, first_day, day, text) VALUES (?, ?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, first_day.isoformat(), day.isoformat() if day else None, text),
    )
    return stamp.uuid


def take_back(connection: sqlite3.Connection, uuid: str) -> None:
    """Keep that a note no longer holds; the note itself stays in the log. Runs inside the caller's transaction.

    Raises WordError where it holds no more: another run may have been first.
    """
    held = connection.execute("SELECT first_day, day FROM week_note WHERE uuid = ?", (uuid,)).fetchone()
    if held is None:
        raise WordError("this note was taken back already; weeksheaf note WEEK lists those that hold")
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO note_log (uuid, told_at, first_day, day, takes_back) VALUES (?, ?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, held["first_day"], held["day"], uuid),
    )
