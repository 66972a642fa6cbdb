"""The raw file of the brand "crx ": ISO-BMFF boxes around Exif directories, in a `uuid` box of the `moov` box.

CMT1 holds the main directory, CMT2 the Exif one, CMT4 the GPS one, each as a TIFF structure of its own (from memory).
"""

from indexer.facts.containers.boxes import Box, boxes, by_kind
from indexer.facts.containers.exif_block import build, entries
from indexer.facts.containers.reader import Reader
from indexer.facts.containers.tiff_directory import Directory, Tiff
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container

_METADATA = bytes.fromhex("85c0b687820f11e08111f4ce462b6a48")
_MAIN, _EXIF, _GPS = b"CMT1", b"CMT2", b"CMT4"

_Part = tuple[Tiff, Directory]


def parse(reader: Reader) -> Container:
    """The header of such a file. Raises `BrokenContainer` where the directories are not there or give no size."""
    parts = _parts(reader)
    if _MAIN not in parts:
        raise BrokenContainer("it has no metadata where its format puts them")
    width, height = max(
        (_size(parts.get(_MAIN), 0x0100, 0x0101), _size(parts.get(_EXIF), 0xA002, 0xA003)),
        key=lambda size: size[0] * size[1],
    )
    if not width or not height:
        raise BrokenContainer("its metadata give no size of the picture")
    return Container("raw", width, height, exif=_exif(parts), damage=None if _has_data(reader) else CUT_OFF)


def _size(part: _Part | None, across: int, down: int) -> tuple[int, int]:
    if part is None:
        return 0, 0
    tiff, directory = part
    return tiff.number(directory, across), tiff.number(directory, down)


def _has_data(reader: Reader) -> bool:
    """Whether the sensor data, which lie last, are there to their end."""
    top = list(boxes(reader, 0, reader.size))
    return any(box.kind == b"mdat" for box in top) and not any(box.is_cut for box in top)


def _exif(parts: dict[bytes, _Part]) -> bytes:
    byte_order = parts[_MAIN][0].byte_order
    known = [parts.get(kind) for kind in (_MAIN, _EXIF, _GPS)]
    return build(byte_order, *(entries(*part) if part and part[0].byte_order == byte_order else [] for part in known))


def _parts(reader: Reader) -> dict[bytes, _Part]:
    """The directories that can be read, by the kind of their box."""
    found: dict[bytes, _Part] = {}
    moov = by_kind(reader, 0, reader.size).get(b"moov")
    for box in boxes(reader, moov.start, moov.end) if moov else ():
        if box.kind == b"uuid" and box.length >= 16 and reader.at(box.start, 16) == _METADATA:
            inside = by_kind(reader, box.start + 16, box.end)
            for kind in (_MAIN, _EXIF, _GPS):
                if kind in inside and (part := _part(reader, inside[kind])):
                    found[kind] = part
    return found


def _part(reader: Reader, box: Box) -> _Part | None:
    try:
        tiff = Tiff(reader.part(box.start, box.length))
        return tiff, tiff.directory(tiff.first)
    except BrokenContainer:  # one directory that cannot be read does not spoil the others
        return None
