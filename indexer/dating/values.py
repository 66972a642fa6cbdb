"""The frozen values that cross this room's borders."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import Literal

from indexer.dating.album_weeks import AlbumWeeks
from indexer.facts.records import Camera, Claim, Precision

#: Takes a naive universal time; gives the aware wall clock at home.
ToLocal = Callable[[datetime], datetime]


@dataclass(frozen=True, slots=True)
class FilePlace:
    """One file of a photo: its row, the camera that it names, and where it lies: its folder and its name."""

    id: int
    is_missing: bool
    camera: Camera
    folder: str
    name: str


@dataclass(frozen=True, slots=True)
class Said:
    """One claim, with its row and the file that makes it."""

    claim: Claim
    evidence_id: int
    file: FilePlace


@dataclass(frozen=True, slots=True)
class PhotoSaid:
    """All that the files of one photo say: `files` are there, with those that are present first."""

    key: str
    files: tuple[FilePlace, ...]
    said: tuple[Said, ...]

    @property
    def camera(self) -> Camera:
        """The first that a file names."""
        return next((file.camera for file in self.files if file.camera.model or file.camera.make), self.files[0].camera)


@dataclass(frozen=True, slots=True)
class CaptureTime:
    """The verdict on one photo.

    `taken` is ISO 8601 of reduced precision (local wall clock) or None; with the precision "between" a plain date.
    `source` is that of the believed claim, or "copy", "file numbers", "by hand", "none". `chosen` is the place of the
    believed claim in what the photo's files say, or None. `placed` is what puts it into a week: `taken`, or a day of
    the week told by hand. `twin` is the key of the photo whose time it has, being a copy of it. `is_arrival`: the time
    is that at which a file came, `is_scan`: that at which something was digitized, maybe from paper.
    """

    taken: str | None
    fraction: str
    precision: Precision
    offset_minutes: int | None
    source: str
    doubtful: bool
    reason: str
    chosen: int | None
    placed: str | None = None
    twin: str | None = None
    is_arrival: bool = False
    is_scan: bool = False


NOTHING_KNOWN = CaptureTime(None, "", "unknown", None, "none", True, "nothing tells when it was taken", None)


@dataclass(frozen=True, slots=True)
class World:
    """What a verdict needs to know besides the evidence.

    `zone_is_told` says whether the home zone was set by the person: a guess makes a time turned from UTC doubtful where
    the week hangs on it. A photo cannot have been taken after the day
    that follows `today`: somewhere it is tomorrow already.
    """

    to_local: ToLocal
    zone_is_told: bool
    today: date
    weeks: AlbumWeeks = field(default_factory=AlbumWeeks)

    @property
    def last_day(self) -> date:
        return self.today + timedelta(days=1)

    def home_offset(self, local: datetime) -> int:
        """Minutes east of Greenwich at home, at a wall clock there; right but for the hour around a change."""
        utc = local
        for _ in range(2):
            east = self.to_local(utc).utcoffset() or timedelta()
            utc = local - east
        return int(east.total_seconds() // 60)


@dataclass(frozen=True, slots=True)
class CopyPair:
    """Two photos that show one shot; `score` 0..1, more is surer."""

    one: str
    other: str
    score: float


@dataclass(frozen=True, slots=True)
class ByHand:
    """What the person said of photos, by key: the time they were taken (ISO 8601 of reduced precision), and the first
    day of the week that they belong to, as it was told."""

    taken: Mapping[str, str] = field(default_factory=dict)
    weeks: Mapping[str, str] = field(default_factory=dict)


#: Why a correction is likely: the same scenes as another camera; an hour's step at a daylight-saving date; a clock that
#: fell back to the date it left the factory with; the satellites' time.
Ground = Literal["scenes", "daylight saving", "factory date", "gps"]


@dataclass(frozen=True, slots=True)
class Correction:
    """What is added to a camera's own times, told by the person; `since` and `until` bound it.

    Both are the camera's own, uncorrected wall clock (ISO 8601, "2026-03-30T09:15:20"), the half-open span
    [since, until); None where it is not bounded.
    """

    uuid: str
    told_at: str
    camera: Camera
    shift_seconds: int
    since: str | None = None
    until: str | None = None


@dataclass(frozen=True, slots=True)
class Shot:
    """One photo, as the questions about clocks need it.

    `own`: the wall clock that the camera wrote, uncorrected ("2026-03-30T09:15:20"). `offset_minutes`: the zone that it
    tells, None where it tells none. `gps`: the universal time of the satellites' last fix ("2026-03-30T08:15:18"), None
    where there is none. `number`: (folder, what stands before the digits in the file's name, the number), None where
    the name is no counter. `names_time`: the local wall clock that its file name carries to the second, None where it
    carries none.
    """

    key: str
    camera: Camera
    own: str
    offset_minutes: int | None = None
    gps: str | None = None
    number: tuple[str, str, int] | None = None
    names_time: str | None = None


@dataclass(frozen=True, slots=True)
class SameScene:
    """Two photos of different cameras that show one scene, whatever their clocks say. `score`: log odds."""

    one: str
    other: str
    score: float


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A clock correction that the evidence speaks for, never applied unasked.

    `shift_seconds`, `since` and `until` as in `Correction`. `grounds` is one sentence for a person. `photos` are the
    keys of those that it would move.
    """

    camera: Camera
    shift_seconds: int
    since: str | None
    until: str | None
    ground: Ground
    grounds: str
    photos: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Archive:
    """All that the verdicts on a whole archive rest on."""

    photos: Sequence[PhotoSaid]
    copies: Sequence[CopyPair] = ()
    scenes: Sequence[SameScene] = ()
    corrections: Sequence[Correction] = ()
    by_hand: ByHand = field(default_factory=ByHand)
