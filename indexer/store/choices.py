"""What was told of photos: keep this one, leave that one out."""

import sqlite3
from collections.abc import Sequence

from indexer.alike.values import Choice
from indexer.store.alikes import make_sets
from indexer.store.words import new_stamp


def tell_choice(connection: sqlite3.Connection, keys: Sequence[str], choice: Choice | None) -> None:
    """Keep what was told of these photos, and make the sets anew by it, in the caller's transaction; None goes back to
    the tool's own choice."""
    for key in keys:
        stamp = new_stamp(connection)
        connection.execute(
            "INSERT INTO choice (uuid, told_at, photo_key, choice) VALUES (?, ?, ?, ?)",
            (stamp.uuid, stamp.told_at, key, choice),
        )
    make_sets(connection)
