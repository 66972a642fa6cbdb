"""The JPEG that a camera puts into its raw file beside the sensor data: what such a file can show without developing.

Looked for where TIFF-structured raw files have it: as a JPEG stream of a directory (TIFF 6.0, section 22), or as its
only strip (common practice); and where the header of a RAF points (see `containers.raf`). Others show nothing.
"""

import io
from collections.abc import Iterator
from dataclasses import replace
from typing import BinaryIO

from indexer.facts.containers.raf import inside
from indexer.facts.containers.reader import Reader, read_at
from indexer.facts.containers.sniff import SNIFFED, sniff
from indexer.facts.containers.tiff_directory import MAX_DIRECTORIES, Directory, Tiff
from indexer.facts.pictures import Decoded, PictureError, decode_scaled

_COMPRESSION, _STRIPS, _STRIP_LENGTHS, _SUB_IFDS = 0x0103, 0x0111, 0x0117, 0x014A
_JPEG_AT, _JPEG_LENGTH, _ORIENTATION = 0x0201, 0x0202, 0x0112
#: Old and new JPEG (TIFF 6.0; its technical note 2).
_JPEG_COMPRESSIONS = (6, 7)
#: Larger ones are sensor data in disguise, and more tries than this are a waste.
_MOST_BYTES, _TRIES = 64 << 20, 4

Span = tuple[int, int]


def decode_raw_preview(file: BinaryIO, size: int, longer: int) -> Decoded | None:
    """The largest preview that can be decoded, its longer side `longer` pixels or more where it has so many; None
    where there is none.

    Raises BrokenContainer where the header cannot be used.
    """
    reader = Reader(file, size)
    kind = sniff(reader.at(0, min(SNIFFED, size)))
    if kind == "raf":
        return _first([inside(reader)], file, longer)
    if kind != "tiff":
        return None
    tiff = Tiff(reader)
    pages = list(tiff.chain(tiff.first))
    below = [sub for page in pages for sub in tiff.below(page, _SUB_IFDS)][:MAX_DIRECTORIES]
    spans = {span for directory in (*pages, *below) for span in _jpegs(tiff, directory) if reader.holds(*span)}
    found = _first(sorted(spans, key=lambda span: span[1], reverse=True), file, longer)
    if found is None:
        return None
    # The stream is seldom tagged itself: it lies as the sensor does, and the first directory says how.
    return replace(found, orientation=tiff.number(pages[0], _ORIENTATION) or found.orientation)


def _jpegs(tiff: Tiff, directory: Directory) -> Iterator[Span]:
    """Where a directory may have a JPEG: sensor data without loss look like one from outside."""
    yield tiff.number(directory, _JPEG_AT), tiff.number(directory, _JPEG_LENGTH)
    strips, lengths = tiff.numbers(directory, _STRIPS), tiff.numbers(directory, _STRIP_LENGTHS)
    if len(strips) == len(lengths) == 1 and tiff.number(directory, _COMPRESSION) in _JPEG_COMPRESSIONS:
        yield strips[0], lengths[0]


def _first(spans: list[Span], file: BinaryIO, longer: int) -> Decoded | None:
    for offset, length in [span for span in spans if 0 < span[1] <= _MOST_BYTES][:_TRIES]:
        data = read_at(file, offset, length)
        if not data.startswith(b"\xff\xd8\xff"):
            continue
        try:
            return decode_scaled(io.BytesIO(data), longer)
        except PictureError:  # sensor data, or a preview that is damaged: a smaller one may be whole
            continue
    return None
