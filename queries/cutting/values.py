"""The values that cross the borders of cutting: pieces and paper in, prints with their cuts out. Pure.

Lengths are whole micrometres, so inches (25 400) and millimetres (1 000) both stay exact.
"""

from dataclasses import dataclass
from typing import Literal

#: What is done with pieces that only together reach where the lab may trim: shrunk by a hair, or put on prints apart.
Tight = Literal["shrink", "apart"]

#: "down": from top to bottom; "across": from left to right.
Way = Literal["down", "across"]


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle in µm from the left upper corner."""

    x: int
    y: int
    width: int
    height: int

    @property
    def right(self) -> int:
        return self.x + self.width

    @property
    def bottom(self) -> int:
        return self.y + self.height


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece, upright as it goes into its pocket; its name is unique in the order, such as "2026-W14 L4"."""

    name: str
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Trim:
    """How much the lab may take at each edge of the print as its file is seen."""

    left: int = 0
    top: int = 0
    right: int = 0
    bottom: int = 0


@dataclass(frozen=True, slots=True)
class Paper:
    """The paper that the lab prints on."""

    width: int
    height: int
    trim: Trim = Trim()


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece on the paper: its box (sides swapped when turned, by 90 degrees clockwise), and how much of it the lab
    may take, by the paper's edges."""

    piece: str
    box: Rect
    turned: bool
    at_risk: Trim


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut, edge to edge through `part`, the paper in hand: "down" at x = `at`, "across" at y = `at`."""

    number: int
    way: Way
    at: int
    part: Rect


@dataclass(frozen=True, slots=True)
class Print:
    """One print: what lies on it and how it is cut. A scale below 1: its pieces were shrunk by so much."""

    laid: tuple[Laid, ...]
    cuts: tuple[Cut, ...]
    scale_x: float = 1.0
    scale_y: float = 1.0


@dataclass(frozen=True, slots=True)
class Layout:
    """All prints of an order; fewer than `lower_bound` cannot do."""

    prints: tuple[Print, ...]
    lower_bound: int

    @property
    def proven(self) -> bool:
        return self.lower_bound == len(self.prints)
