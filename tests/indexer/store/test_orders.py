"""What was told of orders of prints"""

import sqlite3
from itertools import product

import pytest

from indexer.errors import WordError
from indexer.store.orders import take_back, tell_order

ONE, TWO = "0d5e4a1c-2f0b-4b54-8a55-3f9d6a0c7e11", "1d5e4a1c-2f0b-4b54-8a55-3f9d6a0c7e11"
CONTENT = {"planned": "{}", "reprint": "{}"}


def states(connection: sqlite3.Connection) -> list[tuple[int, str, str]]:
    rows = connection.execute("SELECT number, state, content FROM print_order ORDER BY number, order_id")
    return [tuple(row) for row in rows]


def log(connection: sqlite3.Connection) -> list[str]:
    return [what for (what,) in connection.execute("SELECT what FROM order_log ORDER BY told_at, uuid")]


def test_an_order_s_life(connection: sqlite3.Connection) -> None:
    """Planned, planned anew, sent, arrived: the last content holds, and each step has its moment."""
    for what, content in (("planned", '{"a":1}'), ("planned", '{"a":2}'), ("sent", None), ("arrived", None)):
        assert tell_order(connection, ONE, 1, what, content)
    assert states(connection) == [(1, "arrived", '{"a":2}')]
    row = connection.execute("SELECT planned_at, sent_at, arrived_at FROM print_order").fetchone()
    told = [moment for (moment,) in connection.execute("SELECT told_at FROM order_log ORDER BY told_at")]
    assert list(row) == told[1:]


def test_arrived_without_a_word_of_sending(connection: sqlite3.Connection) -> None:
    """What is here was sent; both have the same moment."""
    tell_order(connection, ONE, 1, "planned", "{}")
    tell_order(connection, ONE, 1, "arrived")
    sent, arrived = connection.execute("SELECT sent_at, arrived_at FROM print_order").fetchone()
    assert sent == arrived


#: Each state, and what each word does there: True is kept, False was told already, a text says why not.
FOLLOWS: dict[str, dict[str, bool | str]] = {
    "planned": {"planned": True, "sent": True, "arrived": True, "dropped": True, "reprint": "did not go to the lab"},
    "sent": {"planned": "another folder", "sent": False, "arrived": True, "dropped": "reprint", "reprint": True},
    "arrived": {"planned": "another folder", "sent": False, "arrived": False, "dropped": "reprint", "reprint": True},
    "dropped": {"planned": "dropped", "sent": "cannot be sent", "arrived": "cannot be arrived", "dropped": False,
                "reprint": "did not go to the lab"},
}  # fmt: skip


@pytest.mark.parametrize(("state", "what"), list(product(FOLLOWS, FOLLOWS["planned"])))
def test_what_can_follow(connection: sqlite3.Connection, state: str, what: str) -> None:
    """A word that contradicts what was told is refused with the way out, and one told twice is told once."""
    tell_order(connection, ONE, 1, "planned", "{}")
    if state != "planned":
        tell_order(connection, ONE, 1, state)
    before, follows = log(connection), FOLLOWS[state][what]
    if isinstance(follows, str):
        with pytest.raises(WordError, match=follows):
            tell_order(connection, ONE, 1, what, CONTENT.get(what))
        assert log(connection) == before
    else:
        assert tell_order(connection, ONE, 1, what, CONTENT.get(what)) is follows
        assert log(connection) == [*before, *([what] if follows else [])]


def test_a_new_order_has_a_number_of_its_own(connection: sqlite3.Connection) -> None:
    """A number that was told once is not used again, that of a dropped order neither."""
    tell_order(connection, ONE, 1, "planned", "{}")
    tell_order(connection, ONE, 1, "dropped")
    with pytest.raises(WordError, match="o01 already; run the same command again"):
        tell_order(connection, TWO, 1, "planned", "{}")
    assert tell_order(connection, TWO, 2, "planned", "{}")
    assert states(connection) == [(1, "dropped", "{}"), (2, "planned", "{}")]


@pytest.mark.parametrize("what", ["sent", "arrived", "dropped", "reprint"])
def test_an_order_never_planned(connection: sqlite3.Connection, what: str) -> None:
    """Nothing can be told of it."""
    with pytest.raises(WordError, match="there is no order o01"):
        tell_order(connection, ONE, 1, what, CONTENT.get(what))


def test_what_went_to_the_lab_stays(connection: sqlite3.Connection) -> None:
    """A content that another computer told after the order was sent, and a backup brought here, changes nothing."""
    rows = [("b", "planned", "2"), ("a", "planned", "1"), ("c", "sent", None), ("d", "planned", "3")]
    for day, (uuid, what, content) in enumerate(rows, start=1):
        word = (uuid, f"2026-04-0{day}T00:00:00.000000Z", ONE, 5, what, content)
        connection.execute("INSERT INTO order_log VALUES (?, ?, ?, ?, ?, ?, NULL)", word)
    assert states(connection) == [(5, "sent", "1")]
    assert connection.execute("SELECT planned_at FROM print_order").fetchone()[0][:10] == "2026-04-02"


def test_an_order_dropped_here_and_sent_there_went(connection: sqlite3.Connection) -> None:
    """Two computers' words together: what went to the lab went."""
    for day, what in enumerate(("planned", "sent", "dropped"), start=1):
        word = (what, f"2026-04-0{day}T00:00:00.000000Z", ONE, 5, what, CONTENT.get(what))
        connection.execute("INSERT INTO order_log VALUES (?, ?, ?, ?, ?, ?, NULL)", word)
    assert states(connection) == [(5, "sent", "{}")]


def test_a_word_taken_back_holds_no_longer(connection: sqlite3.Connection) -> None:
    """Sent by a slip of the number: the order is planned again, may be planned anew and sent for good."""
    tell_order(connection, ONE, 1, "planned", '{"a":1}')
    assert not take_back(connection, ONE, 1, "sent")
    tell_order(connection, ONE, 1, "sent")
    assert take_back(connection, ONE, 1, "sent")
    assert states(connection) == [(1, "planned", '{"a":1}')]
    tell_order(connection, ONE, 1, "planned", '{"a":2}')
    tell_order(connection, ONE, 1, "sent")
    assert states(connection) == [(1, "sent", '{"a":2}')]
    tell_order(connection, ONE, 1, "arrived")
    with pytest.raises(WordError, match="order o01 has arrived; take that back first: weeksheaf order arrived o01"):
        take_back(connection, ONE, 1, "sent")
    assert take_back(connection, ONE, 1, "arrived")
    assert take_back(connection, ONE, 1, "sent")
    tell_order(connection, ONE, 1, "dropped")
    assert take_back(connection, ONE, 1, "dropped")
    assert states(connection) == [(1, "planned", '{"a":2}')]
    assert log(connection).count("taken back") == 4
