"""The week sheet's values: what is to stand on it, and the places on its pages.

All lengths are pixels at 150 to the inch. A page of 8.27 x 11 inches prints whole on both A4 and Letter paper.
"""

from dataclasses import dataclass
from datetime import date

DPI = 150
PAGE_WIDTH, PAGE_HEIGHT = 1240, 1650
MARGIN = 96
COLUMNS = 4
GUTTER = 28
TILE = (PAGE_WIDTH - 2 * MARGIN - (COLUMNS - 1) * GUTTER) // COLUMNS  # the longer side of a picture
CAPTION = 66  # the room below a picture, for its two lines
FOOT = PAGE_HEIGHT - 72  # the baseline of the last line

PRINT = 96  # the longer side of a picture that is shown small, its white border included
BORDER = 4  # of the white border


@dataclass(frozen=True, slots=True)
class Small:
    """A picture that is left out: its code, its displayed size, where to read it, at most two short lines on it."""

    code: str
    width: int
    height: int
    path: str | None
    note: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Entry:
    """One picture to show: its code, what is said of its time, its marks, its displayed size and where to read it.

    `path` is None when there is nothing to read it from. `behind` are the pictures that this one stands for.
    """

    code: str
    day: date | None
    time: str
    is_doubtful: bool
    is_damaged: bool
    width: int
    height: int
    path: str | None
    behind: tuple[Small, ...] = ()


@dataclass(frozen=True, slots=True)
class Aside:
    """A picture that is left out and stands behind none of the sheet: it is shown small at the end of its day."""

    day: date | None
    small: Small


@dataclass(frozen=True, slots=True)
class Heading:
    """A day, and the baseline it stands on."""

    text: str
    count: str
    baseline: int


@dataclass(frozen=True, slots=True)
class Tile:
    """A picture's place: its left upper corner and its size."""

    entry: Entry
    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Print:
    """The place of a small picture, border included, and of its code: the left end of a baseline.

    Prints of one row lie over each other like a fanned stack, the first on top.
    """

    small: Small
    x: int
    y: int
    width: int
    height: int
    code_x: int
    code_y: int


@dataclass(frozen=True, slots=True)
class Page:
    """What stands on one page."""

    headings: tuple[Heading, ...]
    tiles: tuple[Tile, ...]
    prints: tuple[Print, ...] = ()
