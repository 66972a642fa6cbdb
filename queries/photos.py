"""Photos as the index knows them."""

import json
import os
import sqlite3
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time
from itertools import groupby

from queries.lived_order import in_lived_order
from queries.membership import Alike, alikes, path_of
from queries.weeks import Week, day_of


@dataclass(frozen=True, slots=True)
class Photo:
    """One photo: a picture with all the places where its bytes lie.

    `taken` is ISO 8601 of reduced precision, local wall clock ("2026-03-30T09:15:20", "2026-03-30T09:15", "2026-03-30",
    "2026-03", "2026") or None; `fraction` the digits of the second's decimal fraction ("" if none). `zone` is "+02:00"
    where known. Sizes are pixels of the displayed picture. `path` is the file that speaks for the photo (absolute),
    `paths` all present ones, that one first. `size` (bytes) and `mtime_ns` are those of `path` when it was indexed.
    `damage` says why the pixels cannot be read whole, or is None. `placed` is what puts it into a week: `taken`, or a
    day of the week that the person put it into. `twin_key` is the photo whose time it has. `choice` is what the person
    said ("keep", "leave" or None), `keeper` is false for a photo that is left out, `alike` tells of the set that it is
    in, or is None. `is_there` is false where all its files are gone.
    """

    key: str
    code: str
    path: str
    paths: tuple[str, ...]
    size: int
    mtime_ns: int
    format: str
    taken: str | None
    fraction: str
    precision: str
    zone: str | None
    source: str
    doubtful: bool
    reason: str
    shape: str
    width: int
    height: int
    orientation: int
    camera: str | None
    damage: str | None
    placed: str | None
    choice: str | None = None
    keeper: bool = True
    alike: Alike | None = None
    twin_key: str | None = None
    is_there: bool = True

    @property
    def offset_minutes(self) -> int | None:
        """The zone, in minutes east of Greenwich."""
        if self.zone is None:
            return None
        hours, minutes = self.zone[1:].split(":")
        return (int(hours) * 60 + int(minutes)) * (-1 if self.zone[0] == "-" else 1)

    @property
    def assigned(self) -> bool:
        """Whether the person put it, or a photo that it is a copy of, into its week by hand."""
        return self.placed != self.taken

    def album_day(self, starts_at: time) -> date | None:
        """The day that puts it into a week, None where only a month or less is known."""
        return day_of(self.placed, starts_at)

    def shown_day(self, week: Week | None, starts_at: time) -> date | None:
        """The day of its week under which it is shown: that of its time, or None for one that was put into the week by
        hand and taken on no day of it."""
        if not self.assigned:
            return self.album_day(starts_at)
        day = day_of(self.taken, starts_at)
        return day if day and week and day in week else None


def photos_of_week(connection: sqlite3.Connection, week: Week, starts_at: time) -> list[Photo]:
    """The photos of a week that are there, in the order they were taken; those known by day only end their day, and
    those put here by hand from elsewhere end the week."""
    rows = connection.execute(
        "SELECT * FROM photo WHERE present AND placed >= ? AND placed < ?",
        (week.first_day.isoformat(), f"{week.next_first_day}T{starts_at}"),
    ).fetchall()
    photos = [photo for photo in _photos(connection, rows) if (day := photo.album_day(starts_at)) and day in week]
    days = {photo.key: photo.shown_day(week, starts_at) for photo in photos}
    in_days = sorted(photos, key=lambda photo: days[photo.key] or date.max)
    return [photo for _, group in groupby(in_days, lambda photo: days[photo.key]) for photo in as_lived(list(group))]


def as_lived(photos: Sequence[Photo]) -> list[Photo]:
    """The photos of one day, given in the order of their clocks, in the order they were lived where zones are known."""
    order = in_lived_order([(photo.taken, photo.offset_minutes) for photo in photos])
    return [photos[place] for place in order]


def days_of_several_zones(photos: Iterable[Photo], week: Week, starts_at: time) -> set[date | None]:
    """The days of a week that were lived in more than one zone: there the clocks alone do not tell the order."""
    zones = {(photo.shown_day(week, starts_at), photo.zone) for photo in photos if photo.zone}
    days = [day for day, _ in zones]
    return {day for day in days if day and days.count(day) > 1}


def doubtful_photos(connection: sqlite3.Connection) -> list[Photo]:
    """The photos whose capture time is to be looked at, those without any first."""
    return _photos(connection, connection.execute("SELECT * FROM photo WHERE present AND doubtful").fetchall())


def count_doubtful(connection: sqlite3.Connection) -> int:
    """How many photos `doubtful_photos` gives."""
    return int(connection.execute("SELECT count(*) FROM photo WHERE present AND doubtful").fetchone()[0])


def photos_with_keys(connection: sqlite3.Connection, keys: Iterable[str]) -> list[Photo]:
    """The photos with these keys, there or missing; a key that the index does not know has none."""
    asked = json.dumps(list(dict.fromkeys(keys)))
    rows = connection.execute(
        "SELECT photo.* FROM json_each(?) AS asked JOIN photo ON photo.key = asked.value", (asked,)
    )
    return _photos(connection, rows.fetchall())


def zone_text(offset_minutes: int | None) -> str | None:
    """ "+02:00" for 120."""
    if offset_minutes is None:
        return None
    hours, minutes = divmod(abs(offset_minutes), 60)
    return f"{'-' if offset_minutes < 0 else '+'}{hours:02}:{minutes:02}"


def _photos(connection: sqlite3.Connection, rows: Sequence[sqlite3.Row]) -> list[Photo]:
    keys = [row["key"] for row in rows]
    other_places, sets = _places(connection, keys), alikes(connection, keys)
    return sorted((_photo(row, other_places.get(row["key"], ()), sets.get(row["key"])) for row in rows), key=_order)


def _order(photo: Photo) -> tuple[str, bool, str, str, str]:
    """By day, by clock time with those without one last, then by the camera's own numbering."""
    taken = photo.taken or ""
    return taken[:10], len(taken) <= 10, taken, photo.fraction, os.path.basename(photo.path)  # noqa: PTH119


def _places(connection: sqlite3.Connection, keys: Sequence[str]) -> Mapping[str, Sequence[str]]:
    """By key: all places where a photo's bytes lie now."""
    places: dict[str, list[str]] = defaultdict(list)
    rows = connection.execute(
        "SELECT photo_file.key, folder, photo_file.path"
        " FROM json_each(?) AS asked JOIN photo_file ON photo_file.key = asked.value"
        " WHERE missing_since IS NULL ORDER BY folder, photo_file.path",
        (json.dumps(keys),),
    )
    for row in rows:
        places[row["key"]].append(path_of(row["folder"], row["path"]))
    return places


def _photo(row: sqlite3.Row, places: Sequence[str], alike: Alike | None) -> Photo:
    lead = path_of(row["folder"], row["path"])
    return Photo(
        key=row["key"],
        code=row["code"],
        path=lead,
        paths=(lead, *(place for place in places if place != lead)),
        size=row["size"],
        mtime_ns=row["mtime_ns"],
        format=row["format"],
        taken=row["taken"],
        fraction=row["fraction"],
        precision=row["precision"],
        zone=zone_text(row["offset_minutes"]),
        source=row["source"],
        doubtful=bool(row["doubtful"]),
        reason=row["reason"],
        shape=row["shape"],
        width=row["width"],
        height=row["height"],
        orientation=row["orientation"],
        camera=row["camera"] or None,
        damage=row["damage"],
        placed=row["placed"],
        twin_key=row["twin_key"],
        choice=row["choice"],
        keeper=bool(row["keeper"]),
        alike=alike,
        is_there=bool(row["present"]),
    )


def unreadable_files(connection: sqlite3.Connection) -> list[tuple[str, str, str]]:
    """(path, step, reason) of every step that failed on a file that is there."""
    rows = connection.execute("SELECT folder, path, step, reason FROM unreadable ORDER BY folder, path, step")
    return [(path_of(row["folder"], row["path"]), row["step"], row["reason"]) for row in rows]
