"""Orders told to the index as writing prints tells them."""

from contextlib import closing
from datetime import date
from uuid import uuid4

from indexer import open_for_writing
from indexer.store.orders import tell_order
from queries.orders.order_text import order_text
from queries.orders.values import Order, OrderedPiece, OrderedPrint
from tests.queries.cli.conftest import Person

W14, W15 = date(2026, 3, 30), date(2026, 4, 6)


def tell_order_of(
    person: Person,
    *words: str,
    pockets: tuple[tuple[date, str], ...] = ((W14, "L1"), (W14, "L4"), (W15, "L4")),
    number: int = 1,
    folder: str = "/table/prints",
    cards: tuple[str, ...] = (),
) -> str:
    """An order of one print a two pockets, of which `cards` hold cards, then told "sent", "arrived" or "dropped"; its
    id."""
    pieces = [
        OrderedPiece(
            week, pocket, f"mark {pocket}", () if pocket in cards else (f"key {pocket}",), 0, 0, 76_200, 101_600
        )
        for week, pocket in pockets
    ]
    prints = tuple(
        OrderedPrint(f"o{number:02}-{place // 2 + 1:02}", tuple(pieces[place : place + 2]))
        for place in range(0, len(pieces), 2)
    )
    order = Order(str(uuid4()), number, folder, prints, len(prints), "planned", "", None, None)
    with closing(open_for_writing(person.index)) as connection:
        tell_order(connection, order.id, number, "planned", order_text(order))
        for word in words:
            tell_order(connection, order.id, number, word)
    return order.id
