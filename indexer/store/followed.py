"""Words that follow a photo which was edited and saved over."""

import sqlite3
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple


class _Word(NamedTuple):
    """What was told of a photo, None where it was taken back; a later one sorts behind."""

    told_at: str
    uuid: str
    value: str | None


class _Kind(NamedTuple):
    """One kind of words about photos: how to find the last one of a key, any at all, and where what follows is kept."""

    last: str
    any_word: str
    keep: str


def _kind(table: str, value: str, what: str = "") -> _Kind:
    """The statements of a kind; `what` parts the kinds of one table."""
    condition, column, literal = (f" AND what = '{what}'", "what, ", f"'{what}', ") if what else ("", "", "")
    return _Kind(
        f"SELECT told_at, uuid, {value} FROM {table} WHERE photo_key = ?{condition}"
        " ORDER BY told_at DESC, uuid DESC LIMIT 1",
        f"SELECT 1 FROM {table} LIMIT 1",
        f"INSERT INTO followed_{table} (photo_key, {column}{value}, since) VALUES (?, {literal}?, ?)",
    )


_KINDS = (
    _kind("choice", "choice"),
    _kind("assignment", "value", "week"),
    _kind("assignment", "value", "taken"),
)

#: Whether two photos, by key, show the same picture.
SamePicture = Callable[[str, str], bool]


def renew_followed(connection: sqlite3.Connection, is_same: SamePicture) -> None:
    """Find anew, in the caller's transaction, which words hold for a picture that took another's place.

    A word about a photo that was edited and saved over holds for what came after while the two show the same picture;
    else it waits, kept and not applied. The latest word holds, wherever it was told.
    """
    connection.execute("DELETE FROM followed_choice")
    connection.execute("DELETE FROM followed_assignment")
    for kind in _KINDS:
        if connection.execute(kind.any_word).fetchone():
            for key, word in _Followed(connection, is_same, kind).words():
                connection.execute(kind.keep, (key, word.value, word.told_at))


@dataclass
class _Followed:
    """The words of one kind that hold for a picture which came after the one they were told of."""

    connection: sqlite3.Connection
    is_same: SamePicture
    kind: _Kind

    @cached_property
    def before(self) -> dict[str, set[str]]:
        """By key: the pictures whose place it took."""
        before: dict[str, set[str]] = {}
        for old, new in self.connection.execute("SELECT old_key, new_key FROM succession"):
            before.setdefault(new, set()).add(old)
        return before

    def words(self) -> Iterator[tuple[str, _Word]]:
        """(key, word) for each photo whose latest word was told of a picture that it came after."""
        for key in sorted(self.before):
            own = self._last_word(key)
            last = max((word for old in self._told_before(key) if (word := self._last_word(old))), default=None)
            if last and (own is None or own < last):
                yield key, last

    def _told_before(self, key: str) -> Iterator[str]:
        """The pictures, back in time, that this one came after and whose words it can bear."""
        met, waiting = {key}, [key]
        while waiting:
            new = waiting.pop()
            for old in sorted(self.before.get(new, set()) - met):
                met.add(old)
                if self._is_told_of(old) and self.is_same(old, new):
                    waiting.append(old)
                    yield old

    def _is_told_of(self, key: str) -> bool:
        """Whether a word may come from there: cheap, before two pictures are held against each other."""
        return key in self.before or self._last_word(key) is not None

    def _last_word(self, key: str) -> _Word | None:
        row = self.connection.execute(self.kind.last, (key,)).fetchone()
        return _Word(*row) if row else None
