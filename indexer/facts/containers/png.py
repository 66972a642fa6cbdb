"""PNG (W3C PNG specification, third edition): the chunks, without decoding."""

from dataclasses import dataclass, field

from indexer.facts.containers.exif_block import XMP_IDENTIFIER, as_tiff
from indexer.facts.containers.png_text import KEYWORD, TEXT_CHUNKS, keyword_of, metadata_of
from indexer.facts.containers.reader import MAX_BLOCK, Reader
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container

#: Encoders write the picture in chunks of 8 KB and more: 200,000 of them are a picture of 1.6 GB.
MAX_CHUNKS = 200_000

#: IDAT is the picture, PLTE the colours that its numbers stand for.
_PICTURE = frozenset((b"IDAT", b"PLTE"))


@dataclass(slots=True)
class _Found:
    exif: bytes | None = None
    xmp: bytes | None = None
    spans: list[tuple[int, int]] = field(default_factory=list)
    read: set[bytes] = field(default_factory=set)
    has_data: bool = False
    has_end: bool = False


def parse(reader: Reader) -> Container:
    """The header of a PNG. Raises `BrokenContainer` where it does not begin with a usable IHDR chunk."""
    if reader.at(12, 4) != b"IHDR":
        raise BrokenContainer("its first chunk is not the picture header")
    size = reader.at(16, 8)
    width, height = int.from_bytes(size[:4]), int.from_bytes(size[4:])
    if not width or not height:
        raise BrokenContainer("its header gives a size of zero")
    found = _walk(reader)
    return Container(
        "PNG",
        width,
        height,
        exif=found.exif,
        xmp=found.xmp,
        picture_spans=tuple(found.spans),
        damage=None if found.has_end and found.has_data else CUT_OFF,
    )


def _walk(reader: Reader) -> _Found:
    found = _Found()
    position = 8
    for _ in range(MAX_CHUNKS):
        if not reader.holds(position, 8):
            return found
        head = reader.at(position, 8)
        length, kind = int.from_bytes(head[:4]), head[4:]
        start = position + 8
        if kind == b"IEND":
            found.has_end = True
            return found
        there = min(length, reader.size - start)
        if kind in _PICTURE and there:
            found.spans.append((start, there))
            found.has_data = found.has_data or kind == b"IDAT"
        elif there == length <= MAX_BLOCK:
            _take(reader, found, kind, start, length)
        position = start + length + 4  # the checksum follows
    raise BrokenContainer("it has more chunks than a picture can have")


def _take(reader: Reader, found: _Found, kind: bytes, start: int, length: int) -> None:
    if kind == b"eXIf":
        found.exif = as_tiff(reader.at(start, length)) or found.exif
    elif kind in TEXT_CHUNKS:
        keyword = keyword_of(reader.at(start, min(length, KEYWORD)))
        if keyword is not None and keyword not in found.read:
            found.read.add(keyword)  # once each, readable or not: inflating costs
            _keep(found, metadata_of(kind, reader.at(start, length)) or b"")


def _keep(found: _Found, metadata: bytes) -> None:
    if exif := as_tiff(metadata):
        found.exif = found.exif or exif
    elif xmp := metadata.removeprefix(XMP_IDENTIFIER):
        found.xmp = found.xmp or xmp
