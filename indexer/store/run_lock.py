"""One run at a time: a lock that the system lets go of by itself should the run die."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from indexer.errors import IndexFileError
from indexer.store.opening import address, connect, explained, explanation, make_folder_for


@contextmanager
def the_only_run(index: Path) -> Iterator[None]:
    """Hold the lock for the length of a run. Raises IndexFileError when another run holds it.

    Words can still be told meanwhile.
    """
    make_folder_for(index)
    with lock_on(index.with_name(index.name + "-running")) as is_ours:
        if not is_ours:
            raise IndexFileError(
                f"another run is indexing into {index} just now; wait until it is done, then try again"
            )
        yield


@contextmanager
def lock_on(file: Path) -> Iterator[bool]:
    """Hold a lock; False where another process holds it. Raises IndexFileError where the file cannot be used.

    SQLite's own lock on an otherwise empty file is used: it works alike on every system and needs no stale-lock rule.
    """
    with explained(file):
        lock = connect(address(file), wait_seconds=0)
    try:
        yield _is_taken(lock, file)
    finally:
        lock.close()


def _is_taken(lock: sqlite3.Connection, file: Path) -> bool:
    try:
        lock.execute("BEGIN EXCLUSIVE")
    except sqlite3.Error as error:
        if not error.sqlite_errorname.startswith("SQLITE_BUSY"):
            raise IndexFileError(explanation(file, error)) from error
        return False
    return True
