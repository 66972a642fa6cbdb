"""The sets of photos alike, derived from likenesses, from what is there and from what was told."""

import os
import sqlite3
from collections import defaultdict
from collections.abc import Iterator
from functools import partial

from indexer.alike.edits import is_edit
from indexer.alike.sets import alike_sets
from indexer.alike.values import Contender, Likeness
from indexer.facts.picture_files import LOOKING
from indexer.store.followed import renew_followed
from indexer.store.likenesses import (
    OWN,
    camera_name,
    compare_changed,
    is_same_picture,
    save_compared,
    with_fraction,
)


def renew_sets(connection: sqlite3.Connection) -> None:
    """Compare what has changed and make all sets anew, in the caller's transaction."""
    save_compared(connection, compare_changed(connection))
    make_sets(connection)


def make_sets(connection: sqlite3.Connection) -> None:
    """Make all sets anew, in the caller's transaction.

    Only photos that are there, and whose pixels were decoded: no set rests on thumbnails.
    """
    renew_followed_words(connection)
    contenders = {photo.key: photo for photo in _contenders(connection)}
    rows = connection.execute("SELECT one_key, other_key, kind, score FROM likeness")
    sets = alike_sets((Likeness(*row) for row in rows), contenders)
    connection.execute("DELETE FROM alike_member")
    connection.executemany(
        "INSERT INTO alike_member (set_id, kind, photo_key, place, keeper, reason) VALUES (?, ?, ?, ?, ?, ?)",
        (
            (number, found.kind, key, place, key in found.keepers, "" if place else found.reason)
            for number, found in enumerate(sets, start=1)
            for place, key in enumerate(found.members)
        ),
    )


def renew_followed_words(connection: sqlite3.Connection) -> None:
    """Find anew, in the caller's transaction, which words hold for pictures that took another's place: before photos
    are judged, and before sets are made."""
    renew_followed(connection, partial(is_same_picture, connection))


def count_sets(connection: sqlite3.Connection) -> dict[str, int]:
    """How many sets there are of each kind, "copy" and "burst"."""
    rows = connection.execute("SELECT kind, count(*) FROM alike_member WHERE place = 0 GROUP BY kind")
    return {"copy": 0, "burst": 0} | dict(map(tuple, rows))


def _contenders(connection: sqlite3.Connection) -> Iterator[Contender]:
    """Every photo that resembles another one, is there, and was looked at closely."""
    paths = defaultdict(list)
    for key, path in connection.execute(_PATHS):
        paths[key].append(os.fsdecode(path))
    for row in connection.execute(_CONTENDERS, {"looking": LOOKING}):
        own = with_fraction(row["own"], row["own_fraction"]) if row["own"] else None
        yield Contender(
            key=row["key"],
            taken=with_fraction(row["taken"], row["fraction"]) if row["taken"] else "~",
            own_time=own,
            camera=camera_name(row["make"], row["model"]),
            pixels=row["width"] * row["height"],
            format=row["format"],
            bytes=row["size"],
            place=(os.fsdecode(row["folder"]), os.fsdecode(row["path"])),
            is_edited=is_edit(paths[row["key"]], own, row["modified"]),
            sharpness=(row["sharpness_960"], row["sharpness_480"], row["sharpness_240"]),
            dark=row["dark"],
            bright=row["bright"],
            choice=row["choice"],
            is_lent=bool(row["is_lent"]),
        )


_RESEMBLING = "SELECT one_key AS key FROM likeness UNION SELECT other_key FROM likeness"

#: Where the files of these photos lie that are there.
_PATHS = f"""
SELECT file.key, file.path
FROM ({_RESEMBLING}) AS asked JOIN file ON file.key = asked.key
WHERE file.missing_since IS NULL
"""

_CONTENDERS = f"""
SELECT pixel.key, picture.taken, picture.fraction, picture.source IN ('copy', 'file numbers') AS is_lent,
       own.claimed AS own, own.fraction AS own_fraction,
       (SELECT max(claimed) FROM evidence AS other WHERE other.file_id = lead.id AND other.source = 'exif modified')
         AS modified,
       lead.make, lead.model, pixel.width, pixel.height, lead.format, lead.size, library_folder.path AS folder,
       lead.path, pixel.sharpness_960, pixel.sharpness_480, pixel.sharpness_240, pixel.dark, pixel.bright,
       photo_choice.choice
FROM ({_RESEMBLING}) AS asked
JOIN pixel ON pixel.key = asked.key AND pixel.method = :looking AND pixel.made_from = 'decode'
JOIN picture ON picture.key = pixel.key
JOIN file AS lead ON lead.id = picture.lead_file_id AND lead.missing_since IS NULL
JOIN library_folder ON library_folder.id = lead.folder_id
{OWN}
LEFT JOIN photo_choice ON photo_choice.photo_key = pixel.key
"""
