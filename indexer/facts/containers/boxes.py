"""The boxes of ISO-BMFF (ISO/IEC 14496-12, section 4.2): lengths and kinds, nested in each other."""

from collections.abc import Iterator
from dataclasses import dataclass

from indexer.facts.containers.reader import Cursor, Reader
from indexer.facts.containers.values import BrokenContainer

#: In one box or at the top of a file. A grid of tiles has a few hundred.
MAX_BOXES = 20_000


@dataclass(frozen=True, slots=True)
class Box:
    """One box: its four-letter kind and the stretch of its content, which is cut where what holds it ends."""

    kind: bytes
    start: int
    end: int
    is_cut: bool = False

    @property
    def length(self) -> int:
        return self.end - self.start


def boxes(reader: Reader, start: int, end: int) -> Iterator[Box]:
    """The boxes between the two offsets. Raises `BrokenContainer` where a length cannot be, or they are too many."""
    position = start
    for _ in range(MAX_BOXES):
        if position + 8 > end:
            return
        head = reader.at(position, 8)
        length, kind, content = int.from_bytes(head[:4]), head[4:], position + 8
        if length == 1:
            length, content = int.from_bytes(reader.at(content, 8)), content + 8
        elif length == 0:
            length = end - position  # to the end of what holds it
        if length < content - position:
            raise BrokenContainer("a box of it claims less than its own header")
        claimed_end = position + length
        yield Box(kind, content, max(content, min(claimed_end, end)), is_cut=claimed_end > end)
        position += length
    raise BrokenContainer("it has more boxes than a picture can have")


def by_kind(reader: Reader, start: int, end: int) -> dict[bytes, Box]:
    """The first box of each kind between the two offsets."""
    found: dict[bytes, Box] = {}
    for box in boxes(reader, start, end):
        found.setdefault(box.kind, box)
    return found


def full_box(reader: Reader, box: Box) -> tuple[int, int, Cursor]:
    """Version, flags and the rest of a box that carries them."""
    content = Cursor(reader.at(box.start, box.length))
    return content.uint(1), content.uint(3), content
