"""Words that follow a photo which was edited and saved over."""

import sqlite3
from collections.abc import Callable, Iterator
from typing import NamedTuple

from indexer.alike.values import Choice


class _Word(NamedTuple):
    """What was told of a photo; a later one sorts behind."""

    told_at: str
    uuid: str
    choice: Choice | None


#: Whether two photos, by key, show the same picture.
SamePicture = Callable[[str, str], bool]


def renew_followed(connection: sqlite3.Connection, is_same: SamePicture) -> None:
    """Find anew, in the caller's transaction, which words hold for a picture that took another's place.

    A word about a photo that was edited and saved over holds for what came after while the two show the same picture;
    else it waits, kept and not applied. The latest word holds, wherever it was told.
    """
    connection.execute("DELETE FROM followed_choice")
    for key, word in _followed(connection, is_same):
        connection.execute(
            "INSERT INTO followed_choice (photo_key, choice, since) VALUES (?, ?, ?)", (key, word.choice, word.told_at)
        )


def _followed(connection: sqlite3.Connection, is_same: SamePicture) -> Iterator[tuple[str, _Word]]:
    """(key, word) for each photo whose latest word was told of a picture that it came after."""
    if connection.execute("SELECT 1 FROM choice LIMIT 1").fetchone() is None:
        return
    before: dict[str, set[str]] = {}
    for old, new in connection.execute("SELECT old_key, new_key FROM succession"):
        before.setdefault(new, set()).add(old)
    for key in sorted(before):
        own = _last_word(connection, key)
        words = [
            word for old in _told_before(connection, key, before, is_same) if (word := _last_word(connection, old))
        ]
        last = max(words, default=None)
        if last and (own is None or own < last):
            yield key, last


def _told_before(
    connection: sqlite3.Connection, key: str, before: dict[str, set[str]], is_same: SamePicture
) -> Iterator[str]:
    """The pictures, back in time, that this one came after and whose words it can bear."""
    met, waiting = {key}, [key]
    while waiting:
        new = waiting.pop()
        for old in sorted(before.get(new, set()) - met):
            met.add(old)
            if _is_told_of(connection, old, before) and is_same(old, new):
                waiting.append(old)
                yield old


def _is_told_of(connection: sqlite3.Connection, key: str, before: dict[str, set[str]]) -> bool:
    """Whether a word may come from there: cheap, before two pictures are held against each other."""
    return key in before or _last_word(connection, key) is not None


def _last_word(connection: sqlite3.Connection, key: str) -> _Word | None:
    row = connection.execute(
        "SELECT told_at, uuid, choice FROM choice WHERE photo_key = ? ORDER BY told_at DESC, uuid DESC LIMIT 1", (key,)
    ).fetchone()
    return _Word(*row) if row else None
