"""Photos as their files speak, made in a line."""

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta, timezone

from indexer.dating.album_weeks import AlbumWeeks
from indexer.dating.corrected import by_camera
from indexer.dating.offsets import Offsets
from indexer.dating.own import own_time
from indexer.dating.values import CaptureTime, Correction, FilePlace, PhotoSaid, Said, World
from indexer.facts.records import NO_CAMERA, Camera, Claim, Precision

COMPACT = Camera("Harbour", "Harbour C2", "77")
PHONE = Camera("Lantern", "Lantern L5", "")
TODAY = date(2026, 6, 1)

_BY_LETTERS: dict[int, Precision] = {4: "year", 7: "month", 10: "day", 16: "minute", 19: "second"}


def claim(source: str, when: str | None, offset: int | None = None, **more: object) -> Claim:
    """A claim whose precision is that of its letters; `arrival` and `utc` as told, file times are both."""
    is_file_time = source == "file time"
    return Claim(
        source,
        str(more.get("text", when)),
        when,
        _BY_LETTERS[len(when)] if when else "unknown",
        offset_minutes=offset,
        is_utc=bool(more.get("utc", is_file_time)),
        is_arrival=bool(more.get("arrival", is_file_time)),
        problem=None if when else "blank",
    )


def photo(
    key: str,
    *claims: Claim,
    name: str | None = None,
    camera: Camera = NO_CAMERA,
    folder: str = "1/camera",
    missing: bool = False,
) -> PhotoSaid:
    """A photo with one file."""
    return photo_of_files(key, (file(1, name or f"{key}.jpg", camera, folder, missing=missing), claims))


def photo_of_files(key: str, *files: tuple[FilePlace, Iterable[Claim]]) -> PhotoSaid:
    """A photo whose files say different things."""
    said = [(claim, place) for place, claims in files for claim in claims]
    return PhotoSaid(
        key, tuple(place for place, _ in files), tuple(Said(item, row, place) for row, (item, place) in enumerate(said))
    )


def file(
    number: int, name: str, camera: Camera = NO_CAMERA, folder: str = "1/camera", *, missing: bool = False
) -> FilePlace:
    return FilePlace(number, missing, camera, folder, name)


def at_home(utc: datetime) -> datetime:
    """Two hours east of Greenwich."""
    return utc.replace(tzinfo=UTC).astimezone(timezone(timedelta(hours=2)))


def world(*, zone_is_told: bool = True, first_day: int = 0, starts_at: int = 0) -> World:
    """1 June 2026, with weeks from that weekday on and days that begin at that hour."""
    return World(at_home, zone_is_told, TODAY, AlbumWeeks(first_day, timedelta(hours=starts_at)))


def verdict(
    *claims: Claim, camera: Camera = NO_CAMERA, corrections: Iterable[Correction] = (), **told: bool
) -> CaptureTime:
    """The verdict on a photo of one file, by its own claims."""
    return own_time(photo("a", *claims, camera=camera), by_camera(corrections), Offsets(), world(**told))


def correction(
    seconds: int, since: str | None = None, until: str | None = None, camera: Camera = COMPACT, told_at: str = "1"
) -> Correction:
    return Correction(f"uuid {told_at}", told_at, camera, seconds, since, until)
