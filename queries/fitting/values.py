"""The values of a spread plan: what may be placed and where, what the person fixed, and what was planned. Pure.

Sizes are inches. A pocket of a spread is named by its page and number, "L1" or "R3"; a cell of a collage by pocket and
number in reading order, "L1.2". Values say what holds; the rules are in the modules beside this one.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from queries.sleeves.values import Box, Sleeve

Side = Literal["left", "right"]
Edge = Literal["top", "bottom", "left", "right"]
Holding = Literal["photo", "collage", "card", "empty"]

_PAGES: tuple[tuple[Side, str], ...] = (("left", "L"), ("right", "R"))


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo that may be placed; `width` and `height` are pixels of the upright picture.

    `rank` 0 is the best of the shortlist, `order` 0 the first in the order lived; both may have gaps. `zoom` is told by
    the person: 1.2 shows 1/1.2 of both sides.
    """

    key: str
    code: str
    width: int
    height: int
    rank: int
    order: int
    zoom: float = 1.0

    @property
    def aspect(self) -> float:
        return self.width / self.height


@dataclass(frozen=True, slots=True)
class Opening:
    """A pocket of this spread; `box` lies on its page."""

    name: str
    side: Side
    box: Box


@dataclass(frozen=True, slots=True)
class Collage:
    """A way to fill an opening with several photos. `cells` lie within the pocket, gaps and borders already taken off.

    `name` says what it looks like ("2 side by side"); `corner` is the radius of the cells' corners, `background` a
    colour as CSS writes it; `strip` is left free for decoration.
    """

    name: str
    cells: tuple[Box, ...]
    gap: float
    border: float
    corner: float
    background: str
    strip: Box | None


@dataclass(frozen=True, slots=True)
class Style:
    """How collages are drawn. `strip` is the width of paper left free along one edge, 0 for none."""

    gap: float = 0.125
    border: float = 0.125
    corner: float = 0.0
    background: str = "white"
    strip: float = 0.0
    strip_edge: Edge = "bottom"


@dataclass(frozen=True, slots=True)
class Asked:
    """What the person fixed.

    `pins`: opening (or cell of a collage) -> photo key; a photo pinned to an opening fills it alone, unless `collages`
    asks for several photos there. `cards`, `empty`: openings that hold a card, or nothing. `collages`: opening ->
    number of photos (1: no collage). `card_count`, `photo_count`: how many cards and photos, None: as it comes. `mat`:
    paper shown on all sides of each single photo. `style`: of the collages.
    """

    pins: Mapping[str, str] = field(default_factory=dict)
    cards: frozenset[str] = frozenset()
    collages: Mapping[str, int] = field(default_factory=dict)
    empty: frozenset[str] = frozenset()
    card_count: int | None = None
    photo_count: int | None = None
    mat: float = 0.0
    style: Style = Style()


@dataclass(frozen=True, slots=True)
class Placed:
    """One photo in one cell. `cell` lies on the page; `kept` is the share of the picture's area shown, 0..1."""

    key: str
    cell: Box
    kept: float
    dpi: float


@dataclass(frozen=True, slots=True)
class Filled:
    """What an opening holds, and why in a few words. The photos of a collage are in the order of its cells."""

    opening: Opening
    holds: Holding
    photos: tuple[Placed, ...]
    collage: Collage | None
    why: str


@dataclass(frozen=True, slots=True)
class Plan:
    """A spread planned, in the order of the openings.

    `gap` is how much better, at most, another plan could be, as a share of `value`; `optimal` says that it is at most
    1e-6. `balance` is the published measure over both pages, 0..1. `words` are notes for the person.
    """

    filled: tuple[Filled, ...]
    optimal: bool
    gap: float
    balance: float
    value: float
    words: tuple[str, ...]


def openings_of(left: Sleeve | None, right: Sleeve | None) -> tuple[Opening, ...]:
    """The pockets of a spread, left page first. Both are the faces as they are seen: the left page is mostly the back
    of its sleeve, `sleeve.back()`. None where the page has no sleeve."""
    return tuple(
        Opening(f"{letter}{number}", side, box)
        for (side, letter), face in zip(_PAGES, (left, right), strict=True)
        for number, box in enumerate(face.pockets if face else (), 1)
    )
