"""week.json: what a working folder holds, sealed so that a change by hand is seen. Values and text; no disk."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from datetime import date, timedelta
from typing import Any

from queries.made_files.sealed import MADE_BY, body_of, is_sealed, sealed_text

FORMAT = 1
FILE_NAME = "week.json"


@dataclass(frozen=True, slots=True)
class PulledAlike:
    """The set that a photo is in: "copy" or "burst", the code of its keeper if it has one, how many photos it has."""

    kind: str
    keeper: str | None
    photos: int


@dataclass(frozen=True, slots=True)
class PulledPhoto:
    """One photo in the folder: its file there, the file it came from, and what the index said of it at that time.

    `sha256`, `size` (bytes) and `mtime_ns` are those of the pulled file; `source_sha256` is that of the original, for a
    JPEG that was made from it. `width` and `height` are pixels of the displayed picture. `in_week` turns false when the
    photo goes to another week and the file stays, `keeper` when it comes to be left out and the file stays.
    """

    file: str
    source: str
    key: str
    code: str
    sha256: str
    source_sha256: str
    size: int
    mtime_ns: int
    taken: str | None
    precision: str
    zone: str | None
    shape: str
    width: int
    height: int
    doubtful: bool
    in_week: bool = True
    keeper: bool = True
    alike: PulledAlike | None = None


@dataclass(frozen=True, slots=True)
class PulledSheet:
    """A week sheet in the folder; `drawn_from` is a digest of all that stands on it."""

    file: str
    sha256: str
    size: int
    mtime_ns: int
    drawn_from: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """All of week.json but its seal."""

    week_name: str
    first_day: date
    as_jpeg: bool
    state: str
    waiting_for: tuple[str, ...]
    photos: tuple[PulledPhoto, ...]
    sheets: tuple[PulledSheet, ...]


@dataclass(frozen=True, slots=True)
class Unusable:
    """A week.json that is not as we wrote it; `first_day` is what it says of its week, if it says that much."""

    reason: str
    first_day: date | None = None


def manifest_text(manifest: Manifest) -> str:
    """The text of week.json."""
    body: dict[str, object] = {
        "made_by": MADE_BY,
        "format": FORMAT,
        "week": {
            "name": manifest.week_name,
            "first_day": manifest.first_day.isoformat(),
            "last_day": (manifest.first_day + timedelta(days=6)).isoformat(),
        },
        "files_are": "jpegs" if manifest.as_jpeg else "copies",
        "state": manifest.state,
        "waiting_for": list(manifest.waiting_for),
        "photos": [asdict(photo) for photo in manifest.photos],
        "sheet": [asdict(sheet) for sheet in manifest.sheets],
    }
    return sealed_text(body)


def parse_manifest(data: bytes) -> Manifest | Unusable:
    """Read week.json back; Unusable when it was changed by hand, is no JSON, or comes from a newer version."""
    body = body_of(data)
    if isinstance(body, str):
        return Unusable(body)
    first_day = _first_day(body)
    if body.get("format") != FORMAT:
        return Unusable("another version of weeksheaf made it", first_day)
    if not is_sealed(body):
        return Unusable("it was edited by hand", first_day)
    try:
        return _from_body(body)
    except (KeyError, TypeError, ValueError):
        return Unusable("it does not hold what it should", first_day)


def _from_body(body: Mapping[str, object]) -> Manifest:
    """Build the manifest; a missing or ill-typed part raises KeyError, TypeError or ValueError."""
    week, photos, sheets, waits = body["week"], body["photos"], body["sheet"], body["waiting_for"]
    if not (
        isinstance(week, dict) and isinstance(photos, list) and isinstance(sheets, list) and isinstance(waits, list)
    ):
        raise TypeError
    return Manifest(
        week_name=str(week["name"]),
        first_day=date.fromisoformat(week["first_day"]),
        as_jpeg=body["files_are"] == "jpegs",
        state=str(body["state"]),
        waiting_for=tuple(str(wait) for wait in waits),
        photos=tuple(_photo(row) for row in photos),
        sheets=tuple(PulledSheet(**_checked(row, PulledSheet)) for row in sheets),
    )


def _photo(row: object) -> PulledPhoto:
    if not isinstance(row, dict):
        raise TypeError
    alike = row.get("alike")
    row = row | {"alike": None if alike is None else PulledAlike(**_typed(alike, PulledAlike))}
    return PulledPhoto(**_checked(row, PulledPhoto))


def _checked(row: object, kind: type[PulledPhoto] | type[PulledSheet]) -> dict[str, Any]:
    """The row, if the file it names is a plain name: no path may lead out of the folder."""
    typed = _typed(row, kind)
    name = typed["file"]
    if name.startswith(".") or name == FILE_NAME or any(letter in name for letter in "/\\:\0"):
        raise ValueError
    return typed


def _typed(row: object, kind: type[PulledPhoto] | type[PulledSheet] | type[PulledAlike]) -> dict[str, Any]:
    """The row, if each value has its field's type."""
    if not isinstance(row, dict):
        raise TypeError
    for field in fields(kind):
        if field.name in row and not isinstance(row[field.name], field.type):  # type: ignore[arg-type]
            raise TypeError
    return row


def _first_day(body: Mapping[str, object]) -> date | None:
    week = body.get("week")
    try:
        return date.fromisoformat(week["first_day"]) if isinstance(week, dict) else None
    except (KeyError, TypeError, ValueError):
        return None
