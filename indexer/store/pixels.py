"""What looking at photos gave, one row a photo: what is to be looked at, and where it is written down."""

import json
import os
import sqlite3
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from indexer.facts.picture_files import LOOKING

if TYPE_CHECKING:  # the libraries behind it are slow to load, and here its values are only taken apart
    from indexer.facts.pixels import PixelFacts


@dataclass(frozen=True, slots=True)
class Place:
    """Where a file lies (absolute), and its size in bytes and its time when it was read."""

    path: str
    size: int
    mtime_ns: int


@dataclass(frozen=True, slots=True)
class ToLookAt:
    """A photo that is to be looked at.

    `places`: its files that are there and shown the same way up, the speaking one first. The size is in pixels as
    displayed. `damage` says why its pixels cannot be read whole, where reading the file has shown that.
    """

    key: str
    places: tuple[Place, ...]
    orientation: int
    width: int
    height: int
    damage: str | None


def to_look_at(connection: sqlite3.Connection) -> list[ToLookAt]:
    """Every photo that is there and was never looked at, or by another method, or before it was turned."""
    return list(_to_look_at(connection, _NEW))


def to_look_at_closer(connection: sqlite3.Connection) -> list[ToLookAt]:
    """Every photo that is there and resembles another one, and whose thumbnail alone was looked at."""
    return list(_to_look_at(connection, _CLOSER))


def to_look_at_again(connection: sqlite3.Connection, keys: Collection[str]) -> list[ToLookAt]:
    """Those of these photos that are there."""
    return list(_to_look_at(connection, "SELECT value AS key FROM json_each(:keys)", keys))


def _to_look_at(connection: sqlite3.Connection, which: str, keys: Collection[str] = ()) -> Iterator[ToLookAt]:
    places: dict[str, list[Place]] = {}
    photos: dict[str, sqlite3.Row] = {}
    for row in connection.execute(_FILES.format(which), {"looking": LOOKING, "keys": json.dumps(list(keys))}):
        path = os.path.join(os.fsdecode(row["folder"]), os.fsdecode(row["path"]))  # noqa: PTH118
        places.setdefault(row["key"], []).append(Place(path, row["size"], row["mtime_ns"]))
        photos.setdefault(row["key"], row)
    for key, row in photos.items():
        yield ToLookAt(key, tuple(places[key]), row["orientation"], row["width"], row["height"], row["damage"])


def save_look(connection: sqlite3.Connection, photo: ToLookAt, seen: "PixelFacts") -> None:
    """Write down what a photo shows, in the caller's transaction; it is then to be compared anew."""
    picture = seen.fingerprint
    _save(
        connection,
        photo,
        {
            "made_from": seen.made_from,
            "phash": picture.phash,
            "dhash": picture.dhash,
            "layout": picture.layout,
            "contrast": float(picture.contrast),
            "sharpness_960": seen.sharpness[0],
            "sharpness_480": seen.sharpness[1],
            "sharpness_240": seen.sharpness[2],
            "dark": float(seen.dark),
            "bright": float(seen.bright),
            "subject": seen.subject,
            "pictures": seen.pictures,
            "grey": picture.grey,
        },
    )


def save_nothing(connection: sqlite3.Connection, photo: ToLookAt, reason: str) -> None:
    """Write down why a photo shows nothing, in the caller's transaction; it then resembles no other."""
    _save(connection, photo, {"made_from": "nothing", "problem": reason})


def _save(connection: sqlite3.Connection, photo: ToLookAt, values: dict[str, object]) -> None:
    forget_comparing(connection, [photo.key])
    known = {"key": photo.key, "method": LOOKING, "orientation": photo.orientation}
    size = {"width": photo.width, "height": photo.height}
    connection.execute(_UPSERT, dict.fromkeys(_COLUMNS) | known | size | values)


def forget_failed(connection: sqlite3.Connection, keys: Collection[str]) -> None:
    """Let photos that showed nothing be looked at again, since a file of theirs was read anew."""
    connection.executemany("DELETE FROM pixel WHERE key = ? AND made_from = 'nothing'", [(key,) for key in keys])


def forget_comparing(connection: sqlite3.Connection, keys: Iterable[str]) -> None:
    """Take away what these photos resemble, so that they are compared anew."""
    asked = [(key,) for key in keys]
    connection.executemany("DELETE FROM compared WHERE key = ?", asked)
    for table in ("likeness", "same_scene"):
        connection.executemany(f"DELETE FROM {table} WHERE one_key = ?", asked)
        connection.executemany(f"DELETE FROM {table} WHERE other_key = ?", asked)


def tidy(connection: sqlite3.Connection) -> None:
    """Drop what is known of pictures that no file, there or missing, shows any more. What a word names stays: the
    word may have to follow an edited picture."""
    gone = [key for (key,) in connection.execute(_GONE)]
    forget_comparing(connection, gone)
    connection.executemany(_DROP_UNNAMED, [(key,) for key in gone])


def count_without_pixels(connection: sqlite3.Connection) -> int:
    """How many photos that are there show nothing."""
    return int(connection.execute(_COUNT_WITHOUT).fetchone()[0])


_COLUMNS = (
    "key", "method", "made_from", "problem", "orientation", "width", "height", "phash", "dhash", "layout", "contrast",
    "sharpness_960", "sharpness_480", "sharpness_240", "dark", "bright", "subject", "pictures", "grey",
)  # fmt: skip

_UPSERT = (
    f"INSERT INTO pixel ({', '.join(_COLUMNS)}) VALUES ({', '.join(f':{name}' for name in _COLUMNS)})"
    f" ON CONFLICT (key) DO UPDATE SET {', '.join(f'{name} = excluded.{name}' for name in _COLUMNS[1:])}"
)

#: The files of the photos that `{}` chooses, those of one photo together, the speaking one first.
_FILES = """
WITH asked AS ({})
SELECT asked.key, library_folder.path AS folder, place.path, place.size, place.mtime_ns, lead.orientation,
       CASE WHEN lead.orientation >= 5 THEN lead.stored_height ELSE lead.stored_width END AS width,
       CASE WHEN lead.orientation >= 5 THEN lead.stored_width ELSE lead.stored_height END AS height,
       (SELECT reason FROM failure WHERE failure.file_id = lead.id AND failure.step = 'pixels') AS damage
FROM asked
JOIN picture ON picture.key = asked.key
JOIN file AS lead ON lead.id = picture.lead_file_id AND lead.missing_since IS NULL
JOIN file AS place ON place.key = asked.key AND place.missing_since IS NULL AND place.orientation = lead.orientation
JOIN library_folder ON library_folder.id = place.folder_id
ORDER BY lead.folder_id, lead.path, place.id <> lead.id, place.id
"""

_NEW = """
SELECT picture.key
FROM picture JOIN file ON file.id = picture.lead_file_id LEFT JOIN pixel ON pixel.key = picture.key
WHERE file.missing_since IS NULL
  AND (pixel.key IS NULL OR pixel.method <> :looking OR pixel.orientation IS NOT file.orientation)
"""

_CLOSER = """
SELECT key
FROM pixel
WHERE made_from = 'thumbnail' AND method = :looking
  AND (EXISTS (SELECT 1 FROM likeness WHERE one_key = pixel.key)
       OR EXISTS (SELECT 1 FROM likeness WHERE other_key = pixel.key))
"""

_GONE = "SELECT key FROM pixel WHERE NOT EXISTS (SELECT 1 FROM picture WHERE picture.key = pixel.key)"

_DROP_UNNAMED = """
DELETE FROM pixel
WHERE key = ?1
  AND NOT EXISTS (SELECT 1 FROM choice WHERE photo_key = ?1)
  AND NOT EXISTS (SELECT 1 FROM week_holding WHERE photo_key = ?1)
  AND NOT EXISTS (SELECT 1 FROM succession WHERE old_key = ?1 OR new_key = ?1)
"""

_COUNT_WITHOUT = """
SELECT count(*)
FROM pixel JOIN picture ON picture.key = pixel.key JOIN file ON file.id = picture.lead_file_id
WHERE pixel.made_from = 'nothing' AND file.missing_since IS NULL
"""
