"""Which order, print or piece is meant by what was typed. Pure."""

import re
from collections.abc import Iterable, Sequence
from datetime import date, datetime

from indexer.errors import PrintError
from queries.orders.values import Order, OrderedPiece, OrderedPrint
from queries.orders.weeks import weeks_with_pieces
from queries.weeks import WeekRule, date_words

_NUMBER = re.compile(r"o?0*([0-9]{1,10})", re.IGNORECASE)
#: The letters of an id that name an order: as few as a person wants to type, and too many for a number.
_ID = re.compile(r"[0-9a-f-]{4,36}", re.IGNORECASE)
_PRINT = re.compile(r"(.*)-0*([0-9]{1,6})", re.DOTALL)


def order_named(text: str, orders: Sequence[Order], rule: WeekRule) -> Order:
    """The order meant by "12", "o12" or the first letters of its id. Raises PrintError where it is none or several."""
    word = text.strip()
    if not orders:
        raise PrintError("there is no order yet; weeksheaf prints WEEK FOLDER plans one")
    numbered = _NUMBER.fullmatch(word)
    found = [order for order in orders if numbered and order.number == int(numbered[1])]
    if not found and _ID.fullmatch(word):
        found = [order for order in orders if order.id.startswith(word.lower())]
    if not found:
        raise PrintError(f"there is no order {text!r}; weeksheaf order lists them: {_listed(orders)}")
    if len(found) > 1:
        each = "; ".join(f"{_id_letters(order, found)}: {_order_words(order, rule)}" for order in found)
        raise PrintError(f"{text!r} is {len(found)} orders, name one by the first letters of its id: {each}")
    return found[0]


def print_named(text: str, orders: Sequence[Order], rule: WeekRule) -> tuple[Order, OrderedPrint]:
    """The print meant by "o12-07", its file or a path that ends so. Raises PrintError where there is none."""
    name = re.split(r"[/\\]", text.strip())[-1]
    parts = _PRINT.fullmatch(re.sub(r"\.jpe?g$", "", name, flags=re.IGNORECASE))
    if parts is None:
        raise PrintError(f"{text!r} is not a print; name it like o12-07, as its file and its back do")
    order = order_named(parts[1], orders, rule)
    for item in order.prints:
        if item.name.rpartition("-")[2].lstrip("0") == parts[2]:
            return order, item
    ends = [item.name for item in (*order.prints[:1], *order.prints[1:][-1:])]
    raise PrintError(f"order {order.name} has no print {text!r}; it has {' to '.join(ends) or 'none that can be read'}")


def pieces_named(item: OrderedPrint, pockets: Iterable[tuple[date | None, str]], rule: WeekRule) -> list[OrderedPiece]:
    """The pieces of a print in these pockets, all where none is named; with each the first day of its week, or None.

    Raises PrintError for a pocket that the print has not, or that two weeks on it have.
    """
    chosen = [_in_pocket(item, first_day, pocket, rule) for first_day, pocket in pockets]
    return [piece for piece in item.pieces if not chosen or piece in chosen]


def piece_words(piece: OrderedPiece, rule: WeekRule) -> str:
    """ "2026-W14/L4"."""
    week = rule.whole_week_told(piece.week)
    return f"{week.name if week else piece.week}/{piece.pocket}"


def _in_pocket(item: OrderedPrint, first_day: date | None, pocket: str, rule: WeekRule) -> OrderedPiece:
    found = [
        piece
        for piece in item.pieces
        if piece.pocket.lower() == pocket.lower()
        and (first_day is None or ((week := rule.whole_week_told(piece.week)) and week.first_day == first_day))
    ]
    listed = ", ".join(piece_words(piece, rule) for piece in found or item.pieces)
    if not found:
        raise PrintError(f"print {item.name} has no piece for pocket {pocket}; it has {listed}")
    if len(found) > 1:
        raise PrintError(f"pocket {pocket} of print {item.name} is of several weeks; name one: {listed}")
    return found[0]


def _listed(orders: Sequence[Order]) -> str:
    """The orders' names, the last few of many."""
    names = list(dict.fromkeys(order.name for order in orders))
    return ("..., " if len(names) > 5 else "") + ", ".join(names[-5:])


def _id_letters(order: Order, among: Iterable[Order]) -> str:
    """As few of the first letters of its id as tell it from the others, and enough for no number."""
    others = [other.id for other in among if other.id != order.id]
    return next(order.id[:end] for end in range(6, 37) if not any(other.startswith(order.id[:end]) for other in others))


def _order_words(order: Order, rule: WeekRule) -> str:
    planned = datetime.fromisoformat(order.planned_at).astimezone().date()
    weeks = ", ".join(week.name for week in weeks_with_pieces(order.pieces, rule))
    return f"planned {date_words(planned)} for {weeks or 'weeks that cannot be read'}"
