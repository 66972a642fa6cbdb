"""Bounded reading."""

import io

import pytest

from indexer.facts.containers.reader import HEAD, MAX_BLOCK, Cursor, Reader
from indexer.facts.containers.values import BrokenContainer

DATA = bytes(i * 7 % 251 for i in range(200_000))


class Counting(io.BytesIO):
    """A file that remembers how many bytes were asked of it at a time."""

    def __init__(self, data: bytes) -> None:
        super().__init__(data)
        self.asked: list[int] = []

    def read(self, size: int | None = -1) -> bytes:
        self.asked.append(size or 0)
        return super().read(size)


@pytest.mark.parametrize(
    ("offset", "length"), [(0, 0), (0, 10), (HEAD - 5, 10), (HEAD, 1), (150_000, 50_000), (200_000, 0), (7, 199_993)]
)
def test_a_stretch_inside_the_file_is_given_as_it_stands(offset, length):
    """Reading in the first window, across its end and beyond it gives the file's bytes."""
    reader = Reader(io.BytesIO(DATA), len(DATA))
    assert reader.at(offset, length) == DATA[offset : offset + length]
    assert reader.at(3, 4) == DATA[3:7]


@pytest.mark.parametrize(
    ("offset", "length"), [(-1, 2), (0, -1), (199_999, 2), (200_001, 0), (1 << 70, 4), (0, 1 << 70)]
)
def test_a_stretch_outside_the_file_is_refused_before_it_is_read(offset, length):
    """No length that a file claims is believed beyond its end."""
    file = Counting(DATA)
    reader = Reader(file, len(DATA))
    with pytest.raises(BrokenContainer, match="ends inside its header"):
        reader.at(offset, length)
    assert max(file.asked) == HEAD


def test_a_block_larger_than_a_header_may_hold_is_refused_before_it_is_read():
    """A claim within the size of a large file is not allocated either."""
    file = Counting(DATA)
    reader = Reader(file, 1 << 40)
    with pytest.raises(BrokenContainer, match="more than a header can hold"):
        reader.at(10, MAX_BLOCK + 1)
    assert max(file.asked) == HEAD


def test_a_file_that_shrank_since_its_size_was_taken_is_a_broken_one():
    """A file that is still being written or was cut meanwhile ends in the known error."""
    with pytest.raises(BrokenContainer, match="became shorter"):
        Reader(io.BytesIO(DATA), len(DATA) + 100).at(len(DATA) - 10, 50)


def test_a_part_counts_from_its_own_beginning_and_ends_at_its_own_end():
    """A file within a file is read as one of its own."""
    part = Reader(io.BytesIO(DATA), len(DATA)).part(100_000, 1_000)
    assert part.size == 1_000
    assert part.at(5, 6) == DATA[100_005:100_011]
    with pytest.raises(BrokenContainer):
        part.at(998, 3)
    with pytest.raises(BrokenContainer):
        part.part(990, 11)


def test_a_file_that_gives_less_than_asked_is_asked_again():
    """An unbuffered file may hand over a part at a time."""

    class Drop(io.BytesIO):
        def read(self, size: int | None = -1) -> bytes:
            return super().read(min(size or 0, 7))

    assert Reader(Drop(DATA), len(DATA)).at(0, 100) == DATA[:100]


def test_a_cursor_takes_numbers_in_turn_and_stops_at_the_end():
    """Numbers are big endian, of any width, none included."""
    cursor = Cursor(b"\1\2\3\4rest")
    assert (cursor.uint(1), cursor.uint(0), cursor.uint(3), cursor.rest()) == (1, 0, 0x020304, b"rest")
    with pytest.raises(BrokenContainer, match="cut short"):
        cursor.uint(5)
