"""JPEG (ITU-T T.81, annex B): the segments up to the first scan, and whether the picture has an end.

Nothing is decoded, and past the header only the end of the file is looked at: indexing a library rests on this module.
"""

import re
from dataclasses import dataclass

from indexer.facts.containers.exif_block import XMP_IDENTIFIER, as_tiff
from indexer.facts.containers.reader import Reader
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container

#: Segments before the first scan. Each holds 64 KB at most, so 64 MB of header: far more than a photo carries.
MAX_SEGMENTS = 1024

#: Bytes that belong to no segment are skipped, as decoders do, but no further than this.
MAX_JUNK = 64 << 10

#: Image resources (APP13) beyond this are left aside; IPTC is among the first of them.
MAX_RESOURCES = 1 << 20

HEADER_DAMAGED = "its header is damaged before the picture begins"

_START_OF_SCAN = 0xDA
_END_OF_IMAGE = 0xD9
_APP1, _APP13 = 0xE1, 0xED
#: SOF0..SOF15 without DHT (C4), JPG (C8) and DAC (CC), which share their range.
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
#: TEM, RST0..RST7 and SOI carry no length.
_STANDALONE = frozenset((0x01, *range(0xD0, 0xD9)))

_EXIF = b"Exif\0"
_RESOURCES = b"Photoshop 3.0\0"
_MARKER = re.compile(rb"\xff[\x01-\xfe]")


@dataclass(slots=True)
class _Header:
    """What the walk over the segments has gathered so far; `scan` is the offset of the first start-of-scan marker."""

    width: int = 0
    height: int = 0
    has_frame: bool = False
    exif: bytes | None = None
    xmp: bytes | None = None
    resources: bytes = b""
    scan: int | None = None
    damage: str = CUT_OFF


def parse(reader: Reader) -> Container:
    """The header of a JPEG. Raises `BrokenContainer`, with the metadata, where no frame header gives a size."""
    header = _walk(reader)
    if not header.has_frame:
        reason = "the file ends, or breaks, before its header gives the size of the picture"
        raise BrokenContainer(reason, exif=header.exif, xmp=header.xmp)
    if not header.width or not header.height:
        raise BrokenContainer("its header gives a size of zero")
    scan = header.scan
    whole = scan is not None and _has_end(reader, scan)
    return Container(
        "JPEG",
        header.width,
        header.height,
        exif=header.exif,
        xmp=header.xmp,
        resources=header.resources or None,
        picture_spans=() if scan is None else ((scan, reader.size - scan),),
        damage=None if whole else header.damage,
    )


def _walk(reader: Reader) -> _Header:
    header = _Header()
    position = 2
    for _ in range(MAX_SEGMENTS):
        found = _next_marker(reader, position)
        if found is None or not reader.holds(found, 4):
            if found is None and position + MAX_JUNK <= reader.size:
                header.damage = HEADER_DAMAGED
            return header
        _, marker, high, low = reader.at(found, 4)
        if marker in _STANDALONE:
            position = found + 2
            continue
        length = high << 8 | low
        if marker == _START_OF_SCAN:
            header.scan = found
            return header
        if marker == _END_OF_IMAGE or length < 2:
            break
        if reader.holds(found + 2, length):
            _take(reader, header, marker, found + 4, length - 2)
        position = found + 2 + length
    header.damage = HEADER_DAMAGED
    return header


def _next_marker(reader: Reader, position: int) -> int | None:
    """The offset of the next FF with a marker code behind it: fill bytes (FF) and stray bytes are passed over."""
    stop = min(position + MAX_JUNK, reader.size)
    while position + 1 < stop:
        block = reader.at(position, min(4096, stop - position))
        if match := _MARKER.search(block):
            return position + match.start()
        position += len(block) - 1  # the pair may lie across two blocks
    return None


def _take(reader: Reader, header: _Header, marker: int, start: int, length: int) -> None:
    """Keep what one segment says; the first of each kind counts. Image resources go on in the segments that follow."""
    if marker == _APP1:
        payload = reader.at(start, length)
        if payload.startswith(_EXIF):
            header.exif = header.exif or as_tiff(payload)
        elif payload.startswith(XMP_IDENTIFIER):
            header.xmp = header.xmp or payload[len(XMP_IDENTIFIER) :]
    elif marker == _APP13 and len(header.resources) + length <= MAX_RESOURCES:
        payload = reader.at(start, length)
        if payload.startswith(_RESOURCES):
            header.resources += payload[len(_RESOURCES) :]
    elif marker in _FRAMES and length >= 6 and not header.has_frame:
        frame = reader.at(start, 5)
        header.height = int.from_bytes(frame[1:3])
        header.width = int.from_bytes(frame[3:5])
        header.has_frame = True


def _has_end(reader: Reader, scan: int) -> bool:
    """Whether an end-of-image marker follows the scan: coded data never hold FF D9, and what is appended may follow it.

    Read backwards in growing blocks, because in a whole file it is nearly always the last two bytes.
    """
    end = reader.size
    block = 4096
    while end > scan:
        begin = max(scan, end - block)
        if b"\xff\xd9" in reader.at(begin, min(end + 1, reader.size) - begin):
            return True
        end = begin
        block = min(block * 16, 1 << 20)
    return False
