"""The raw file of the brand "crx ": ISO-BMFF boxes around Exif directories, in a `uuid` box of the `moov` box.

CMT1 holds the main directory, CMT2 the Exif one, CMT4 the GPS one, each as a TIFF structure of its own (from memory).
"""

from indexer.facts.containers.boxes import Box, boxes, by_kind
from indexer.facts.containers.exif_block import build, entries
from indexer.facts.containers.reader import Reader
from indexer.facts.containers.tiff_directory import NO_DIRECTORY, Directory, Tiff
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container

_METADATA = bytes.fromhex("85c0b687820f11e08111f4ce462b6a48")
_SIZES = ((b"CMT1", 0x0100, 0x0101), (b"CMT2", 0xA002, 0xA003))


def parse(reader: Reader) -> Container:
    """The header of such a file. Raises `BrokenContainer` where the directories are not there or give no size."""
    parts = _directories(reader)
    if b"CMT1" not in parts:
        raise BrokenContainer("it has no metadata where its format puts them")
    tiff, _ = parts[b"CMT1"]
    sizes = [
        (parts[kind][0].number(parts[kind][1], across), parts[kind][0].number(parts[kind][1], down))
        for kind, across, down in _SIZES
        if kind in parts
    ]
    width, height = max(sizes, key=lambda size: size[0] * size[1])
    if not width or not height:
        raise BrokenContainer("its metadata give no size of the picture")
    found = [
        entries(*parts[kind]) if kind in parts and parts[kind][0].byte_order == tiff.byte_order else []
        for kind in (b"CMT1", b"CMT2", b"CMT4")
    ]
    return Container("raw", width, height, exif=build(tiff.byte_order, *found), damage=_damage(reader))


def _directories(reader: Reader) -> dict[bytes, tuple[Tiff, Directory]]:
    moov = by_kind(reader, 0, reader.size).get(b"moov")
    if moov is None:
        return {}
    found: dict[bytes, tuple[Tiff, Directory]] = {}
    for box in boxes(reader, moov.start, moov.end):
        if box.kind == b"uuid" and box.length >= 16 and reader.at(box.start, 16) == _METADATA:
            for kind, part in by_kind(reader, box.start + 16, box.end).items():
                if kind.startswith(b"CMT"):
                    found[kind] = _directory(reader, part)
    return found


def _directory(reader: Reader, box: Box) -> tuple[Tiff, Directory]:
    tiff = Tiff(reader.part(box.start, box.length))
    return tiff, next(tiff.chain(tiff.first), NO_DIRECTORY)


def _damage(reader: Reader) -> str | None:
    """The sensor data lie in the last boxes: a file that is cut has none, or one that it does not hold whole."""
    has_data = any(box.kind == b"mdat" for box in boxes(reader, 0, reader.size))
    return None if has_data else CUT_OFF
