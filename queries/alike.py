"""The sets of photos alike, and the photos that could not be compared."""

import json
import sqlite3
from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import time

from queries.photos import Photo, photos_of_week, photos_with_keys
from queries.weeks import Week


@dataclass(frozen=True, slots=True)
class AlikeSet:
    """Photos that show one picture ("copy") or one scene in quick succession ("burst").

    `keepers` stand for the set: none where the person left all of it out, several where they kept several. `others` are
    left out. Both are in the order they were taken, but the set's first keeper comes first. `reason` says why that one
    was chosen.
    """

    kind: str
    keepers: tuple[Photo, ...]
    others: tuple[Photo, ...]
    reason: str

    @property
    def photos(self) -> tuple[Photo, ...]:
        """All of the set, keepers first."""
        return (*self.keepers, *self.others)


@dataclass(frozen=True, slots=True)
class AlikeReport:
    """What is alike, and what that knowledge leaves out.

    `not_compared` are photos whose pixels cannot be read, with the reason; `several` those whose file holds several
    pictures, with their number: each counts once. `not_looked_at` counts photos that no index run has looked at yet,
    in the whole library.
    """

    sets: tuple[AlikeSet, ...]
    not_compared: tuple[tuple[Photo, str], ...]
    several: tuple[tuple[Photo, int], ...]
    not_looked_at: int


def alike_report(connection: sqlite3.Connection, week: Week | None, starts_at: time) -> AlikeReport:
    """What is alike in the whole library, or what concerns the photos of one week."""
    keys = None if week is None else [photo.key for photo in photos_of_week(connection, week, starts_at)]
    asked = {"keys": None if keys is None else json.dumps(keys)}
    noted = connection.execute(_NOTED if keys is None else _NOTED_AMONG, asked).fetchall()
    photos = {photo.key: photo for photo in photos_with_keys(connection, [row["key"] for row in noted])}
    return AlikeReport(
        tuple(sets_of(connection, keys)),
        tuple((photos[row["key"]], row["problem"]) for row in noted if row["problem"]),
        tuple((photos[row["key"]], row["pictures"]) for row in noted if (row["pictures"] or 1) > 1),
        connection.execute(_NOT_LOOKED_AT).fetchone()[0],
    )


def sets_of(connection: sqlite3.Connection, keys: Collection[str] | None = None) -> list[AlikeSet]:
    """Every set, or those with one of these photos in it, in the order of their earliest photos; copies first."""
    asked = None if keys is None else json.dumps(list(keys))
    members = defaultdict(list)
    for row in connection.execute(_MEMBERS, {"keys": asked}):
        members[row["set_id"]].append(row)
    every_key = {row["photo_key"] for rows in members.values() for row in rows}
    photos = {photo.key: photo for photo in photos_with_keys(connection, every_key)}
    sets = [_set(rows, [photos[row["photo_key"]] for row in rows]) for rows in members.values()]
    return sorted(sets, key=lambda found: (found.kind != "copy", min(photo.taken or "~" for photo in found.photos)))


def _set(rows: list[sqlite3.Row], photos: list[Photo]) -> AlikeSet:
    both = list(zip(rows, photos, strict=True))
    return AlikeSet(
        rows[0]["kind"],
        tuple(photo for row, photo in both if row["keeper"]),
        tuple(photo for row, photo in both if not row["keeper"]),
        rows[0]["reason"],
    )


_NOTED = """
SELECT look.key, problem, pictures
FROM look JOIN photo ON photo.key = look.key
WHERE present AND (made_from = 'nothing' OR pictures > 1)
ORDER BY photo.taken, photo.key
"""

#: The same for some photos: without a walk over all looks, which lie among their pixels.
_NOTED_AMONG = _NOTED.replace("FROM look", "FROM json_each(:keys) AS asked JOIN look ON look.key = asked.value")

_MEMBERS = """
SELECT set_id, kind, photo_key, keeper, reason
FROM alike_set
WHERE :keys IS NULL
   OR set_id IN (SELECT own.set_id FROM json_each(:keys) AS asked JOIN alike_set AS own ON own.photo_key = asked.value)
ORDER BY set_id, place
"""

_NOT_LOOKED_AT = (
    "SELECT count(*) FROM photo WHERE present AND NOT EXISTS (SELECT 1 FROM look WHERE look.key = photo.key)"
)
