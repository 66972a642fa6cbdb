"""The values that cross this room's borders. Lengths are whole micrometres from a card's upper left corner. Pure."""

from dataclasses import dataclass
from typing import Literal, Protocol

#: `ink` for words, `soft` for what stands behind them, `accent` for the one colour of a card.
Tone = Literal["ink", "soft", "accent"]

UM_PER_POINT = 25_400 / 72  # the point of desktop publishing, 72 to the inch


class Measure(Protocol):
    """The width of a text in micrometres, in type of so many points, semibold or not."""

    def __call__(self, text: str, points: float, bold: bool) -> float: ...


@dataclass(frozen=True, slots=True)
class CardLine:
    """A line of text: where it starts on which baseline, and its type in points. Letters stand `spread` µm apart."""

    text: str
    x: int
    baseline: int
    points: float
    bold: bool = False
    tone: Tone = "ink"
    spread: int = 0


@dataclass(frozen=True, slots=True)
class CardRule:
    """A horizontal rule whose upper edge lies at y."""

    x: int
    y: int
    length: int
    thickness: int
    tone: Tone = "soft"


@dataclass(frozen=True, slots=True)
class Card:
    """All that is drawn on a card of this size. What lies within `margin` of an edge stays blank."""

    width: int
    height: int
    margin: int
    lines: tuple[CardLine, ...] = ()
    rules: tuple[CardRule, ...] = ()


@dataclass(frozen=True, slots=True)
class NamedCard:
    """A card and where it goes, in the person's words: "2026-W14 R2"."""

    name: str
    card: Card


@dataclass(frozen=True, slots=True)
class WeekWords:
    """What is said on a week's cards.

    `heading` is the week's days ("30 Mar – 5 Apr 2026"), `under` stands below it ("week 14"). Each paragraph is the
    heading of its day, or "", and a text as the person told it. `week` is the week's name as it is typed.
    """

    heading: str
    under: str
    paragraphs: tuple[tuple[str, str], ...] = ()
    week: str = "WEEK"
