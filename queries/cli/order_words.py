"""Orders of prints, as JSON and in words."""

import re
import shlex
from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

from queries.cli.documents import week_fields
from queries.cli.output import columns, plural
from queries.cli.visible import visible
from queries.orders.naming import piece_words
from queries.orders.values import Order, OrderedPiece, OrderedPrint
from queries.orders.weeks import WeekOfOrder, weeks_with_pieces
from queries.weeks import Week, WeekRule, date_words, week_words

#: What a shell takes as it stands between double quotes.
_PLAIN = re.compile(r"[\w .,;:()/+&#-]*")
_UNREADABLE = "told by a newer version of weeksheaf; update to see what it holds"


# ------------------------------------------------------------------------------------------------------------- JSON


def orders_document(orders: Sequence[Order], rule: WeekRule) -> dict[str, Any]:
    return {"orders": [order_fields(order, rule) for order in orders]}


def order_fields(order: Order, rule: WeekRule) -> dict[str, Any]:
    return {
        "order": order.name,
        "number": order.number,
        "id": order.id,
        "state": order.state,
        "planned_at": order.planned_at,
        "sent_at": order.sent_at,
        "arrived_at": order.arrived_at,
        "folder": order.folder,
        "prints": len(order.prints),
        "pieces": len(order.pieces),
        "lower_bound": order.lower_bound,
        "weeks": [week_fields(week) for week in weeks_with_pieces(order.pieces, rule)],
    }


def told_document(order: Order, weeks: Sequence[WeekOfOrder], rule: WeekRule, *, is_new: bool) -> dict[str, Any]:
    """An order as it stands after a word about it; `told` is false where that was told before."""
    return {
        **order_fields(order, rule),
        "told": is_new,
        "weeks": [
            {
                **week_fields(item.week),
                "state": item.word.state,
                "waiting_for": list(item.word.waiting_for),
                "under_way": list(item.under_way),
                "next": _next(order, item),
            }
            for item in weeks
        ],
    }


def reprint_document(item: OrderedPrint, pieces: Sequence[OrderedPiece], rule: WeekRule) -> dict[str, Any]:
    return {
        "print": item.name,
        "pieces": [
            {"week": week.name if (week := rule.whole_week_told(piece.week)) else None, "pocket": piece.pocket}
            for piece in pieces
        ],
        "next": _reprint_command(pieces, rule),
    }


# ------------------------------------------------------------------------------------------------------------ words


def orders_lines(orders: Sequence[Order], rule: WeekRule) -> Iterator[str]:
    """The orders, oldest first, each with its weeks and its folder."""
    if not orders:
        yield "No order yet; weeksheaf prints WEEK FOLDER plans one."
        return
    rows = [("order", "planned", "state", "prints", "pieces")]
    rows += [
        (
            order.name,
            _day(order.planned_at),
            order_state_words(order),
            f"{len(order.prints):,}",
            f"{len(order.pieces):,}",
        )
        for order in orders
    ]
    head, *lines = columns(rows, numbers=[3, 4])
    yield head
    for order, line in zip(orders, lines, strict=True):
        yield line
        if sum(other.number == order.number for other in orders) > 1:
            yield f"    one of several with this number: name it {order.id[:8]}"
        if not order.prints:
            yield f"    {_UNREADABLE}"
        for week in weeks_with_pieces(order.pieces, rule):
            yield f"    {week_words(week)} ({week.name})"
        if order.folder:
            yield f"    in {visible(order.folder)}"


def told_lines(order: Order, weeks: Sequence[WeekOfOrder], *, is_new: bool) -> Iterator[str]:
    """What an order is now, and what that means for its weeks."""
    count = f"{plural(len(order.prints), 'print')}, {plural(len(order.pieces), 'piece')}"
    again = "" if is_new else "was told already: "
    yield f"Order {order.name} {again}{order_state_words(order)}; {count}"
    if order.state == "sent":
        yield from (_sent_line(order, item) for item in weeks)
    elif order.state == "arrived":
        yield from (_arrived_line(order, item) for item in weeks if item.waits_for_prints)
    elif order.folder:
        yield f"Its number is not used again, its files stay in {visible(order.folder)}"


def taken_back_line(order: Order, what: str, *, is_new: bool) -> str:
    """What an order is again, after a word about it was taken back."""
    if not is_new:
        return f"Order {order.name} was never told to be {what}; it is {order_state_words(order)}"
    return f"Order {order.name} is {order_state_words(order)} again"


def _sent_line(order: Order, item: WeekOfOrder) -> str:
    week = week_words(item.week)
    if item.waits_for_prints:
        return f"{week} waits for prints"
    mark = _next(order, item)
    return f"{week} is {item.word.state}{f': {mark}' if mark else ''}"


def _arrived_line(order: Order, item: WeekOfOrder) -> str:
    week = week_words(item.week)
    if item.under_way:
        return f"{week} waits for more prints: {', '.join(item.under_way)} under way"
    return f"{week} waited for prints: {_next(order, item)}"


def reprint_lines(item: OrderedPrint, pieces: Sequence[OrderedPiece], rule: WeekRule) -> Iterator[str]:
    """What will be printed again, and by which command."""
    yield f"To be printed again, of {item.name}: {', '.join(piece_words(piece, rule) for piece in pieces)}"
    yield f"The next order has it: {_reprint_command(pieces, rule)}"
    if _has_card(pieces):
        yield "The card is printed with --journal; one of lines, with --handwritten instead."


def _next(order: Order, item: WeekOfOrder) -> str | None:
    """The command that brings the week's state in line with its order; None where it is."""
    waits = list(item.other_waits)
    if order.state == "sent" and not item.waits_for_prints and item.word.state != "done":
        waits.append("prints")
    elif order.state != "arrived" or not item.waits_for_prints or item.under_way:
        return None
    state = "waiting" if waits else "started"
    return " ".join(["weeksheaf mark", item.week.name, state, *(f"--for {_quoted(wait)}" for wait in waits)])


def _quoted(wait: str) -> str:
    """ "prints", 'supplies:"slate-blue cards"'."""
    kind, colon, what = wait.partition(":")
    if not colon:
        return kind
    return f'{kind}:"{what}"' if _PLAIN.fullmatch(what) else visible(shlex.quote(wait))


def _reprint_command(pieces: Sequence[OrderedPiece], rule: WeekRule) -> str:
    """A card is a piece of the next order only where cards are asked for."""
    return _prints_command(weeks_with_pieces(pieces, rule)) + (" --journal" if _has_card(pieces) else "")


def _has_card(pieces: Sequence[OrderedPiece]) -> bool:
    return not all(piece.keys for piece in pieces)


def _prints_command(weeks: Sequence[Week]) -> str:
    return " ".join(["weeksheaf prints", *(week.name for week in weeks), "FOLDER"])


def order_state_words(order: Order) -> str:
    """ "planned", "sent 2 Apr 2026", "arrived 9 Apr 2026"."""
    moment = {"sent": order.sent_at, "arrived": order.arrived_at}.get(order.state)
    return f"{order.state} {_day(moment)}" if moment else order.state


def _day(moment: str) -> str:
    return date_words(datetime.fromisoformat(moment).astimezone().date())
