"""The cameras that photos name, the corrections of their clocks, and which one a person means."""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.dating.corrected import covers
from indexer.dating.values import Correction
from indexer.errors import WordError
from indexer.facts.records import Camera
from indexer.store.archive import corrections


@dataclass(frozen=True, slots=True)
class KnownCamera:
    """A camera by its number in the list, with what its clock says of its photos.

    `first` and `last` are the camera's own, uncorrected times (ISO 8601), None where no photo has one. A camera with a
    correction is known also while no photo of it is there.
    """

    number: int
    camera: Camera
    name: str
    photos: int = 0
    first: str | None = None
    last: str | None = None

    @property
    def whole_name(self) -> str:
        """The name, with the serial number where one is known."""
        return f"{self.name} ({self.camera.serial})" if self.camera.serial else self.name


@dataclass(frozen=True, slots=True)
class Held:
    """A correction that holds, by its number in the list."""

    number: int
    correction: Correction
    camera: KnownCamera


@dataclass(frozen=True, slots=True)
class OwnTime:
    """The time that a camera itself wrote into one photo (ISO 8601, to the minute at least)."""

    key: str
    camera: Camera
    own: str


def known_cameras(connection: sqlite3.Connection) -> list[KnownCamera]:
    """Every camera, those with the most photos first; photos that name none are left out."""
    found = {
        Camera(row["make"], row["model"], row["serial"]): (row["camera"], row["photos"], row["first"], row["last"])
        for row in connection.execute(_CAMERAS)
    }
    for correction in corrections(connection):
        found.setdefault(correction.camera, (name_of(correction.camera), 0, None, None))
    return [KnownCamera(number, camera, *rest) for number, (camera, rest) in enumerate(found.items(), start=1)]


def held_corrections(connection: sqlite3.Connection, cameras: Sequence[KnownCamera]) -> list[Held]:
    """The corrections that hold, in the order they were told."""
    by_camera = {known.camera: known for known in cameras}
    numbered = enumerate(corrections(connection), start=1)
    return [Held(number, correction, by_camera[correction.camera]) for number, correction in numbered]


def held_numbered(held: Sequence[Held], number: int) -> Held:
    """Raises WordError for a number that no correction has."""
    for item in held:
        if item.number == number:
            return item
    raise WordError(f"there is no correction {number}; weeksheaf clock lists those that hold")


def correction_for(held: Sequence[Held], camera: Camera, own: str) -> Held | None:
    """The correction that holds for a camera's own time; the one told last, should restored ones overlap. Pure."""
    for item in reversed(held):
        if item.correction.camera == camera and covers(item.correction, own):
            return item
    return None


def own_times(connection: sqlite3.Connection, key: str | None = None) -> list[OwnTime]:
    """The camera's own time of every photo that has one, or of the photo with this key."""
    rows = connection.execute(_OWN_TIMES) if key is None else connection.execute(_OWN_TIME, (key,))
    return [OwnTime(row["key"], Camera(row["make"], row["model"], row["serial"]), row["own"]) for row in rows]


def camera_named(cameras: Sequence[KnownCamera], text: str) -> KnownCamera:
    """The one camera that answers to its number, or to its name, make, model or serial number or an unambiguous part of
    them, in any case. A single digit is never a part: a number mistyped would find some serial. Raises WordError, which
    lists the cameras, where none or more than one answers. Pure."""
    word = " ".join(text.split()).casefold()
    if word.isdecimal() and str(int(word)) == word and 1 <= int(word) <= len(cameras):
        return cameras[int(word) - 1]
    exact = [known for known in cameras if word in _names_of(known)]
    is_part = bool(word) and not (word.isdecimal() and len(word) == 1)
    found = exact or [known for known in cameras if is_part and any(word in name for name in _names_of(known))]
    if len(found) == 1:
        return found[0]
    if not cameras:
        raise WordError("no photo in the index names its camera, so there is no clock to correct")
    said = f"{text!r} may be several cameras" if found else f"no camera answers to {text!r}"
    raise WordError(f"{said}; {cameras_words(cameras)}")


def cameras_words(cameras: Sequence[KnownCamera]) -> str:
    """The cameras with their numbers in one line. Pure."""
    if not cameras:
        return "no photo names its camera"
    return "the cameras are: " + ", ".join(f"{known.number} {known.whole_name}" for known in cameras)


def _names_of(known: KnownCamera) -> set[str]:
    camera = known.camera
    names = (known.name, f"{camera.make} {camera.model}", camera.model, camera.serial, known.whole_name)
    return {folded for name in names if (folded := " ".join(name.split()).casefold())}


def name_of(camera: Camera) -> str:
    """The camera as a person reads it, as the index names those with photos."""
    starts_so = camera.model.casefold().startswith(camera.make.casefold())
    return camera.model if camera.make and starts_so else f"{camera.make} {camera.model}".strip()


#: What a camera's clock wrote, first what counts most.
_OWN = """
SELECT claimed FROM evidence
WHERE evidence.file_id = photo.file_id
  AND evidence.source IN ('exif original', 'exif digitized', 'xmp original', 'iptc newer', 'iptc')
  AND NOT is_utc AND NOT is_arrival AND length(claimed) >= 16
ORDER BY instr('exif original, exif digitized, xmp original, iptc newer, iptc', evidence.source), id
LIMIT 1
"""

_TIMED = f"""
SELECT key, make, model, serial, own
FROM (SELECT key, coalesce(make, '') AS make, coalesce(model, '') AS model, coalesce(serial, '') AS serial,
             ({_OWN}) AS own
      FROM photo
      WHERE camera <> '' AND {{}})
WHERE own IS NOT NULL
"""
_OWN_TIMES, _OWN_TIME = _TIMED.format("present"), _TIMED.format("key = ?")

_CAMERAS = f"""
SELECT make, model, serial, camera, count(*) AS photos, min(own) AS first, max(own) AS last
FROM (SELECT coalesce(make, '') AS make, coalesce(model, '') AS model, coalesce(serial, '') AS serial, camera,
             ({_OWN}) AS own
      FROM photo
      WHERE present AND camera <> '')
GROUP BY make, model, serial
ORDER BY photos DESC, camera, serial
"""
