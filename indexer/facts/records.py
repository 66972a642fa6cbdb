"""The frozen values that cross borders: what was read off one file.

Nothing here decides or reads anything; every other room may import it.
"""

from dataclasses import dataclass
from typing import Literal

#: "between": a day or more is known by what was taken before and after; the time is then a plain date.
Precision = Literal["second", "minute", "day", "month", "year", "unknown", "between"]


@dataclass(frozen=True, slots=True)
class Claim:
    """One statement about when a photo was taken, with where it stands.

    `when` is ISO 8601 of reduced precision without a zone ("2026-03-30T09:15:20", "2026-03-30T09:15", "2026-03-30",
    "2026-03", "2026"), or None when the statement cannot be used; then `problem` says why. `is_utc` says that `when` is
    universal time and not the wall clock. `fraction` holds the digits of the decimal fraction of the second ("" if
    none), `offset_minutes` the zone east of Greenwich where it is known. `is_arrival` marks the time at which a file
    came to its place instead of the time of the picture.
    """

    source: str
    text: str
    when: str | None
    precision: Precision = "unknown"
    fraction: str = ""
    offset_minutes: int | None = None
    is_utc: bool = False
    is_arrival: bool = False
    problem: str | None = None


@dataclass(frozen=True, slots=True)
class Camera:
    """Make, model and serial number as the file names them; each may be empty."""

    make: str = ""
    model: str = ""
    serial: str = ""


NO_CAMERA = Camera()


@dataclass(frozen=True, slots=True)
class Failure:
    """One step that could not be done on a file, and the reason in words a person understands."""

    step: Literal["open", "header", "metadata", "pixels", "reader"]
    reason: str


@dataclass(frozen=True, slots=True)
class PhotoFacts:
    """What one photo file says of itself.

    Sizes in pixels: `stored_*` as the data lie, `width` and `height` as the picture is displayed. `orientation` is the
    Exif/TIFF value 1..8 that turns stored into displayed. Latitude and longitude in degrees, north and east positive.
    """

    key: str
    format: str
    stored_width: int
    stored_height: int
    orientation: int
    camera: Camera
    latitude: float | None
    longitude: float | None
    claims: tuple[Claim, ...]

    @property
    def width(self) -> int:
        return self.stored_height if self.orientation >= 5 else self.stored_width

    @property
    def height(self) -> int:
        return self.stored_width if self.orientation >= 5 else self.stored_height


@dataclass(frozen=True, slots=True)
class FileToRead:
    """A file, and what lies around it that may tell when its picture was taken.

    `folders` are the names of the folders below the library folder that it lies in, from the outermost to the nearest;
    `sidecars` the whole paths of the XMP files that belong to it.
    """

    path: str
    folders: tuple[str, ...] = ()
    sidecars: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FileReading:
    """What came of reading one file: a photo's facts, or another kind of file, and the steps that failed.

    `kind` is "photo" (facts are there), "other" (no picture, nor pretending to be one), or "unreadable" (it should be a
    picture and no facts could be read). A photo may carry failures too: a cut-off JPEG has a header and no whole
    picture. `has_shut_sidecar`: a file beside it could not be opened, so there may be more to read of it.
    """

    kind: Literal["photo", "other", "unreadable"]
    facts: PhotoFacts | None = None
    failures: tuple[Failure, ...] = ()
    has_shut_sidecar: bool = False

    @property
    def is_shut(self) -> bool:
        """The file could not be opened, or its reader gave up: nothing is known of what is in it now."""
        return any(failure.step in ("open", "reader") for failure in self.failures)
