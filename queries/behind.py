"""What stands behind a photo's time besides the claims in its files: a clock correction, a copy, the person's hand."""

import sqlite3
from dataclasses import dataclass

from indexer.dating.moments import moved
from indexer.store.archive import corrections
from queries.cameras import Held, OwnTime, correction_for, held_corrections, known_cameras, own_times
from queries.photos import Photo, photos_with_keys


@dataclass(frozen=True, slots=True)
class Behind:
    """`correction` holds for the camera's own time of the photo, `own`, and makes `corrected` of it (ISO 8601).

    `twin` is the photo whose time it has, being a copy of it. `week` is the first day of its week as told by hand,
    `taken` its time as told by hand; all are None where there is no such thing.
    """

    own: str | None = None
    correction: Held | None = None
    corrected: str | None = None
    twin: Photo | None = None
    week: str | None = None
    taken: str | None = None


def behind(connection: sqlite3.Connection, photo: Photo) -> Behind:
    """What stands behind the time of one photo."""
    own = next(iter(own_times(connection, photo.key)), None)
    correction = _correction(connection, own) if own else None
    told = dict(map(tuple, connection.execute(_TOLD, (photo.key,))))
    return Behind(
        own=own.own if own else None,
        correction=correction,
        corrected=moved(own.own, correction.correction.shift_seconds) if own and correction else None,
        twin=next(iter(photos_with_keys(connection, [photo.twin_key])), None) if photo.twin_key else None,
        week=told.get("week"),
        taken=told.get("taken"),
    )


def _correction(connection: sqlite3.Connection, own: OwnTime) -> Held | None:
    """The correction of a camera's own time; the cameras are gone through only where there is one of this camera."""
    if all(correction.camera != own.camera for correction in corrections(connection)):
        return None
    return correction_for(held_corrections(connection, known_cameras(connection)), own.camera, own.own)


_TOLD = "SELECT what, value FROM photo_assignment WHERE photo_key = ?"
