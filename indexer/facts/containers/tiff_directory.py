"""The structure of TIFF (TIFF 6.0, section 2): directories of tagged values, in either byte order.

Exif blocks, TIFF pictures and most raw files share it.
"""

import struct
from collections.abc import Iterator
from dataclasses import dataclass

from indexer.facts.containers.reader import MAX_BLOCK, Reader
from indexer.facts.containers.values import BrokenContainer

#: Directories that are followed in one file: those of pages, previews, raw pictures and metadata together.
MAX_DIRECTORIES = 32

#: Values in one directory; a raw file's largest has fewer than 200.
MAX_VALUES = 1024

#: Bytes of a list of numbers: the places of a quarter of a million strips.
MAX_NUMBERS = 1 << 20

#: Bytes of one value by its type (TIFF 6.0 types 1..12, and 13, IFD, of its first supplement).
TYPE_SIZES = {1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4}

_NUMBERS = {1: "B", 3: "H", 4: "I", 13: "I"}


@dataclass(frozen=True, slots=True, order=True)
class Value:
    """One value as it lies in the file: its type, how many, and where."""

    type: int
    count: int
    offset: int

    @property
    def length(self) -> int:
        return TYPE_SIZES[self.type] * self.count


@dataclass(frozen=True, slots=True)
class Directory:
    """The values of one directory by tag, and the offset of the next one (0 if none)."""

    values: dict[int, Value]
    next: int = 0


NO_DIRECTORY = Directory({})


class Tiff:
    """A file of TIFF structure. Raises `BrokenContainer` where it does not begin with a byte order."""

    __slots__ = ("_reader", "byte_order", "first")

    def __init__(self, reader: Reader) -> None:
        head = reader.at(0, 8)
        if head[:2] not in (b"II", b"MM"):
            raise BrokenContainer("its directory gives no byte order")
        self._reader = reader
        self.byte_order = "<" if head[:2] == b"II" else ">"
        self.first: int = struct.unpack(self.byte_order + "I", head[4:])[0]

    def directory(self, offset: int) -> Directory:
        """The directory there. Raises `BrokenContainer` where the file ends before it does, or it is too long."""
        count: int = struct.unpack(self.byte_order + "H", self._reader.at(offset, 2))[0]
        if count > MAX_VALUES:
            raise BrokenContainer("a directory of it claims more values than a picture can have")
        table = self._reader.at(offset + 2, count * 12)
        values: dict[int, Value] = {}
        for place, (tag, kind, number, value) in enumerate(struct.iter_unpack(self.byte_order + "HHII", table)):
            if kind not in TYPE_SIZES:
                continue
            # Up to four bytes lie in the entry itself.
            here = offset + 2 + place * 12 + 8
            values.setdefault(tag, Value(kind, number, here if TYPE_SIZES[kind] * number <= 4 else value))
        after = offset + 2 + count * 12
        follows = struct.unpack(self.byte_order + "I", self._reader.at(after, 4))[0] if self._holds(after) else 0
        return Directory(values, follows)

    def _holds(self, offset: int) -> bool:
        return self._reader.holds(offset, 4)

    def chain(self, offset: int) -> Iterator[Directory]:
        """The directory there and those that follow it, each once. Raises `BrokenContainer` if the first is broken."""
        seen: set[int] = set()
        while offset and offset not in seen and len(seen) < MAX_DIRECTORIES and self._holds(offset):
            try:
                directory = self.directory(offset)
            except BrokenContainer:
                if not seen:
                    raise
                return
            seen.add(offset)
            yield directory
            offset = directory.next

    def below(self, directory: Directory, tag: int) -> list[Directory]:
        """The directories that a value of this one points to; those that cannot be read are left out."""
        found = []
        for offset in self.numbers(directory, tag)[:MAX_DIRECTORIES]:
            if offset and self._holds(offset):
                try:
                    found.append(self.directory(offset))
                except BrokenContainer:  # metadata that cannot be read do not spoil the picture
                    continue
        return found

    def content(self, value: Value) -> bytes | None:
        """The bytes of a value, or None where they are not in the file or more than a header may hold."""
        if value.length > MAX_BLOCK or not self._reader.holds(value.offset, value.length):
            return None
        return self._reader.at(value.offset, value.length)

    def numbers(self, directory: Directory, tag: int) -> tuple[int, ...]:
        """The whole numbers of a value; empty where there is none of that tag, or none that can be read."""
        value = directory.values.get(tag)
        if value is None or value.type not in _NUMBERS:
            return ()
        content = self.content(value) if value.length <= MAX_NUMBERS else None
        if content is None:
            return ()
        return struct.unpack(f"{self.byte_order}{value.count}{_NUMBERS[value.type]}", content)

    def number(self, directory: Directory, tag: int) -> int:
        """The first whole number of a value, 0 where there is none."""
        value = directory.values.get(tag)
        if value is None:
            return 0
        single = Directory({tag: Value(value.type, min(value.count, 1), value.offset)})
        return next(iter(self.numbers(single, tag)), 0)
