"""Bounded reading: no byte is asked for that the file has not got, and no block is larger than a header may be.

Every parser of this room takes its bytes from here, so that a size claimed by a crafted file is checked before it is
believed and the only error that bad bytes can raise is `BrokenContainer`.
"""

from typing import BinaryIO

from indexer.facts.containers.values import BrokenContainer

#: The most that is read as one piece of a header. An XMP packet with a depth map in it stays far below.
MAX_BLOCK = 16 << 20

#: Read at once when a file is opened: the header of nearly every JPEG, its thumbnail included.
HEAD = 64 << 10

_PAGE = 4 << 10


def read_at(file: BinaryIO, offset: int, length: int) -> bytes:
    """Up to `length` bytes from `offset` on; fewer only where the file ends."""
    file.seek(offset)
    data = file.read(length)
    while len(data) < length and (more := file.read(length - len(data))):
        data += more
    return data


class Reader:
    """A file, or a part of one, of `size` bytes. Offsets are counted from the beginning of that part."""

    __slots__ = ("_file", "_start", "_window", "_window_at", "size")

    def __init__(self, file: BinaryIO, size: int, start: int = 0) -> None:
        self._file = file
        self._start = start
        self.size = size
        self._window = read_at(file, start, min(HEAD, size))
        self._window_at = 0

    def holds(self, offset: int, length: int) -> bool:
        """Whether that stretch lies wholly inside."""
        return offset >= 0 and length >= 0 and offset + length <= self.size

    def at(self, offset: int, length: int) -> bytes:
        """Exactly `length` bytes. Raises `BrokenContainer` where they are not there, or more than a header may hold."""
        begin = offset - self._window_at
        if begin >= 0 and 0 <= length <= len(self._window) - begin:
            return self._window[begin : begin + length]
        if not self.holds(offset, length):
            raise BrokenContainer("the file ends inside its header")
        if length > MAX_BLOCK:
            raise BrokenContainer(f"a part of its header claims {length >> 20} MB, more than a header can hold")
        wanted = min(max(length, _PAGE), self.size - offset)
        self._window = read_at(self._file, self._start + offset, wanted)
        self._window_at = offset
        if len(self._window) < length:
            raise BrokenContainer("the file became shorter while it was read")
        return self._window[:length]

    def part(self, offset: int, length: int) -> "Reader":
        """A reader of that stretch alone, a file within the file. Raises `BrokenContainer` if it lies outside."""
        if not self.holds(offset, length):
            raise BrokenContainer("the file ends inside its header")
        return Reader(self._file, length, self._start + offset)


class Cursor:
    """Whole numbers, big endian, read one after the other from a block of bytes."""

    __slots__ = ("_data", "position")

    def __init__(self, data: bytes) -> None:
        self._data = data
        self.position = 0

    def take(self, length: int) -> bytes:
        """The next bytes. Raises `BrokenContainer` where the block is shorter than that."""
        end = self.position + length
        if end > len(self._data):
            raise BrokenContainer("a table in its header is cut short")
        piece = self._data[self.position : end]
        self.position = end
        return piece

    def uint(self, width: int) -> int:
        """The next `width` bytes as a number; 0 for no bytes."""
        return int.from_bytes(self.take(width))

    def rest(self) -> bytes:
        """All that has not been taken."""
        return self._data[self.position :]
