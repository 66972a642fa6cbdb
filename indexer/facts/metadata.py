"""Exif block in, tags and claims out.

The block is read by exifread behind a fence: whatever a broken block makes it raise becomes a named failure. Values are
taken from `.values`, never from the printed labels, which change with the library's language of the day.
"""

import logging
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any, BinaryIO

import exifread

from indexer.facts.dates import LONGEST_TEXT, NO_SUCH_TIME, is_blank, iso_text
from indexer.facts.exif_dates import exif_date_claim
from indexer.facts.records import NO_CAMERA, Camera, Claim

logging.getLogger("exifread").setLevel(logging.CRITICAL)

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
    latitude, longitude = _degrees(tags, "GPS GPSLatitude", "S", 90), _degrees(tags, "GPS GPSLongitude", "W", 180)
    has_no_fix = latitude == longitude == 0
    dates = (*map(_exif_claim, [tags] * 3, _EXIF_DATES), _gps_claim(tags, has_no_fix))
    return Metadata(
        orientation=_orientation(tags),
        width=_first_number(tags, "EXIF ExifImageWidth"),
        height=_first_number(tags, "EXIF ExifImageLength"),
        camera=Camera(
            make=_text(tags, "Image Make"),
            model=_text(tags, "Image Model"),
            serial=_text(tags, "EXIF BodySerialNumber") or _text(tags, "Image CameraSerialNumber"),
        ),
        latitude=None if has_no_fix else latitude,
        longitude=None if has_no_fix else longitude,
        claims=tuple(claim for claim in dates if claim),
    )


def _exif_claim(tags: Mapping[str, Any], names: tuple[str, str, str, str]) -> Claim | None:
    source, date, offset, fraction = names
    if date not in tags:
        # TIFF/EP (ISO 12234-2) has it in the main directory.
        date = date.replace("EXIF", "Image")
    if date not in tags:
        return None
    return exif_date_claim(source, _text(tags, date), _text(tags, fraction), _text(tags, offset))


def _gps_claim(tags: Mapping[str, Any], has_no_fix: bool) -> Claim | None:
    """GPS date and time are UTC, of the last fix: evidence about the clock, seldom the moment itself.

    A place of exact zeros is what receivers write that have found none (common practice); their time is no better.
    """
    day, parts = _text(tags, "GPS GPSDate")[:LONGEST_TEXT], _numbers(tags, "GPS GPSTimeStamp")
    time = ":".join(f"{part:g}" for part in parts[:3])
    text = f"{day} {time} UTC".strip() if day or time else "0, 0"
    if has_no_fix:
        return Claim("gps", text, None, problem="the place is 0, 0: the receiver knew neither place nor time")
    if not day:
        return None  # a time of no day says nothing, and many cameras write one
    if is_blank(day):
        return Claim("gps", text, None, problem="blank: the receiver did not know the day")
    if len(parts) != 3:
        return Claim("gps", text, None, problem="there is no time of day with it")
    try:
        year, month, date = (int(part) for part in re.split(r"[:\-]", day))
        when, _ = iso_text(year, month, date, int(parts[0]), int(parts[1]), int(parts[2]))
    except (ValueError, OverflowError):
        return Claim("gps", text, None, problem=NO_SUCH_TIME)
    return Claim("gps", text, when, "second", is_utc=True)


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
