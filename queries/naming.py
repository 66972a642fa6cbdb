"""From what a person types to the photo meant: a path, a code, or the first letters of a key."""

import os
import re
import sqlite3
from pathlib import Path

from indexer.errors import UnknownPhotoError
from indexer.facts.codes import LEAST
from indexer.store.library_folders import is_reached, library_folders
from queries.photos import Photo, photos_with_keys

_LETTERS = re.compile(r"[0-9a-f]+", re.IGNORECASE)


def photo_named(connection: sqlite3.Connection, text: str) -> Photo:
    """The one photo that answers to `text`. Raises UnknownPhotoError where none or more than one does."""
    path = Path(text)
    is_file = os.path.isfile(text)  # noqa: PTH113 - of a name too long for the system this is False, not an error
    key = _key_at(connection, path) or (_key_inside(connection, path) if is_file else None)
    if key is None and _LETTERS.fullmatch(text):
        key = _key_by_letters(connection, text.lower())
    found = photos_with_keys(connection, [key]) if key else []
    if not found and _is_indexed(connection, path):
        raise UnknownPhotoError(f"{text} is no photo, or none that can be read; weeksheaf unreadable says why")
    if not found and os.path.isdir(text):  # noqa: PTH112 - as above
        raise UnknownPhotoError(f"{text} is a folder; name a photo by its path or by the code printed beside it")
    if not found:
        raise UnknownPhotoError(
            f"no photo in the index answers to {text}; give its path or the code printed beside it,"
            " and run weeksheaf index if it is new"
        )
    return found[0]


def is_code(text: str) -> bool:
    """Whether a text can be a code or the beginning of a key, and is not the name of a file that is there."""
    return LEAST <= len(text) <= 32 and bool(_LETTERS.fullmatch(text)) and not Path(text).exists()


def _key_at(connection: sqlite3.Connection, path: Path) -> str | None:
    """The key of the indexed file at a path, there or missing."""
    row = _row_at(connection, path)
    return str(row["key"]) if row and row["key"] else None


def _is_indexed(connection: sqlite3.Connection, path: Path) -> bool:
    return _row_at(connection, path) is not None


def _row_at(connection: sqlite3.Connection, path: Path) -> sqlite3.Row | None:
    real = os.path.realpath(path)
    for folder in library_folders(connection):
        if is_reached(real, folder.path):
            place = (folder.id, os.fsencode(os.path.relpath(real, folder.path)))
            row: sqlite3.Row | None = connection.execute(
                "SELECT key FROM file WHERE folder_id = ? AND path = ?", place
            ).fetchone()
            return row
    return None


def _key_inside(connection: sqlite3.Connection, path: Path) -> str | None:
    """The key by a file's content: a copy counts as its photo. A converted one is known by the week.json beside it."""
    from indexer.facts.reading import read_file  # slow to import, and seldom needed
    from queries.pull import pulled_key

    facts = read_file(str(path)).facts
    if facts and connection.execute("SELECT 1 FROM picture WHERE key = ?", (facts.key,)).fetchone():
        return facts.key
    return pulled_key(path)


def _key_by_letters(connection: sqlite3.Connection, letters: str) -> str | None:
    """The key with this code, else the only one that begins so."""
    row = connection.execute("SELECT key FROM picture WHERE code = ?", (letters,)).fetchone()
    if row:
        return str(row["key"])
    if len(letters) < LEAST:
        return None
    rows = connection.execute("SELECT key, code FROM picture WHERE key >= ? AND key < ?", (letters, letters + "g"))
    found = rows.fetchall()
    if len(found) > 1:
        codes = ", ".join(row["code"] for row in found[:5])
        raise UnknownPhotoError(f"{letters} may be any of {codes}; give more letters")
    return str(found[0]["key"]) if found else _key_of_edit(connection, letters)


def _key_of_edit(connection: sqlite3.Connection, letters: str) -> str | None:
    """The key that took the place of the one that begins so, however often: a printed code still finds its photo."""
    followed = connection.execute("SELECT old_key, new_key FROM succession ORDER BY told_at, uuid").fetchall()
    key = next((row["old_key"] for row in followed if row["old_key"].startswith(letters)), None)
    for row in followed:
        if row["old_key"] == key:
            key = row["new_key"]
    return key
