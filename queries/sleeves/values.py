"""The values that cross the borders of this room: a sleeve and its pockets, in inches."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

#: Inches are kept to this many decimals, so that mirroring twice gives the very same numbers.
DECIMALS = 9


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in inches, from the top left corner of the page (or of the pocket, for a collage's cells)."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Sleeve:
    """The front face of a page protector: the one that shows on the right page of a spread.

    Pockets stand in reading order (`in_reading_order`) and are numbered from 1.
    """

    name: str
    width: float
    height: float
    pockets: tuple[Box, ...]
    made: Literal["by rule", "drawn"]

    def back(self) -> "Sleeve":
        """The face that shows on the left page: the mirror image, its pockets numbered anew in reading order."""
        mirrored = (Box(inches(self.width - box.x - box.width), box.y, box.width, box.height) for box in self.pockets)
        return Sleeve(self.name, self.width, self.height, in_reading_order(mirrored), self.made)


def in_reading_order(boxes: Iterable[Box]) -> tuple[Box, ...]:
    """By the top edge, then by the left one."""
    return tuple(sorted(boxes, key=lambda box: (box.y, box.x)))


def inches(length: float) -> float:
    """A length as it is kept, to DECIMALS."""
    return round(length, DECIMALS)
