"""The values that cross the borders of printing: pieces, and a print as it is handed to the worker that draws it. Pure.

Lengths are whole micrometres, on a print pixels.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from queries.cards.values import Card
from queries.cropping.values import Window
from queries.cutting.values import Rect
from queries.weeks import Week

#: Left, top, right and bottom in pixels of the print; the last two lie outside.
PixelBox = tuple[int, int, int, int]

#: 48 bits of SHA-256: among a million pieces, two would have the same with a chance of one in 500.
_MARK_LETTERS = 12
#: A card with more rules than stand about a heading has lines to write on.
_MOST_RULES = 2
#: Windows are told apart by this share of a picture's side.
_FINEST_SHARE = 1e-4


@dataclass(frozen=True, slots=True)
class PhotoPart:
    """A photo on a piece: the part of the upright picture that is shown, its cell within the piece, and the radius of
    the cell's corners."""

    key: str
    window: Window
    cell: Rect
    corner: int


@dataclass(frozen=True, slots=True)
class PicturePiece:
    """A photo, or a collage on its background (a colour as CSS writes it), upright as it goes into its pocket."""

    name: str
    week: Week
    pocket: str
    width: int
    height: int
    parts: tuple[PhotoPart, ...]
    background: str
    holds: Literal["photo", "collage"]

    @property
    def mark(self) -> str:
        """Stands for all that is printed on the piece: another mark, another print."""
        parts = [[part.key, *_rounded(part.window), *_sides(part.cell), part.corner] for part in self.parts]
        background = self.background if self.holds == "collage" else ""
        return _digest([self.width, self.height, background, *parts])


@dataclass(frozen=True, slots=True)
class CardPiece:
    """A journaling card."""

    name: str
    week: Week
    pocket: str
    width: int
    height: int
    card: Card

    @property
    def mark(self) -> str:
        """Stands for what the card says and whether it has lines to write on; not for where the letters stand, which
        another version of the font may move."""
        words = " ".join(line.text for line in self.card.lines).split()
        return _digest([self.width, self.height, words, len(self.card.rules) > _MOST_RULES])


PrintPiece = PicturePiece | CardPiece


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """A piece on its print. `turned`: by 90 degrees clockwise, so that the sides of the box are swapped."""

    box: PixelBox
    turned: bool
    piece: PrintPiece


@dataclass(frozen=True, slots=True)
class PrintJob:
    """All that is needed to draw a print. `marks` are lines from pixel to pixel, both included; `sources` are the paths
    of the photos by key."""

    name: str
    width: int
    height: int
    dpi: int
    placed: tuple[PlacedPiece, ...]
    marks: tuple[PixelBox, ...]
    sources: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class DrawnPrint:
    """A print as a JPEG, and what was guessed about its photos, in words that name the files."""

    jpeg: bytes
    notes: tuple[str, ...]


def _rounded(window: Window) -> list[int]:
    return [round(edge / _FINEST_SHARE) for edge in (window.left, window.top, window.right, window.bottom)]


def _sides(cell: Rect) -> list[int]:
    return [cell.x, cell.y, cell.width, cell.height]


def _digest(printed: list[object]) -> str:
    return hashlib.sha256(json.dumps(printed).encode("ascii")).hexdigest()[:_MARK_LETTERS]
