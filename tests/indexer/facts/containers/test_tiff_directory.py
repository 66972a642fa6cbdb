"""TIFF directories."""

import io
import struct

import pytest

from indexer.facts.containers.reader import Reader
from indexer.facts.containers.tiff_directory import MAX_DIRECTORIES, Tiff, Value
from indexer.facts.containers.values import BrokenContainer
from tests.indexer.facts.containers.file_makers import tiff


def tiff_of(data: bytes) -> Tiff:
    return Tiff(Reader(io.BytesIO(data), len(data)))


@pytest.mark.parametrize("byte_order", ["<", ">"])
def test_values_are_read_in_both_byte_orders(byte_order):
    """Short and long numbers and text, in the entry or elsewhere (TIFF 6.0, section 2)."""
    data = tiff({256: (3, 40), 257: (4, 70_000), 258: (3, (8, 8, 8)), 271: (2, b"Harbour\0")}, byte_order=byte_order)
    file = tiff_of(data)
    (directory,) = file.chain(file.first)
    assert [file.number(directory, tag) for tag in (256, 257, 258, 999)] == [40, 70_000, 8, 0]
    assert file.numbers(directory, 258) == (8, 8, 8)
    assert file.numbers(directory, 271) == ()
    assert file.content(directory.values[271]) == b"Harbour\0"


def test_values_of_unknown_type_and_values_beyond_the_file_are_passed_over():
    """A newer type, or a list that is cut off, leaves the rest readable."""
    entries = struct.pack("<HHIIHHIIHHII", 256, 99, 1, 5, 257, 3, 1, 30, 258, 3, 9, 5000)
    file = tiff_of(b"II*\0" + struct.pack("<IH", 8, 3) + entries + bytes(4))
    (directory,) = file.chain(file.first)
    assert [file.number(directory, tag) for tag in (256, 257, 258)] == [0, 30, 0]
    assert file.numbers(directory, 258) == ()


def test_directories_follow_each_other_and_hang_below():
    """The chain holds pages; pointers lead to directories outside it."""
    data = tiff({256: (3, 1), 330: (4, "dir 2")}, {256: (3, 2)}, {256: (3, 3)})
    file = tiff_of(data)
    pages = list(file.chain(file.first))
    assert [file.number(page, 256) for page in pages] == [1, 2]
    assert [file.number(sub, 256) for sub in file.below(pages[0], 330)] == [3]


def test_a_chain_that_runs_in_a_circle_ends():
    """A directory that names itself, or one before it, is visited once."""
    entry = struct.pack("<HHHII", 1, 256, 3, 1, 5)
    data = b"II*\0" + struct.pack("<I", 8) + entry + struct.pack("<I", 26) + entry + struct.pack("<I", 8)
    file = tiff_of(data)
    assert len(list(file.chain(file.first))) == 2


def test_a_long_chain_is_followed_only_so_far():
    """A file of a thousand pages costs no more than one of thirty."""
    file = tiff_of(tiff(*[{256: (3, 1)}] * (MAX_DIRECTORIES + 10)))
    assert len(list(file.chain(file.first))) == MAX_DIRECTORIES


def test_a_first_directory_that_cannot_be_read_is_an_error_and_a_later_one_ends_the_chain():
    """The picture is the first page; a broken later one does not spoil it."""
    cut = tiff({256: (3, 1)}, {256: (3, 2), 257: (3, 2)})[:-20]
    file = tiff_of(cut)
    assert len(list(file.chain(file.first))) == 1
    broken = tiff_of(tiff({256: (3, 1)})[:-8])
    with pytest.raises(BrokenContainer, match="ends inside"):
        list(broken.chain(broken.first))


def test_pointers_that_lead_nowhere_are_left_out():
    """Metadata that cannot be read do not spoil the picture."""
    file = tiff_of(tiff({256: (3, 1), 330: (4, (0, 5_000_000, 3)), 34665: (2, b"text and no place\0")}))
    (directory,) = file.chain(file.first)
    assert file.below(directory, 330) == []
    assert file.below(directory, 34665) == []


@pytest.mark.parametrize(
    "value", [Value(4, 1 << 30, 8), Value(2, 100, 1 << 31), Value(12, 0xFFFFFFFF, 0xFFFFFFFF), Value(7, 17 << 20, 0)]
)
def test_a_value_beyond_the_file_is_none(value):
    """Lengths that are claimed are never allocated."""
    assert tiff_of(tiff({256: (3, 1)})).content(value) is None


def test_a_directory_of_too_many_values_is_refused():
    """The table of a directory is bounded."""
    with pytest.raises(BrokenContainer, match="more values"):
        tiff_of(b"II*\0" + struct.pack("<IH", 8, 0xFFFF) + bytes(0xFFFF * 12 + 4)).directory(8)


@pytest.mark.parametrize("data", [b"zz*\0\0\0\0\x08", b"II*\0"])
def test_a_file_without_byte_order_or_header_is_refused(data):
    """What does not begin as TIFF is not read as TIFF."""
    with pytest.raises(BrokenContainer):
        tiff_of(data)
