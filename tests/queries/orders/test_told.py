"""What was told of orders, read from the index"""

import sqlite3
from uuid import UUID

from indexer.store.orders import tell_order
from indexer.store.successions import tell_succession
from queries.orders.order_text import order_text, reprint_text
from queries.orders.told import edits_told, next_number, orders
from queries.orders.values import Reprint
from tests.queries.orders.made_orders import W14, order


def test_orders_as_they_stand(index: sqlite3.Connection) -> None:
    """With what they hold, their state and moments, and what is to be printed again."""
    two, one = order(2, [(W14, "L1", "a", ("k",))], [(W14, "L2", "b")]), order(1, [(W14, "L3", "c")])
    for made in (two, one):
        tell_order(index, made.id, made.number, "planned", order_text(made))
    tell_order(index, two.id, 2, "sent")
    tell_order(index, two.id, 2, "reprint", reprint_text(Reprint("o02-02", ((W14, "L2"),))))
    first, second = orders(index)
    assert (first.state, first.prints, first.folder, first.sent_at, first.reprints) == (
        "planned", one.prints, "/prints/1", None, ()
    )  # fmt: skip
    assert (second.id, second.number, second.state, second.prints) == (two.id, 2, "sent", two.prints)
    assert (second.lower_bound, second.arrived_at, second.went) == (2, None, True)
    assert second.planned_at < str(second.sent_at) < second.reprints[0].told_at
    assert second.reprints[0].pieces == ((W14, "L2"),)


def test_numbers_go_up(index: sqlite3.Connection) -> None:
    """One more than the highest ever told, that of a dropped order too."""
    assert (orders(index), next_number(orders(index))) == ((), 1)
    tell_order(index, str(UUID(int=7)), 7, "planned", order_text(order(7)))
    tell_order(index, str(UUID(int=7)), 7, "dropped")
    assert next_number(orders(index)) == 8


def test_an_order_of_a_newer_form_is_there(index: sqlite3.Connection) -> None:
    """Its prints cannot be read; that it was sent can, and a reprint of another form is passed over."""
    tell_order(index, str(UUID(int=1)), 1, "planned", '{"form": 99}')
    tell_order(index, str(UUID(int=1)), 1, "sent")
    tell_order(index, str(UUID(int=1)), 1, "reprint", '{"form": 99}')
    (told,) = orders(index)
    assert (told.name, told.state, told.prints, told.reprints) == ("o01", "sent", (), ())


def test_edits_of_photos(index: sqlite3.Connection) -> None:
    """By the new key, the keys whose place it took."""
    for old, new in (("a", "c"), ("b", "c"), ("c", "d")):
        tell_succession(index, old, new)
    assert edits_told(index) == {"c": ("a", "b"), "d": ("c",)}
