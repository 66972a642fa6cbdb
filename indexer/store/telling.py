"""The way in for everything a person tells: one transaction, then a backup unasked."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from indexer.errors import WordError
from indexer.store.backup import keep_backup
from indexer.store.opening import backup_folder, explained, open_for_writing, transaction


@contextmanager
def telling(index: Path, warn: Callable[[str], None], *, create: bool = False) -> Iterator[sqlite3.Connection]:
    """A connection inside a transaction, for the functions that tell; committed and backed up at the end.

    A backup that cannot be written is a warning: the word itself is safe in the index.
    """
    connection = open_for_writing(index, create=create)
    try:
        with explained(index), transaction(connection):
            yield connection
        back_up(connection, index, warn)
    finally:
        connection.close()


def back_up(connection: sqlite3.Connection, index: Path, warn: Callable[[str], None]) -> None:
    """Keep a backup beside the index if anything was told since the last one."""
    try:
        keep_backup(connection, index)
    except (OSError, WordError) as error:
        reason = error.strerror if isinstance(error, OSError) else error
        warn(
            f"no backup could be written into {backup_folder(index)} ({reason}); your words are in the index:"
            " save them elsewhere with weeksheaf backup FILE"
        )
