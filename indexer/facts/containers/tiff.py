"""TIFF, and the raw files that share its structure.

Most raw files cannot be told from TIFF by their first bytes. One counts as raw when any of these holds:

* its magic number is a variant of TIFF's ("IIRO", "IIRS", "MMOR", "IIU\\0"), or "CR" or "IIII" stands at offset 8;
* its first directory has a DNGVersion (DNG specification, 0xC612);
* a directory that can be a picture has the photometric interpretation of a colour filter array or of linear raw data
  (TIFF/EP, ISO 12234-2, and DNG: 32803, 34892), or a compression that only raw files use;
* the first directory is a reduced picture (NewSubfileType 1) by a named maker with others below it (SubIFDs).

A raw file's size is the largest that a directory or its Exif values give; a TIFF picture is its first page.
"""

from collections.abc import Iterable

from indexer.facts.containers.exif_block import EXIF_POINTER, gather
from indexer.facts.containers.reader import Reader
from indexer.facts.containers.tiff_directory import MAX_DIRECTORIES, Directory, Tiff
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container

_NEW_SUBFILE_TYPE, _WIDTH, _HEIGHT, _COMPRESSION, _PHOTOMETRIC = 0x00FE, 0x0100, 0x0101, 0x0103, 0x0106
_MAKE, _SUB_IFDS, _DNG_VERSION = 0x010F, 0x014A, 0xC612
#: Blocks of other structure: XMP (XMP specification, part 3), IPTC and image resources (registered with TIFF 6.0).
_XMP, _IPTC, _RESOURCES = 0x02BC, 0x83BB, 0x8649
_EXIF_WIDTH, _EXIF_HEIGHT = 0xA002, 0xA003
#: Offsets and lengths of the picture data, by strips and by tiles.
_DATA = ((0x0111, 0x0117), (0x0144, 0x0145))

#: Some raw files give this in place of an offset that stands elsewhere (from memory).
_NOWHERE = 0xFFFFFFFF

_RAW_MAGIC = (b"IIRO", b"IIRS", b"MMOR", b"IIU\0")
_RAW_PHOTOMETRIC = frozenset((32803, 34892))
#: Registered or used by camera makers for sensor data alone (common practice, from memory).
_RAW_COMPRESSION = frozenset((262, 32767, 32769, 32770, 32772, 32867, 34713, 65000, 65535))

#: In "IIU\0" files: the sensor's borders (top, left, bottom, right) in place of a size (from memory).
_BORDERS = (4, 5, 6, 7)


def parse(reader: Reader) -> Container:
    """The header of a TIFF or TIFF-structured raw file. Raises `BrokenContainer` where no directory gives a size."""
    head = reader.at(0, min(16, reader.size))
    tiff = Tiff(reader)
    pages = list(tiff.chain(tiff.first))
    if not pages:
        raise BrokenContainer("the file ends before its directory (cut off)")
    first = pages[0]
    below = [sub for page in pages for sub in tiff.below(page, _SUB_IFDS)][:MAX_DIRECTORIES]
    pictures = [*pages, *below]
    raw = head.startswith(_RAW_MAGIC) or head[8:10] == b"CR" or head[8:12] == b"IIII"
    raw = raw or _looks_raw(tiff, first, pictures)
    width, height = _raw_size(tiff, first, pictures) if raw else _size(tiff, first)
    if not width or not height:
        raise BrokenContainer("its directory gives no size of the picture")
    return Container(
        "raw" if raw else "TIFF",
        width,
        height,
        exif=gather(tiff, first),
        xmp=_block(tiff, first, _XMP),
        iptc=_block(tiff, first, _IPTC),
        resources=_block(tiff, first, _RESOURCES),
        damage=CUT_OFF if _is_cut(tiff, reader.size, pictures if raw else [first]) else None,
    )


def _block(tiff: Tiff, directory: Directory, tag: int) -> bytes | None:
    """What a value holds that is of another structure; None where it is not there."""
    return tiff.content(directory.values[tag]) if tag in directory.values else None


def _looks_raw(tiff: Tiff, first: Directory, pictures: Iterable[Directory]) -> bool:
    if _DNG_VERSION in first.values:
        return True
    for directory in pictures:
        if tiff.number(directory, _PHOTOMETRIC) in _RAW_PHOTOMETRIC:
            return True
        if tiff.number(directory, _COMPRESSION) in _RAW_COMPRESSION:
            return True
    reduced = tiff.number(first, _NEW_SUBFILE_TYPE) == 1
    return reduced and _SUB_IFDS in first.values and _MAKE in first.values


def _size(tiff: Tiff, directory: Directory) -> tuple[int, int]:
    return tiff.number(directory, _WIDTH), tiff.number(directory, _HEIGHT)


def _raw_size(tiff: Tiff, first: Directory, pictures: Iterable[Directory]) -> tuple[int, int]:
    sizes = [_size(tiff, directory) for directory in pictures]
    sizes += [
        (tiff.number(exif, _EXIF_WIDTH), tiff.number(exif, _EXIF_HEIGHT)) for exif in tiff.below(first, EXIF_POINTER)
    ]
    if all(tag in first.values for tag in _BORDERS):
        top, left, bottom, right = (tiff.number(first, tag) for tag in _BORDERS)
        sizes.append((max(right - left, 0), max(bottom - top, 0)))
    return max(sizes, key=lambda size: size[0] * size[1])


def _is_cut(tiff: Tiff, size: int, pictures: Iterable[Directory]) -> bool:
    """Whether any strip or tile lies beyond the end of the file."""
    for directory in pictures:
        for offsets_tag, lengths_tag in _DATA:
            offsets = tiff.numbers(directory, offsets_tag)
            lengths = tiff.numbers(directory, lengths_tag)
            places = zip(offsets, lengths, strict=False)
            if any(offset + length > size for offset, length in places if offset != _NOWHERE):
                return True
    return False
