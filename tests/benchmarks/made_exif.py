"""Exif blocks for made photos: as many tags as a phone writes, with a thumbnail or without.

The layout is that of TIFF 6.0, section 2; the tags are those of Exif 2.32 (CIPA DC-008).
"""

import struct
from collections.abc import Mapping
from datetime import datetime

#: What a tag holds: text (ASCII), a small number (SHORT), `Long`, a fraction (RATIONAL) or bytes (UNDEFINED).
Value = str | int | tuple[int, int] | bytes


class Long(int):
    """A number that is written in 32 bits however small it is, as offsets are."""


def exif_block(when: datetime, *, model: str, orientation: int, size: tuple[int, int], thumbnail: bytes = b"") -> bytes:
    """A TIFF-structured block for a picture of `size` stored pixels; `thumbnail` is a whole JPEG."""
    date = when.strftime("%Y:%m:%d %H:%M:%S")
    main: dict[int, Value] = {
        0x010F: "Harbour Optics",
        0x0110: model,
        0x0112: orientation,
        0x011A: (72, 1),
        0x011B: (72, 1),
        0x0128: 2,
        0x0131: "1.4.2",
        0x0132: date,
        0x0213: 1,
    }
    camera_at = 8 + len(_directory({**main, 0x8769: Long(0)}, at=8))
    camera = _directory(_camera_tags(date, size), camera_at)
    thumbnail_at = camera_at + len(camera) if thumbnail else 0
    main_written = _directory({**main, 0x8769: Long(camera_at)}, at=8, next_at=thumbnail_at)
    return b"II*\0" + struct.pack("<I", 8) + main_written + camera + _with_thumbnail(thumbnail, thumbnail_at)


def _camera_tags(date: str, size: tuple[int, int]) -> dict[int, Value]:
    return {
        0x829A: (1, 120),
        0x829D: (18, 10),
        0x8822: 2,
        0x8827: 64,
        0x9000: b"0232",
        0x9003: date,
        0x9004: date,
        0x9010: "+02:00",
        0x9011: "+02:00",
        0x9012: "+02:00",
        0x9101: b"\1\2\3\0",
        0x9202: (17, 10),
        0x9207: 5,
        0x9209: 16,
        0x920A: (57, 10),
        0x9291: "417",
        0x9292: "417",
        0xA000: b"0100",
        0xA001: 1,
        0xA002: Long(size[0]),
        0xA003: Long(size[1]),
        0xA217: 2,
        0xA301: b"\1",
        0xA402: 0,
        0xA403: 0,
        0xA405: 26,
        0xA434: "Harbour Optics 5.7 mm f/1.8",
    }


def _with_thumbnail(thumbnail: bytes, at: int) -> bytes:
    """The second directory and the small picture that it points at; nothing where there is none."""
    if not thumbnail:
        return b""
    tags: dict[int, Value] = {0x0103: 6, 0x011A: (72, 1), 0x011B: (72, 1), 0x0128: 2, 0x0202: Long(len(thumbnail))}
    place = at + len(_directory({**tags, 0x0201: Long(0)}, at))
    return _directory({**tags, 0x0201: Long(place)}, at) + thumbnail


def _directory(tags: Mapping[int, Value], at: int, next_at: int = 0) -> bytes:
    """One directory that begins at that offset, with the values too long for its entries behind it."""
    values_at = at + 2 + 12 * len(tags) + 4
    entries, values = b"", b""
    for tag, value in sorted(tags.items()):
        kind, count, data = _encoded(value)
        if len(data) > 4:
            place = struct.pack("<I", values_at + len(values))
            values += data + b"\0" * (len(data) & 1)
        else:
            place = data.ljust(4, b"\0")
        entries += struct.pack("<HHI", tag, kind, count) + place
    return struct.pack("<H", len(tags)) + entries + struct.pack("<I", next_at) + values


def _encoded(value: Value) -> tuple[int, int, bytes]:
    """(TIFF type, count, bytes) of a value."""
    if isinstance(value, str):
        return 2, len(value) + 1, value.encode("ascii") + b"\0"
    if isinstance(value, bytes):
        return 7, len(value), value
    if isinstance(value, tuple):
        return 5, 1, struct.pack("<II", *value)
    return (4, 1, struct.pack("<I", value)) if isinstance(value, Long) else (3, 1, struct.pack("<H", value))
