"""What was told of orders of prints: what they hold, that they were sent, have arrived or are dropped, reprints."""

import sqlite3

from indexer.errors import WordError
from indexer.store.words import TAKEN_BACK, new_stamp


def tell_order(
    connection: sqlite3.Connection, order_id: str, number: int, what: str, content: str | None = None
) -> bool:
    """Keep a word about an order; False, and nothing kept, where "sent", "arrived" or "dropped" was told already.

    `what` is one of those, or, with a JSON text as `content`, "planned" (what it holds, in place of what was planned
    before) or "reprint" (which pieces are to be printed again). Runs inside the caller's transaction. Raises WordError
    for what cannot follow what was told: an order that went to the lab stays as it is, and so does a dropped one.
    """
    row = connection.execute("SELECT state FROM print_order WHERE order_id = ?", (order_id,)).fetchone()
    now = str(row["state"]) if row else None
    if now is None:
        _refuse_unknown(connection, number, what)
    elif now == what != "planned" or (now, what) == ("arrived", "sent"):
        return False
    elif problem := _problem(now, what):
        raise WordError(f"order o{number:02} {problem}")
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO order_log (uuid, told_at, order_id, number, what, content) VALUES (?, ?, ?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, order_id, number, what, content),
    )
    return True


def take_back(connection: sqlite3.Connection, order_id: str, number: int, what: str) -> bool:
    """Let "sent", "arrived" or "dropped" of an order hold no longer; False where it was not told.

    Runs inside the caller's transaction. Raises WordError where an order that arrived is to be unsent.
    """
    rows = connection.execute("SELECT uuid, what FROM order_word WHERE order_id = ?", (order_id,)).fetchall()
    if what == "sent" and any(row["what"] == "arrived" for row in rows):
        name = f"o{number:02}"
        raise WordError(f"order {name} has arrived; take that back first: weeksheaf order arrived {name} --forget")
    held = [row["uuid"] for row in rows if row["what"] == what]
    for uuid in held:
        stamp = new_stamp(connection)
        connection.execute(
            "INSERT INTO order_log (uuid, told_at, order_id, number, what, takes_back) VALUES (?, ?, ?, ?, ?, ?)",
            (stamp.uuid, stamp.told_at, order_id, number, TAKEN_BACK, uuid),
        )
    return bool(held)


def _refuse_unknown(connection: sqlite3.Connection, number: int, what: str) -> None:
    """A new order has a number of its own."""
    if what != "planned":
        raise WordError(f"there is no order o{number:02}; weeksheaf order lists them")
    if connection.execute("SELECT 1 FROM order_log WHERE number = ?", (number,)).fetchone():
        raise WordError(f"there is an order o{number:02} already; run the same command again for the next number")


def _problem(now: str, what: str) -> str:
    """Why the word cannot follow the order's state, with the way out; "" where it can."""
    went = now in ("sent", "arrived")
    if what == "planned" and now != "planned":
        return f"{'was dropped' if now == 'dropped' else 'went to the lab'} and stays as it is; choose another folder"
    if what == "dropped" and went:
        return "went to the lab and cannot be dropped; weeksheaf reprint PRINT has a print made again"
    if what == "reprint" and not went:
        return "did not go to the lab; plan its weeks again: weeksheaf prints WEEK FOLDER"
    if now == "dropped":
        return f"was dropped and cannot be {what}; plan its weeks again: weeksheaf prints WEEK FOLDER"
    return ""
