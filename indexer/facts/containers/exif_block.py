"""Exif blocks: found in what a container carries, or built anew from the directories of a TIFF-structured file.

A raw file has its Exif values strewn over megabytes. They are gathered into one small block of the same structure, so
that whoever reads the metadata reads every format alike.
"""

import struct
from collections.abc import Iterable

from indexer.facts.containers.tiff_directory import NO_DIRECTORY, Directory, Tiff

EXIF_POINTER = 0x8769
GPS_POINTER = 0x8825

#: Limits of a block built here: JPEG allows 64 KB for all of it.
MAX_VALUE = 64 << 10
MAX_BUILT = 1 << 20

#: What stands before an XMP packet in JPEG's APP1 (XMP specification, part 3).
XMP_IDENTIFIER = b"http://ns.adobe.com/xap/1.0/\0"

_BEGINNINGS = (b"II*\0", b"MM\0*")

#: Not carried over: where strips, tiles, previews and further directories lie; and blocks of other structure (XMP,
#: IPTC, image resources, colour profile, makers' own), whose inner offsets hold only in their first place.
_STRUCTURE = {0x0111, 0x0117, 0x0144, 0x0145, 0x014A, 0x0201, 0x0202, EXIF_POINTER, GPS_POINTER, 0xA005}
_FOREIGN = {0x02BC, 0x83BB, 0x8649, 0x8773, 0x927C, 0xC634}
_LEFT_OUT = _STRUCTURE | _FOREIGN

#: Tag, type, count, content.
_Entry = tuple[int, int, int, bytes]


def as_tiff(data: bytes) -> bytes | None:
    """The TIFF-structured block in `data`, without the "Exif" identifier; None where it does not begin as one."""
    block = data[6:] if data.startswith(b"Exif\0") else data
    return block if block.startswith(_BEGINNINGS) else None


def gather(tiff: Tiff, directory: Directory) -> bytes:
    """The Exif block of that directory with its Exif and GPS directories."""
    exif = next(iter(tiff.below(directory, EXIF_POINTER)), NO_DIRECTORY)
    gps = next(iter(tiff.below(directory, GPS_POINTER)), NO_DIRECTORY)
    return build(tiff.byte_order, *(entries(tiff, part) for part in (directory, exif, gps)))


def entries(tiff: Tiff, directory: Directory) -> list[_Entry]:
    """The values of a directory that a block built anew can carry, in the order of their tags."""
    found: list[_Entry] = []
    room = MAX_BUILT
    for tag, value in sorted(directory.values.items()):
        if tag in _LEFT_OUT or not 0 < value.length <= min(MAX_VALUE, room):
            continue
        if (content := tiff.content(value)) is not None:
            found.append((tag, value.type, value.count, content))
            room -= value.length
    return found


def build(byte_order: str, main: list[_Entry], exif: list[_Entry], gps: list[_Entry]) -> bytes:
    """A TIFF-structured block of three directories; `byte_order` is "<" or ">" and that of the contents."""
    block = (b"II*\0" if byte_order == "<" else b"MM\0*") + struct.pack(byte_order + "I", 8)
    pointers: list[_Entry] = []
    at = 8 + _table_size(len(main) + bool(exif) + bool(gps))
    parts: list[bytes] = []
    for tag, part in ((EXIF_POINTER, exif), (GPS_POINTER, gps)):
        if part:
            pointers.append((tag, 4, 1, struct.pack(byte_order + "I", at)))
            parts.append(_directory(byte_order, part, at))
            at += len(parts[-1])
    # The main directory's own contents come last, so that the places of the others are known before it is written.
    table, contents = _split(byte_order, [*main, *pointers], at)
    return block + table + b"".join(parts) + contents


def _table_size(count: int) -> int:
    return 2 + 12 * count + 4


def _directory(byte_order: str, part: list[_Entry], at: int) -> bytes:
    table, contents = _split(byte_order, part, at + _table_size(len(part)))
    return table + contents


def _split(byte_order: str, part: Iterable[_Entry], contents_at: int) -> tuple[bytes, bytes]:
    """The table of a directory, and the contents that do not fit into it and begin at `contents_at`."""
    rows: list[bytes] = []
    contents = bytearray()
    for tag, kind, count, content in sorted(part):
        if len(content) <= 4:
            place = content.ljust(4, b"\0")
        else:
            place = struct.pack(byte_order + "I", contents_at + len(contents))
            contents += content + b"\0" * (len(content) & 1)
        rows.append(struct.pack(byte_order + "HHI", tag, kind, count) + place)
    return struct.pack(byte_order + "H", len(rows)) + b"".join(rows) + bytes(4), bytes(contents)
