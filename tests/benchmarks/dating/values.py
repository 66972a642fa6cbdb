"""The frozen values of a made library: what a photo shows, what is written into its file, and what is true of it."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal
from zlib import crc32

from tests.benchmarks.dating.household import monday_of

#: "settled": the evidence decides the week. "clock": it does once the camera's clock is put right, and the evidence
#: shows by how much. "open": nothing in the library can decide it.
Mark = Literal["settled", "clock", "open"]


@dataclass(frozen=True, slots=True)
class View:
    """What a photo shows: which scene, seen by which device, which frame of a burst, and what was done to it since
    ("", "messaged", "saved again", "print" cut to 3:2, "scan", "screen")."""

    scene: int
    eye: str = ""
    frame: int = 0
    change: str = ""

    @property
    def tag(self) -> str:
        """What tells files apart whose names say nothing: no date, and no counter."""
        return f"{self.scene % 100_000}-{crc32(f'{self.eye} {self.frame}'.encode()) % 1000}"


@dataclass(frozen=True, slots=True)
class Exif:
    """What stands in the Exif block; dates as they are written there ("2026:03:30 09:15:20", or blanks), "" for no tag.

    `offset` is "+01:00", `gps` the universal time of the last fix.
    """

    make: str = ""
    model: str = ""
    serial: str = ""
    original: str = ""
    digitized: str = ""
    modified: str = ""
    offset: str = ""
    fraction: str = ""
    software: str = ""
    gps: datetime | None = None


@dataclass(frozen=True, slots=True)
class Iptc:
    """DateCreated (CCYYMMDD) and TimeCreated (HHMMSS+HHMM); whether the digest beside it is of this very block."""

    date: str
    time: str
    digest: Literal["none", "matching", "stale"] = "none"


#: XMP properties with their prefixes ("exif:DateTimeOriginal"), and their values.
Xmp = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Photo:
    """One photo of a made library.

    `path` is relative, `also_at` are places where the same bytes lie. `file_time` is naive universal time.
    `sidecar` is (ending of its name, properties): ".xmp" takes the place of the photo's own ending, ".jpg.xmp" too.
    `taken` is true: the wall clock where it was taken. `fault` names what was done to it.
    """

    path: str
    view: View
    fault: str
    mark: Mark
    taken: datetime
    file_time: datetime
    exif: Exif | None = None
    xmp: Xmp = ()
    iptc: Iptc | None = None
    sidecar: tuple[str, Xmp] | None = None
    also_at: tuple[str, ...] = ()

    @property
    def week(self) -> date:
        """The first day of the week that it belongs to."""
        return monday_of(self.taken.date())
