"""What of a week is printed already, and which photos were printed before. Pure.

A piece is printed when a print of an order that went to the lab holds one of its week with its mark; in which pocket
does not matter. Each ordered piece stands for one, so that equal pieces (lined cards) count as often as they were
ordered. Pieces told to be printed again count no more, until an order that was told later holds them.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Generic, NamedTuple, Protocol, TypeVar

from queries.orders.values import Order, OrderedPiece, OrderedPrint, Reprint
from queries.weeks import Week, WeekRule


class PieceOfWeek(Protocol):
    """A piece that may have to be printed."""

    @property
    def name(self) -> str: ...
    @property
    def week(self) -> Week: ...
    @property
    def pocket(self) -> str: ...
    @property
    def mark(self) -> str: ...


_P = TypeVar("_P", bound=PieceOfWeek)
#: A week's first day, and a mark.
_Same = tuple[date, str]


@dataclass(frozen=True, slots=True)
class PrintedBefore:
    """A piece that was printed before: its name, week and pocket now, and the order's number and the print's name."""

    name: str
    week: Week
    pocket: str
    order: int
    print: str


@dataclass(frozen=True, slots=True)
class Left(Generic[_P]):
    """The pieces still to be printed, and those that were printed before; both in the order given."""

    to_print: tuple[_P, ...]
    before: tuple[PrintedBefore, ...]


class _Held(NamedTuple):
    """A piece on a print of an order."""

    order: Order
    print: OrderedPrint
    piece: OrderedPiece


def left_to_print(pieces: Sequence[_P], orders: Iterable[Order], rule: WeekRule) -> Left[_P]:
    """Which pieces no order that went to the lab holds, or were told to be printed again since."""
    same = [(piece.week.first_day, piece.mark) for piece in pieces]
    standing = _standing(Counter(same), orders, rule)
    found: dict[int, _Held] = {}
    for same_pocket in (True, False):  # of equal pieces, those are printed whose own pocket was
        for place, piece in enumerate(pieces):
            there = standing.get(same[place], []) if place not in found else []
            held = next((item for item in there if not same_pocket or item.piece.pocket == piece.pocket), None)
            if held:
                there.remove(held)
                found[place] = held
    return Left(
        tuple(piece for place, piece in enumerate(pieces) if place not in found),
        tuple(_before(pieces[place], found[place]) for place in sorted(found)),
    )


def planned_too(pieces: Iterable[PieceOfWeek], orders: Iterable[Order], rule: WeekRule) -> dict[str, Order]:
    """By the name of a piece, the order planned last that holds one of its week with its mark and was not sent: who
    forgot to tell that it went would pay for the piece twice."""
    last: dict[_Same, Order] = {}
    for order in sorted((order for order in orders if order.state == "planned"), key=lambda order: order.planned_at):
        last |= {same: order for held in _pieces(order) if (same := _same(held, rule))}
    same_of = {piece.name: (piece.week.first_day, piece.mark) for piece in pieces}
    return {name: last[same] for name, same in same_of.items() if same in last}


def photos_printed_before(
    keys: Iterable[str],
    orders: Iterable[Order],
    rule: WeekRule,
    edits: Mapping[str, Collection[str]] | None = None,
) -> dict[str, tuple[Order, Week]]:
    """By key, the order that printed a photo last, in whatever size, and for which week.

    Pieces told to be printed again do not count. `edits` are the keys that a photo's key came after, since it was
    edited and saved over: prints of those count.
    """
    last: dict[str, tuple[Order, Week]] = {}
    for order in sorted((order for order in orders if order.went), key=lambda order: order.sent_at or ""):
        for held in _pieces(order):
            week = rule.whole_week_told(held.piece.week)
            if week and not any(_is_of(again, held) for again in order.reprints):
                last |= dict.fromkeys(held.piece.keys, (order, week))
    found = {key: next((last[old] for old in _came_after(key, edits or {}) if old in last), None) for key in keys}
    return {key: printed for key, printed in found.items() if printed}


def _standing(needed: Counter[_Same], orders: Iterable[Order], rule: WeekRule) -> dict[_Same, list[_Held]]:
    """What was printed of the pieces needed and holds still, oldest first."""
    went = [order for order in orders if order.went]
    events: list[tuple[str, Order, Reprint | None]] = [(order.planned_at, order, None) for order in went]
    events += [(again.told_at, order, again) for order in went for again in order.reprints]
    standing: dict[_Same, list[_Held]] = {}
    for _, order, again in sorted(events, key=lambda event: (event[0], event[2] is not None)):
        pieces = ((same, held) for held in _pieces(order) if (same := _same(held, rule)) in needed and same)
        if again is None:
            for same, held in pieces:
                standing.setdefault(same, []).append(held)
        else:
            _take_off(standing, [pair for pair in pieces if _is_of(again, pair[1])], needed)
    return standing


def _take_off(standing: dict[_Same, list[_Held]], again: Sequence[tuple[_Same, _Held]], needed: Counter[_Same]) -> None:
    """As many of each are to be printed as were named, though more than are needed may have been printed over time."""
    for same, count in Counter(same for same, _ in again).items():
        gone = [held for other, held in again if other == same]
        rest = [held for held in standing.get(same, []) if held not in gone]
        keep = min(len(rest), max(needed[same] - count, 0))
        standing[same] = rest[len(rest) - keep :]


def _same(held: _Held, rule: WeekRule) -> _Same | None:
    week = rule.whole_week_told(held.piece.week)
    return (week.first_day, held.piece.mark) if week else None


def _is_of(again: Reprint, held: _Held) -> bool:
    return again.print == held.print.name and (held.piece.week, held.piece.pocket) in again.pieces


def _pieces(order: Order) -> Iterator[_Held]:
    return (_Held(order, item, piece) for item in order.prints for piece in item.pieces)


def _before(piece: PieceOfWeek, held: _Held) -> PrintedBefore:
    return PrintedBefore(piece.name, piece.week, piece.pocket, held.order.number, held.print.name)


def _came_after(key: str, edits: Mapping[str, Collection[str]]) -> Iterator[str]:
    """The key itself, then those it came after, the nearest first."""
    met, waiting = {key}, [key]
    while waiting:
        yield (now := waiting.pop(0))
        waiting += [old for old in edits.get(now, ()) if old not in met]
        met.update(edits.get(now, ()))
