"""The raw file with a whole JPEG in it."""

import struct

import pytest

from indexer.facts.containers import BrokenContainer
from indexer.facts.containers.values import CUT_OFF
from tests.indexer.facts.containers.file_makers import EXIF, exif_segment, frame, jpeg, parsed

INSIDE = jpeg(exif_segment(), frame(4000, 3000))


def raf(inside: bytes = INSIDE, offset: int = 160, length: int | None = None) -> bytes:
    places = struct.pack(">II", offset, len(inside) if length is None else length)
    return (b"FUJIFILMCCD-RAW 0201".ljust(84, b"\0") + places).ljust(160, b"\0") + inside + bytes(500)


def test_size_and_metadata_are_those_of_the_jpeg_inside():
    """The photo is identified by the whole file, not by the JPEG."""
    container = parsed(raf())
    assert (container.format, container.width, container.height, container.exif) == ("raw", 4000, 3000, EXIF)
    assert (container.picture_spans, container.turn, container.damage) == ((), None, None)


def test_a_file_that_ends_in_the_jpeg_is_cut_off():
    """What the header promises beyond the end is missing."""
    assert parsed(raf()[:-520]).damage == CUT_OFF


@pytest.mark.parametrize("data", [raf(b"no picture"), raf(offset=1 << 31), raf(length=0), raf()[:86], raf()[:100]])
def test_a_file_without_a_jpeg_inside_cannot_be_used(data):
    """Without it there is nothing to index."""
    with pytest.raises(BrokenContainer):
        parsed(data)
