"""What costs money when it is wrong: found before anything is written. Pure."""

from collections.abc import Collection, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from queries.fitting.resolution import is_blurry, whole_dpi
from queries.orders.values import Order
from queries.prints.pieces import kept_share, resolution
from queries.prints.values import PicturePiece
from queries.weeks import Week

#: Of a photo that loses more than this something is missing (common practice); by a hair more is a rounding.
_CROPPED_ABOVE, _HAIR = 0.25, 1e-6

#: In the order in which they are told.
RiskKind = Literal["blurry", "cropped", "printed before", "planned too", "twice", "alike"]


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
    planned: Mapping[str, Order] = MappingProxyType({}),
    shows: Mapping[str, Collection[Hashable]] = MappingProxyType({}),
) -> tuple[Risk, ...]:
    """All of them. By photo key: `sizes` in pixels of the upright picture, `codes`, and `before`: the order and week
    that a photo was printed for already; by piece name `planned`: the other order that holds it and was not sent;
    `shows` has, by photo key, what marks the sets and scenes that a photo is of."""
    found = [*_blurry(pieces, sizes, codes), *_cropped(pieces, codes), *_before(pieces, codes, before)]
    return (*found, *_planned(pieces, codes, planned), *_twice(pieces, codes), *_alike(pieces, codes, shows))


def _blurry(
    pieces: Iterable[PicturePiece], sizes: Mapping[str, tuple[int, int]], codes: Mapping[str, str]
) -> Iterable[Risk]:
    for piece in pieces:
        dpi, key = min((resolution(part, sizes[part.key]), part.key) for part in piece.parts)
        if is_blurry(dpi + _HAIR):
            says = f"will look blurry: {whole_dpi(dpi)} dpi at this size"
            yield Risk("blurry", piece.week, piece.pocket, codes[key], says)


def _cropped(pieces: Iterable[PicturePiece], codes: Mapping[str, str]) -> Iterable[Risk]:
    for piece in pieces:
        for part in piece.parts:
            lost = 1 - kept_share(part)
            if lost > _CROPPED_ABOVE + _HAIR:
                yield Risk("cropped", piece.week, piece.pocket, codes[part.key], f"loses {lost:.0%} of the picture")


def _before(
    pieces: Iterable[PicturePiece], codes: Mapping[str, str], before: Mapping[str, tuple[Order, Week]]
) -> Iterable[Risk]:
    for piece in pieces:
        for key in dict.fromkeys(part.key for part in piece.parts):
            if key in before:
                order, week = before[key]
                says = f"was printed before, in {order.name} for {week.name}"
                yield Risk("printed before", piece.week, piece.pocket, codes[key], says)


def _planned(pieces: Iterable[PicturePiece], codes: Mapping[str, str], planned: Mapping[str, Order]) -> Iterable[Risk]:
    for piece in pieces:
        if order := planned.get(piece.name):
            says = f"is in {order.name} too, planned and not told as sent"
            yield Risk("planned too", piece.week, piece.pocket, codes[piece.parts[0].key], says)


def _twice(pieces: Iterable[PicturePiece], codes: Mapping[str, str]) -> Iterable[Risk]:
    first: dict[str, PicturePiece] = {}
    for piece in pieces:
        for part in piece.parts:
            other = first.setdefault(part.key, piece)
            if other is not piece:
                says = f"stands in this order twice: {other.week.name} {other.pocket} too"
                yield Risk("twice", piece.week, piece.pocket, codes[part.key], says)


def _alike(
    pieces: Iterable[PicturePiece], codes: Mapping[str, str], shows: Mapping[str, Collection[Hashable]]
) -> Iterable[Risk]:
    """A photo with the first one before it that shows the same, once."""
    first: dict[Hashable, tuple[PicturePiece, str]] = {}
    for piece in pieces:
        for part in piece.parts:
            marks = shows.get(part.key, ())
            other = next((first[mark] for mark in marks if mark in first and first[mark][1] != part.key), None)
            first |= {mark: (piece, part.key) for mark in marks if mark not in first}
            if other:
                says = f"shows what {codes[other[1]]} shows, in {other[0].week.name} {other[0].pocket}"
                yield Risk("alike", piece.week, piece.pocket, codes[part.key], says)
