"""What one call of the command line works with."""

import sqlite3
from contextlib import AbstractContextManager
from datetime import date, datetime, timedelta
from functools import cached_property
from pathlib import Path

import click

from queries.settings import Settings, load_settings


class Session:
    """The index, opened when first needed, and the settings in it."""

    def __init__(self, index: Path) -> None:
        self.index = index

    @cached_property
    def connection(self) -> sqlite3.Connection:
        """A connection that cannot write. Raises NoIndexError, IndexFileError."""
        from indexer.store.opening import open_for_reading

        return open_for_reading(self.index)

    @cached_property
    def settings(self) -> Settings:
        return load_settings(self.connection)

    @property
    def now(self) -> datetime:
        return datetime.now().astimezone()

    @property
    def today(self) -> date:
        return self.now.date()

    @property
    def album_day(self) -> date:
        """The day that a photo taken now would belong to: what `this` and `last` count from."""
        is_small_hours = self.now.time() < self.settings.day_starts_at
        return self.today - timedelta(days=1) if is_small_hours else self.today

    def telling(self, *, create: bool = False) -> AbstractContextManager[sqlite3.Connection]:
        """A transaction for what the person tells, backed up at its end."""
        from indexer.store.telling import telling

        return telling(self.index, warn, create=create)

    def close(self) -> None:
        connection = self.__dict__.pop("connection", None)
        if connection is not None:
            connection.close()


def warn(text: str) -> None:
    """One line on stderr, for what went on in spite of it."""
    from queries.cli.visible import visible

    click.echo(f"Warning: {visible(text)}", err=True)
