"""The boxes of ISO-BMFF."""

import io
import struct

import pytest

from indexer.facts.containers.boxes import MAX_BOXES, Box, boxes, by_kind, full_box
from indexer.facts.containers.reader import Reader
from indexer.facts.containers.values import BrokenContainer
from tests.indexer.facts.containers.file_makers import box, full


def reader_of(data: bytes) -> Reader:
    return Reader(io.BytesIO(data), len(data))


def found(data: bytes) -> list[Box]:
    return list(boxes(reader_of(data), 0, len(data)))


def test_boxes_follow_each_other_with_short_and_long_lengths():
    """A length of 1 means that 64 bits follow, 0 that the box goes on to the end (ISO/IEC 14496-12, 4.2)."""
    long = struct.pack(">I4sQ", 1, b"long", 16 + 5) + b"12345"
    data = box(b"free", b"abc") + long + struct.pack(">I4s", 0, b"last") + b"rest"
    assert found(data) == [Box(b"free", 8, 11), Box(b"long", 27, 32), Box(b"last", 40, 44)]


def test_a_box_that_claims_more_than_what_holds_it_is_cut_there():
    """A file that ends in its media still shows the boxes before and the one that is cut."""
    data = box(b"free") + struct.pack(">I4s", 1000, b"mdat") + b"some"
    assert found(data) == [Box(b"free", 8, 8), Box(b"mdat", 16, 20, is_cut=True)]


@pytest.mark.parametrize(
    "data", [struct.pack(">I4s", 7, b"zzzz"), struct.pack(">I4sQ", 1, b"zzzz", 15), struct.pack(">I4s", 1, b"zzzz")]
)
def test_a_length_that_cannot_be_ends_in_the_known_error(data):
    """A box shorter than its own header would never let the walk go on."""
    with pytest.raises(BrokenContainer):
        found(data)


def test_more_boxes_than_a_picture_can_have_are_refused():
    """The walk over the boxes is bounded."""
    with pytest.raises(BrokenContainer, match="more boxes"):
        found(box(b"free") * (MAX_BOXES + 1))


def test_of_boxes_of_one_kind_the_first_counts():
    """A second table of contents does not replace the first."""
    data = box(b"pitm", b"first") + box(b"iloc") + box(b"pitm", b"second")
    kinds = by_kind(reader_of(data), 0, len(data))
    assert kinds == {b"pitm": Box(b"pitm", 8, 13), b"iloc": Box(b"iloc", 21, 21)}


def test_a_full_box_gives_version_flags_and_the_rest():
    """Version is one byte, flags are three."""
    data = full(b"pitm", 2, 0x010203, b"rest")
    version, flags, rest = full_box(reader_of(data), found(data)[0])
    assert (version, flags, rest.rest()) == (2, 0x010203, b"rest")
