"""An empty index, and bare tables in the place of its views."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from indexer import open_for_writing


@pytest.fixture
def index(tmp_path: Path) -> Iterator[sqlite3.Connection]:
    """A new index, open for writing."""
    with closing(open_for_writing(tmp_path / "index.db", create=True)) as connection:
        yield connection


@pytest.fixture(scope="module")
def bare_photos() -> Iterator[sqlite3.Connection]:
    """Bare tables in the place of the views that are counted in."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        connection.row_factory = sqlite3.Row
        connection.execute("CREATE TABLE photo (key, placed, shape, doubtful, present, keeper)")
        connection.execute("CREATE TABLE week_holding (log_uuid, photo_key)")
        connection.execute("CREATE TABLE alike_set (set_id, kind, photo_key)")
        yield connection
