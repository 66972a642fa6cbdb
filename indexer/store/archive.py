"""What the verdicts on capture times rest on, gathered from the index: claims, words, likenesses, settings."""

import json
import os
import sqlite3
from collections.abc import Iterable, Sequence
from datetime import date, datetime, time, timedelta
from itertools import groupby
from typing import Any

from indexer.dating.album_weeks import FIRST_DAY, STARTS_AT, WEEKDAYS, AlbumWeeks
from indexer.dating.values import (
    Archive,
    ByHand,
    CopyPair,
    Correction,
    FilePlace,
    PhotoSaid,
    Said,
    SameScene,
    World,
)
from indexer.facts.records import Camera, Claim, Precision
from indexer.facts.zones import THIS_COMPUTER, is_zone, wall_clock

HOME_TIMEZONE, WEEK_FIRST_DAY, DAY_STARTS_AT = "home.timezone", "week.first_day", "day.starts_at"
#: The settings that bear on verdicts: the zone on times, the others on what "another week" is.
BEARING = frozenset({HOME_TIMEZONE, WEEK_FIRST_DAY, DAY_STARTS_AT})


def archive(connection: sqlite3.Connection) -> Archive:
    """All of it. About 3 KB a photo."""
    return Archive(
        photos=photos_said(connection, None),
        copies=[CopyPair(*row) for row in connection.execute(_COPIES)],
        scenes=[SameScene(*row) for row in connection.execute(_SCENES)],
        corrections=corrections(connection),
        by_hand=told_by_hand(connection),
    )


def words_alone(connection: sqlite3.Connection) -> Archive:
    """What was told, without photos."""
    return Archive(photos=(), corrections=corrections(connection), by_hand=told_by_hand(connection))


def photos_said(connection: sqlite3.Connection, keys: Sequence[str] | None) -> list[PhotoSaid]:
    """What the files of these photos, or of all, say; files that are there first, then in the order of place."""
    if keys is None:
        rows = connection.execute(_CLAIMS.format("key IS NOT NULL"))
    else:
        rows = connection.execute(_CLAIMS.format("key IN (SELECT value FROM json_each(?))"), (json.dumps(list(keys)),))
    rows.row_factory = None
    return [_photo(key, group) for key, group in groupby(rows, key=lambda row: str(row[0]))]


def corrections(connection: sqlite3.Connection) -> list[Correction]:
    """The clock corrections that hold, in the order they were told.

    Two of one camera overlap only where they were told in different indexes and restored into one; the later one holds.
    """
    rows = connection.execute("SELECT * FROM clock_correction ORDER BY told_at, uuid")
    return [
        Correction(
            uuid=row["uuid"],
            told_at=row["told_at"],
            camera=Camera(row["make"], row["model"], row["serial"]),
            shift_seconds=row["shift_seconds"],
            since=row["since"],
            until=row["until"],
        )
        for row in rows
    ]


def told_by_hand(connection: sqlite3.Connection) -> ByHand:
    """The times and weeks that were told of photos."""
    told: dict[str, dict[str, str]] = {"taken": {}, "week": {}}
    for key, what, value in connection.execute("SELECT photo_key, what, value FROM photo_assignment"):
        told[what][key] = value
    return ByHand(told["taken"], told["week"])


def world(connection: sqlite3.Connection, today: date) -> World:
    """The settings that bear on verdicts; what this computer cannot take, as a restored word may be, is left aside."""
    told = {row["name"]: row["value"] for row in connection.execute("SELECT name, value FROM setting")}
    zone = told.get(HOME_TIMEZONE, THIS_COMPUTER)
    zone = zone if is_zone(zone) else THIS_COMPUTER

    def to_local(utc: datetime) -> datetime:
        return wall_clock(utc, zone)

    return World(to_local, zone != THIS_COMPUTER, today, _weeks(told))


def _weeks(told: dict[str, str]) -> AlbumWeeks:
    first_day = told.get(WEEK_FIRST_DAY, FIRST_DAY)
    try:
        starts_at = time.fromisoformat(told.get(DAY_STARTS_AT, STARTS_AT))
    except ValueError:
        starts_at = time.fromisoformat(STARTS_AT)
    return AlbumWeeks(
        WEEKDAYS.index(first_day if first_day in WEEKDAYS else FIRST_DAY),
        timedelta(hours=starts_at.hour, minutes=starts_at.minute),
    )


def _photo(key: str, rows: Iterable[tuple[Any, ...]]) -> PhotoSaid:
    files: dict[int, FilePlace] = {}
    said = []
    for _, file_id, is_missing, folder_id, path, make, model, serial, evidence_id, *claim in rows:
        if file_id not in files:
            folder, name = os.path.split(os.fsdecode(path))
            camera = Camera(make or "", model or "", serial or "")
            files[file_id] = FilePlace(file_id, bool(is_missing), camera, f"{folder_id}/{folder}", name)
        if evidence_id is not None:
            said.append(Said(_claim(*claim), evidence_id, files[file_id]))
    return PhotoSaid(key, tuple(files.values()), tuple(said))


def _claim(
    source: str,
    text: str,
    when: str | None,
    precision: Precision,
    fraction: str,
    offset_minutes: int | None,
    is_utc: int,
    is_arrival: int,
    problem: str | None,
) -> Claim:
    """A claim from the columns of its row."""
    return Claim(source, text, when, precision, fraction, offset_minutes, bool(is_utc), bool(is_arrival), problem)


_CLAIMS = """
SELECT file.key, file.id, file.missing_since IS NOT NULL AS is_missing,
       file.folder_id, file.path, file.make, file.model, file.serial, evidence.id,
       evidence.source, evidence.text, evidence.claimed, evidence.precision, evidence.fraction,
       evidence.offset_minutes, evidence.is_utc, evidence.is_arrival, evidence.problem
FROM file LEFT JOIN evidence ON evidence.file_id = file.id
WHERE {}
ORDER BY file.key, is_missing, file.folder_id, file.path, evidence.id
"""
_COPIES = "SELECT one_key, other_key, score FROM likeness WHERE kind = 'copy'"
#: Bursts too: those that two cameras took part in say that their clocks agree.
_SCENES = """
SELECT one_key, other_key, score FROM same_scene
UNION ALL SELECT one_key, other_key, score FROM likeness WHERE kind = 'burst'
"""
