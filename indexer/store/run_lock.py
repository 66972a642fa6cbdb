"""One index run at a time: a lock beside the index that the system lets go of by itself should the run die."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from indexer.errors import IndexFileError
from indexer.store.opening import address, connect, explained, explanation, make_folder_for


@contextmanager
def the_only_run(index: Path) -> Iterator[None]:
    """Hold the lock for the length of a run. Raises IndexFileError when another run holds it.

    SQLite's own lock on an otherwise empty file is used: it works alike on every system and needs no stale-lock rule.
    Words can still be told meanwhile.
    """
    make_folder_for(index)
    file = index.with_name(index.name + "-running")
    with explained(file):
        lock = connect(address(file), wait_seconds=0)
    try:
        try:
            lock.execute("BEGIN EXCLUSIVE")
        except sqlite3.Error as error:
            if not error.sqlite_errorname.startswith("SQLITE_BUSY"):
                raise IndexFileError(explanation(file, error)) from error
            raise IndexFileError(
                f"another run is indexing into {index} just now; wait until it is done, then try again"
            ) from error
        yield
    finally:
        lock.close()
