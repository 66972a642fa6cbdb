"""What costs money when it is wrong: found before anything is written. Pure."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from queries.orders.values import Order
from queries.prints.pieces import kept_share, resolution
from queries.prints.values import PicturePiece
from queries.weeks import Week

#: Below this a print looks soft, and of a photo that loses more than this something is missing (both common practice).
SOFT_BELOW, CROPPED_ABOVE = 200, 0.25

#: In the order in which they are told.
RiskKind = Literal["soft", "cropped", "printed before", "twice"]


@dataclass(frozen=True, slots=True)
class Risk:
    """One thing to look at before it is paid for: the piece by week and pocket, its photo, and what it is, in words."""

    kind: RiskKind
    week: Week
    pocket: str
    code: str
    says: str


def risks_of(
    pieces: Sequence[PicturePiece],
    sizes: Mapping[str, tuple[int, int]],
    codes: Mapping[str, str],
    before: Mapping[str, tuple[Order, Week]],
) -> tuple[Risk, ...]:
    """All of them. By photo key: `sizes` in pixels of the upright picture, `codes`, and `before`: the order and week
    that a photo was printed for already."""
    found = [*_soft(pieces, sizes, codes), *_cropped(pieces, codes), *_before(pieces, codes, before)]
    return (*found, *_twice(pieces, codes))


def _soft(
    pieces: Iterable[PicturePiece], sizes: Mapping[str, tuple[int, int]], codes: Mapping[str, str]
) -> Iterable[Risk]:
    for piece in pieces:
        dpi, key = min((resolution(part, sizes[part.key]), part.key) for part in piece.parts)
        if dpi < SOFT_BELOW:
            yield Risk("soft", piece.week, piece.pocket, codes[key], f"will look soft: {int(dpi)} dpi at this size")


def _cropped(pieces: Iterable[PicturePiece], codes: Mapping[str, str]) -> Iterable[Risk]:
    for piece in pieces:
        kept, key = min((kept_share(part), part.key) for part in piece.parts)
        if 1 - kept > CROPPED_ABOVE:
            yield Risk("cropped", piece.week, piece.pocket, codes[key], f"loses {1 - kept:.0%} of the picture")


def _before(
    pieces: Iterable[PicturePiece], codes: Mapping[str, str], before: Mapping[str, tuple[Order, Week]]
) -> Iterable[Risk]:
    for piece in pieces:
        for key in dict.fromkeys(part.key for part in piece.parts):
            if key in before:
                order, week = before[key]
                says = f"was printed before, in {order.name} for {week.name}"
                yield Risk("printed before", piece.week, piece.pocket, codes[key], says)


def _twice(pieces: Iterable[PicturePiece], codes: Mapping[str, str]) -> Iterable[Risk]:
    first: dict[str, PicturePiece] = {}
    for piece in pieces:
        for part in piece.parts:
            other = first.setdefault(part.key, piece)
            if other is not piece:
                says = f"stands in this order twice: {other.week.name} {other.pocket} too"
                yield Risk("twice", piece.week, piece.pocket, codes[part.key], says)
