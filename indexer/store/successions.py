"""Photos that were edited and saved over: the word that one key took the place of another."""

import sqlite3

from indexer.store.words import new_stamp


def tell_succession(connection: sqlite3.Connection, old_key: str, new_key: str) -> None:
    """Keep that the photo `new_key` lies where `old_key`, now found nowhere, lay. Inside the caller's transaction."""
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO succession (uuid, told_at, old_key, new_key) VALUES (?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, old_key, new_key),
    )
