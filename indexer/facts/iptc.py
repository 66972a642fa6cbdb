"""IPTC block (IIM 4.1) in, claims out: the dates that agencies, archives and scanning programs write.

In a JPEG the block is one of the image resources (0x0404) of its APP13 segments; beside it may stand the digest
(0x0425, MD5) that the block had when the XMP packet was last written. Where they differ, IPTC was changed after XMP
(Metadata Working Group, Guidelines for Handling Image Metadata 2.0, 2010).
"""

import re
from dataclasses import replace
from hashlib import md5

from indexer.facts.dates import LONGEST_TEXT, NO_SUCH_TIME, is_blank, iso_text
from indexer.facts.exif_dates import parse_offset
from indexer.facts.records import Claim

_BLOCK, _DIGEST = 0x0404, 0x0425
#: The first stands before nearly every resource, the others were used by older programs (memory).
_SIGNATURES = frozenset((b"8BIM", b"PHUT", b"DCSR", b"AgHg", b"MeSa"))
_MARKER = b"\x1c"
_APPLICATION_RECORD = 2
#: DateCreated and TimeCreated, DigitalCreationDate and DigitalCreationTime (IIM 4.1, record 2).
_WANTED = frozenset((55, 60, 62, 63))
#: A length that is written in more bytes is none.
_LONGEST_LENGTH = 5 + 8
#: Many writers leave the marks in that ISO 8601 would have and IIM has not.
_DATE = re.compile(r"(\d{4})[-:]?(\d\d)[-:]?(\d\d)", re.ASCII)
_TIME = re.compile(r"(\d\d):?(\d\d):?(\d\d)([+-]\d\d:?\d\d)?", re.ASCII)


def iptc_claims(resources: bytes | None, block: bytes | None = None) -> tuple[Claim, ...]:
    """The claims of a file's image resources (without the identifier before them), or of an IPTC block as it stands.

    What was changed after the XMP packet is of the source "iptc newer".
    """
    found = _resources(resources or b"")
    digest = found.get(_DIGEST, b"")
    in_resources = found.get(_BLOCK)
    block = block if in_resources is None else in_resources
    if not block:
        return ()
    # A digest of zeros is none (memory).
    is_newer = any(digest) and in_resources is not None and digest != md5(in_resources, usedforsecurity=False).digest()
    texts = _data_sets(block)
    claims = (
        _claim("iptc newer" if is_newer else "iptc", texts.get(55), texts.get(60)),
        _claim("iptc digitized", texts.get(62), texts.get(63)),
    )
    return tuple(claim for claim in claims if claim)


def _resources(data: bytes) -> dict[int, bytes]:
    """The image resources by number, the first of each: signature, number, a name padded to even, length, content.

    What comes after one that is cut off or of another structure is left aside.
    """
    found: dict[int, bytes] = {}
    position = 0
    while data[position : position + 4] in _SIGNATURES:
        number = int.from_bytes(data[position + 4 : position + 6])
        name = data[position + 6 : position + 7]
        start = position + 6 + (len(name) + sum(name) + 1 & ~1)
        length = int.from_bytes(data[start : start + 4])
        content = data[start + 4 : start + 4 + length]
        if len(content) < length:
            break
        found.setdefault(number, content)
        position = start + 4 + (length + 1 & ~1)
    return found


def _data_sets(block: bytes) -> dict[int, str]:
    """The texts of the wanted data sets, the first of each: marker, record, number, length (2 bytes; its highest bit
    says that the length has so many bytes), content."""
    found: dict[int, str] = {}
    position = 0
    while block[position : position + 1] == _MARKER and position + 5 <= len(block):
        record, number = block[position + 1], block[position + 2]
        start = position + 5
        length = int.from_bytes(block[position + 3 : start])
        if length & 0x8000:
            start += length & 0x7FFF
            length = int.from_bytes(block[position + 5 : start]) if start - position <= _LONGEST_LENGTH else len(block)
        content = block[start : start + length]
        if record == _APPLICATION_RECORD and number in _WANTED and len(content) == length:
            found.setdefault(number, content[:LONGEST_TEXT].decode("latin-1").strip("\0 "))
        position = start + length
    return found


def _claim(source: str, day: str | None, time: str | None) -> Claim | None:
    """A claim from CCYYMMDD and HHMMSS±HHMM; zeros in month or day are what is not known."""
    if day is None:
        return None
    text = " ".join(part for part in (day, time) if part)
    if is_blank(day):
        return Claim(source, text, None, problem="blank: the day is not known")
    match = _DATE.fullmatch(day)
    if not match:
        return Claim(source, text, None, problem="not a date as IPTC writes it (CCYYMMDD)")
    year, month, date = (int(part) for part in match.groups())
    fields = [year] if month == date == 0 else [year, month] if date == 0 else [year, month, date]
    try:
        when, precision = iso_text(*fields)
    except ValueError:
        return Claim(source, text, None, problem=NO_SUCH_TIME)
    if len(fields) < 3 or not time:
        return Claim(source, text, when, precision)
    return _with_time(Claim(source, text, when, precision), fields, time)


def _with_time(claim: Claim, day: list[int], time: str) -> Claim:
    """The same day with its time of day, or without where that is none."""
    match = _TIME.fullmatch(time)
    clock = [int(part) for part in match.groups()[:3]] if match else [24, 0, 0]
    try:
        when, precision = iso_text(*day, *clock)
    except ValueError:
        return replace(claim, problem=f"time {time!r} is none, left aside")
    offset, problem = parse_offset(match[4] or "" if match else "")
    return replace(claim, when=when, precision=precision, offset_minutes=offset, problem=problem)
