"""The raw file that begins with "FUJIFILMCCD-RAW": its header points to a whole JPEG, which carries the metadata.

Offset and length of the JPEG stand at 84 and 88, big endian (from memory).
"""

from dataclasses import replace

from indexer.facts.containers import jpeg
from indexer.facts.containers.reader import Cursor, Reader
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container


def parse(reader: Reader) -> Container:
    """The picture as the JPEG inside has it. Raises `BrokenContainer` where there is none."""
    offset, length = inside(reader)
    whole = reader.part(offset, min(length, max(reader.size - offset, 0)))
    if not whole.holds(0, 2) or whole.at(0, 2) != b"\xff\xd8":
        raise BrokenContainer("it holds no picture where its header says")
    damage = CUT_OFF if whole.size < length else None
    return replace(jpeg.parse(whole), format="raw", picture_spans=(), damage=damage)


def inside(reader: Reader) -> tuple[int, int]:
    """Offset and length of the JPEG, as the header has them."""
    places = Cursor(reader.at(84, 8))
    return places.uint(4), places.uint(4)
