"""What was told of orders, read from the index."""

import sqlite3
from collections.abc import Iterable, Mapping

from queries.orders.order_text import Content, content_in, reprint_in
from queries.orders.values import Order, Reprint

_UNREADABLE = Content("", (), 0)


def orders(connection: sqlite3.Connection) -> tuple[Order, ...]:
    """All orders, by number, then by the moment they were planned; dropped ones too."""
    reprints: dict[str, list[Reprint]] = {}
    for row in connection.execute("SELECT order_id, content, told_at FROM print_again ORDER BY told_at, uuid"):
        if reprint := reprint_in(row["content"], row["told_at"]):
            reprints.setdefault(row["order_id"], []).append(reprint)
    rows = connection.execute("SELECT * FROM print_order ORDER BY number, planned_at, order_id")
    return tuple(_order(row, tuple(reprints.get(row["order_id"], ()))) for row in rows)


def next_number(told: Iterable[Order]) -> int:
    """The number of the next order: one more than the highest ever told, of dropped orders too."""
    return 1 + max((order.number for order in told), default=0)


def edits_told(connection: sqlite3.Connection) -> Mapping[str, tuple[str, ...]]:
    """By the key of a photo that was edited and saved over: the keys of the pictures whose place it took."""
    edits: dict[str, tuple[str, ...]] = {}
    for old, new in connection.execute("SELECT old_key, new_key FROM succession ORDER BY told_at, uuid"):
        edits[new] = (*edits.get(new, ()), old)
    return edits


def _order(row: sqlite3.Row, reprints: tuple[Reprint, ...]) -> Order:
    content = content_in(row["content"]) or _UNREADABLE
    return Order(
        row["order_id"],
        row["number"],
        content.folder,
        content.prints,
        content.lower_bound,
        row["state"],
        row["planned_at"],
        row["sent_at"],
        row["arrived_at"],
        reprints,
    )
