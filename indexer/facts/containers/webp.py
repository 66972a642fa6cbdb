"""WebP (RFC 9649): the RIFF chunks, without decoding."""

from dataclasses import dataclass, field

from indexer.facts.containers.exif_block import as_tiff
from indexer.facts.containers.reader import MAX_BLOCK, Reader
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container

#: A still photo has fewer than ten; the rest is room for animations.
MAX_CHUNKS = 100_000

_PICTURE = frozenset((b"VP8 ", b"VP8L", b"ALPH", b"ANMF"))


@dataclass(slots=True)
class _Found:
    size: tuple[int, int] | None = None
    exif: bytes | None = None
    xmp: bytes | None = None
    spans: list[tuple[int, int]] = field(default_factory=list)
    cut: bool = False


def parse(reader: Reader) -> Container:
    """The header of a WebP file. Raises `BrokenContainer` where no chunk gives a size."""
    riff_end = 8 + int.from_bytes(reader.at(4, 4), "little")
    found = _walk(reader, min(riff_end, reader.size))
    if found.size is None:
        raise BrokenContainer("no chunk of it gives the size of the picture")
    width, height = found.size
    if not width or not height:
        raise BrokenContainer("its header gives a size of zero")
    cut = found.cut or riff_end > reader.size or not found.spans
    return Container(
        "WebP",
        width,
        height,
        exif=found.exif,
        xmp=found.xmp,
        picture_spans=tuple(found.spans),
        damage=CUT_OFF if cut else None,
    )


def _walk(reader: Reader, end: int) -> _Found:
    found = _Found()
    position = 12
    for _ in range(MAX_CHUNKS):
        if position + 8 > end:
            return found
        head = reader.at(position, 8)
        kind, length = head[:4], int.from_bytes(head[4:], "little")
        start = position + 8
        there = min(length, end - start)
        if kind in _PICTURE:
            found.cut = found.cut or there < length
            if there:
                found.spans.append((start, there))
        if found.size is None:
            found.size = _size(kind, reader.at(start, min(there, 10)))
        if there == length <= MAX_BLOCK:
            _take(reader, found, kind, start, length)
        position = start + length + (length & 1)  # chunks begin at even offsets
    raise BrokenContainer("it has more chunks than a picture can have")


def _size(kind: bytes, start: bytes) -> tuple[int, int] | None:
    """Width and height from the first ten bytes of the chunk, where it is one that gives them."""
    if kind == b"VP8X" and len(start) == 10:
        return int.from_bytes(start[4:7], "little") + 1, int.from_bytes(start[7:10], "little") + 1
    if kind == b"VP8L" and len(start) >= 5 and start[0] == 0x2F:
        bits = int.from_bytes(start[1:5], "little")
        return (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1
    if kind == b"VP8 " and len(start) == 10 and start[3:6] == b"\x9d\x01\x2a":  # RFC 6386, 9.1: a key frame
        return int.from_bytes(start[6:8], "little") & 0x3FFF, int.from_bytes(start[8:10], "little") & 0x3FFF
    return None


def _take(reader: Reader, found: _Found, kind: bytes, start: int, length: int) -> None:
    if kind == b"EXIF":
        found.exif = found.exif or as_tiff(reader.at(start, length))
    elif kind == b"XMP ":
        found.xmp = found.xmp or reader.at(start, length)
