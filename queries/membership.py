"""What each photo is alike to, and which photo stands for it."""

import json
import os
import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Alike:
    """The set that a photo is in: of two, the one that leaves it out, else the burst.

    `kind` is "copy" or "burst", `photos` counts the members, `is_keeper` says whether the photo stands for the set. The
    `keeper_...` fields are those of the set's first keeper, None when all of the set are left out; `keeper_is_out` says
    that this one is left out in its turn, as the keeper of copies may be in a burst. `reason` is why it was chosen.
    """

    kind: str
    photos: int
    is_keeper: bool
    keeper_key: str | None
    keeper_code: str | None
    keeper_path: str | None
    keeper_is_out: bool
    reason: str


def alikes(connection: sqlite3.Connection, keys: Iterable[str]) -> dict[str, Alike]:
    """By key: the sets that these photos are in; a photo that is alike to no other has none."""
    rows = connection.execute(_ALIKES, (json.dumps(list(keys)),)).fetchall()
    return {row["photo_key"]: _alike(row) for row in reversed(rows)}  # the first of a photo's rows is the one to have


def path_of(folder: bytes, below: bytes) -> str:
    """A file's absolute path, from the bytes that the system gave for its folder and its place in it."""
    return os.path.join(os.fsdecode(folder), os.fsdecode(below))  # noqa: PTH118


def _alike(row: sqlite3.Row) -> Alike:
    has_keeper = bool(row["has_keeper"])
    return Alike(
        kind=row["kind"],
        photos=row["photos"],
        is_keeper=bool(row["is_keeper"]),
        keeper_key=row["key"] if has_keeper else None,
        keeper_code=row["code"] if has_keeper else None,
        keeper_path=path_of(row["folder"], row["path"]) if has_keeper else None,
        keeper_is_out=has_keeper and not row["keeper_stands"],
        reason=row["reason"] if has_keeper else "",
    )


_ALIKES = """
SELECT own.photo_key, own.kind, own.keeper AS is_keeper, first.keeper AS has_keeper, first.reason,
       (SELECT count(*) FROM alike_set WHERE alike_set.set_id = own.set_id) AS photos,
       photo.key, photo.code, photo.folder, photo.path, photo.keeper AS keeper_stands
FROM json_each(?) AS asked
JOIN alike_set AS own ON own.photo_key = asked.value
JOIN alike_set AS first ON first.set_id = own.set_id AND first.place = 0
JOIN photo ON photo.key = first.photo_key
ORDER BY own.photo_key, own.keeper, own.kind
"""
