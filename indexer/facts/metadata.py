"""Exif block in, tags and claims out.

The block is read by exifread behind a fence: whatever a broken block makes it raise becomes a named failure. Values are
taken from `.values`, never from the printed labels, which change with the library's language of the day.
"""

import logging
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from typing import Any, BinaryIO

import exifread

from indexer.facts.records import NO_CAMERA, Camera, Claim

logging.getLogger("exifread").setLevel(logging.CRITICAL)

#: The widest zones in use are UTC-12 and UTC+14 (IANA time zone database).
WIDEST_OFFSET_MINUTES = 14 * 60

_EXIF_DATE = re.compile(r"(\d{4})[:\-/.](\d{2})[:\-/.](\d{2})[ T](\d{2}):(\d{2}):(\d{2})")
_OFFSET = re.compile(r"([+-])(\d{2}):?(\d{2})|Z")
#: (source, date tag, offset tag, sub-second tag) by Exif 2.32 (CIPA DC-008); exifread names the IFD first.
_EXIF_DATES = (
    ("exif original", "EXIF DateTimeOriginal", "EXIF OffsetTimeOriginal", "EXIF SubSecTimeOriginal"),
    ("exif digitized", "EXIF DateTimeDigitized", "EXIF OffsetTimeDigitized", "EXIF SubSecTimeDigitized"),
    ("exif modified", "Image DateTime", "EXIF OffsetTime", "EXIF SubSecTime"),
)


class MetadataError(Exception):
    """The Exif block cannot be read; the text says why."""


@dataclass(frozen=True, slots=True)
class Metadata:
    """What an Exif block says.

    `orientation` is 1..8, 1 where the tag is absent or holds a reserved value; `width` and `height` are the pixels of
    the picture as stored, 0 where the block does not say.
    """

    orientation: int = 1
    width: int = 0
    height: int = 0
    camera: Camera = NO_CAMERA
    latitude: float | None = None
    longitude: float | None = None
    claims: tuple[Claim, ...] = ()


def read_exif(block: bytes | BinaryIO) -> Metadata:
    """Read a TIFF-structured Exif block, or a whole TIFF file. Raises MetadataError and nothing else."""
    file = BytesIO(block) if isinstance(block, bytes) else block
    try:
        tags = exifread.process_file(file, details=False, extract_thumbnail=False)
        return metadata_of(tags)
    except Exception as error:  # the one fence: the reader of foreign bytes may raise anything
        raise MetadataError(f"the Exif block is damaged ({type(error).__name__})") from error


def metadata_of(tags: Mapping[str, Any]) -> Metadata:
    """Turn exifread's tags into values."""
    return Metadata(
        orientation=_orientation(tags),
        width=_first_number(tags, "EXIF ExifImageWidth"),
        height=_first_number(tags, "EXIF ExifImageLength"),
        camera=Camera(
            make=_text(tags, "Image Make"),
            model=_text(tags, "Image Model"),
            serial=_text(tags, "EXIF BodySerialNumber") or _text(tags, "Image CameraSerialNumber"),
        ),
        latitude=_degrees(tags, "GPS GPSLatitude", "S", 90),
        longitude=_degrees(tags, "GPS GPSLongitude", "W", 180),
        claims=tuple(claim for claim in (*map(_exif_claim, [tags] * 3, _EXIF_DATES), _gps_claim(tags)) if claim),
    )


def exif_date_claim(source: str, text: str, fraction: str = "", offset: str = "") -> Claim:
    """A claim from an Exif date `YYYY:MM:DD HH:MM:SS` and, where there are any, its sub-second digits and offset."""
    shown = " ".join(part for part in (text.strip(), offset.strip()) if part)
    minutes, offset_problem = parse_offset(offset)
    if not any(letter.isdigit() and letter != "0" for letter in text):
        return Claim(source, shown, None, problem="blank: the camera did not know the time")
    match = _EXIF_DATE.match(text.strip("\0 "))
    if not match:
        return Claim(source, shown, None, problem="not a date as Exif writes it (YYYY:MM:DD HH:MM:SS)")
    try:
        when = datetime(*map(int, match.groups()))  # type: ignore[arg-type]  # noqa: DTZ001 - a wall clock has no zone
    except ValueError:
        return Claim(source, shown, None, problem="no such day or time")
    digits = fraction.strip("\0 ")
    return Claim(
        source,
        shown,
        when.isoformat(),
        "second",
        fraction=digits if digits.isascii() and digits.isdigit() else "",
        offset_minutes=minutes,
        problem=offset_problem,
    )


def parse_offset(text: str) -> tuple[int | None, str | None]:
    """Minutes east of Greenwich of "+02:00", and what is wrong with the text otherwise (None for an absent one)."""
    text = text.strip("\0 ")
    if not text.strip(": "):
        return None, None
    match = _OFFSET.fullmatch(text)
    if not match:
        return None, f"offset {text!r} is none, left aside"
    if text == "Z":
        return 0, None
    minutes = int(match[2]) * 60 + int(match[3])
    if minutes > WIDEST_OFFSET_MINUTES or int(match[3]) > 59:
        return None, f"offset {text} does not exist, left aside"
    return (-minutes if match[1] == "-" else minutes), None


def _exif_claim(tags: Mapping[str, Any], names: tuple[str, str, str, str]) -> Claim | None:
    source, date, offset, fraction = names
    if date not in tags:
        return None
    return exif_date_claim(source, _text(tags, date), _text(tags, fraction), _text(tags, offset))


def _gps_claim(tags: Mapping[str, Any]) -> Claim | None:
    """GPS date and time are UTC, of the last fix: evidence about the clock, seldom the moment itself."""
    day, parts = _text(tags, "GPS GPSDate"), _numbers(tags, "GPS GPSTimeStamp")
    if not day or len(parts) != 3:
        return None
    text = f"{day} " + ":".join(f"{part:g}" for part in parts) + " UTC"
    try:
        year, month, date = (int(part) for part in re.split(r"[:\-]", day))
        when = datetime(year, month, date, int(parts[0]), int(parts[1]), int(parts[2]))  # noqa: DTZ001
    except (ValueError, OverflowError):
        return Claim("gps", text, None, problem="no such day or time")
    return Claim("gps", text, when.isoformat(), "second", is_utc=True)


def _text(tags: Mapping[str, Any], name: str) -> str:
    """An ASCII tag's text without the padding; "" when absent or of another type."""
    value = tags[name].values if name in tags else ""
    if isinstance(value, bytes):
        value = value.decode("latin-1")
    if not isinstance(value, str):
        return ""
    return "".join(letter if letter.isprintable() else " " for letter in value.split("\0")[0]).strip()


def _orientation(tags: Mapping[str, Any]) -> int:
    """Reserved values count as 1 (Exif 2.32, tag 0x0112)."""
    value = _first_number(tags, "Image Orientation")
    return value if 1 <= value <= 8 else 1


def _first_number(tags: Mapping[str, Any], name: str) -> int:
    """A tag's first whole number, 0 where there is none above."""
    values = tags[name].values if name in tags else ()
    first = values[0] if isinstance(values, Sequence) and len(values) else 0
    return first if isinstance(first, int) and first > 0 else 0


def _numbers(tags: Mapping[str, Any], name: str) -> list[float]:
    """The rationals of a tag as floats; a zero denominator makes the list empty."""
    values = tags[name].values if name in tags else ()
    try:
        return [float(value) for value in values]
    except (ValueError, TypeError, ZeroDivisionError):
        return []


def _degrees(tags: Mapping[str, Any], name: str, negative: str, limit: int) -> float | None:
    parts = _numbers(tags, name)
    if len(parts) != 3:
        return None
    degrees = parts[0] + parts[1] / 60 + parts[2] / 3600
    if not 0 <= degrees <= limit:
        return None
    return -degrees if _text(tags, f"{name}Ref").upper().startswith(negative) else degrees
