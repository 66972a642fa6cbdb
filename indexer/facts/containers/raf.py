"""The raw file that begins with "FUJIFILMCCD-RAW": its header points to a whole JPEG, which carries the metadata.

Offset and length of the JPEG stand at 84 and 88, big endian (from memory).
"""

from dataclasses import replace

from indexer.facts.containers import jpeg
from indexer.facts.containers.reader import Cursor, Reader
from indexer.facts.containers.values import CUT_OFF, BrokenContainer, Container


def parse(reader: Reader) -> Container:
    """The picture as the JPEG inside has it. Raises `BrokenContainer` where there is none."""
    places = Cursor(reader.at(84, 8))
    offset, length = places.uint(4), places.uint(4)
    inside = reader.part(offset, min(length, max(reader.size - offset, 0)))
    if not inside.holds(0, 2) or inside.at(0, 2) != b"\xff\xd8":
        raise BrokenContainer("it holds no picture where its header says")
    damage = CUT_OFF if inside.size < length else None
    return replace(jpeg.parse(inside), format="raw", picture_spans=(), damage=damage)
