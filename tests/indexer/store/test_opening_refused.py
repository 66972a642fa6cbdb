"""What stands in an index's place and is none, or none that can be used."""

# ruff: noqa: PT012 - what is done in a transaction is what raises

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from indexer.errors import IndexFileError, NoIndexError
from indexer.store.opening import NEWEST_SHAPE, explained, explanation, open_for_reading, open_for_writing

OPENERS: list[Callable[[Path], sqlite3.Connection]] = [
    open_for_reading,
    open_for_writing,
    lambda path: open_for_writing(path, create=True),
]


def listing(folder: Path) -> dict[str, bytes]:
    return {item.name: item.read_bytes() for item in folder.iterdir()}


@pytest.mark.parametrize("opener", OPENERS)
@pytest.mark.parametrize(
    "content",
    [b"dear diary", b"x", b"\xff\xd8\xff\xe0" * 2000, b"SQLite format 3\0", bytes(8192), b"SQLite format 2\0" * 512],
    ids=["text", "one byte", "a JPEG", "a header alone", "zeros", "an older database"],
)
def test_a_file_that_is_no_database_is_left_untouched(
    opener: Callable[[Path], sqlite3.Connection], content: bytes, tmp_path: Path
) -> None:
    """It is named with the way out, and neither it nor its folder changes by a byte."""
    file = tmp_path / "index.db"
    file.write_bytes(content)
    before = listing(tmp_path)
    with pytest.raises(IndexFileError, match="--index") as caught:
        opener(file)
    assert str(file) in str(caught.value)
    assert listing(tmp_path) == before


@pytest.mark.parametrize("opener", OPENERS)
@pytest.mark.parametrize("journal", ["DELETE", "WAL"])
@pytest.mark.parametrize("statement", ["CREATE TABLE recipe (name TEXT)", "PRAGMA application_id = 77"])
def test_a_database_of_another_program_is_left_untouched(
    opener: Callable[[Path], sqlite3.Connection], journal: str, statement: str, tmp_path: Path
) -> None:
    """Neither it nor its folder changes by a byte, whatever its journal, be it without any table yet."""
    file = tmp_path / "index.db"
    with closing(sqlite3.connect(file)) as other:
        other.execute(f"PRAGMA journal_mode = {journal}")
        other.execute(statement)
    before = listing(tmp_path)
    with pytest.raises(IndexFileError, match="another program"):
        opener(file)
    assert listing(tmp_path) == before


@pytest.mark.parametrize("opener", OPENERS)
def test_an_index_of_a_newer_version_is_left_untouched(
    opener: Callable[[Path], sqlite3.Connection], made: Path
) -> None:
    """The line says which shape it has and that an update helps."""
    with closing(sqlite3.connect(made)) as newer:
        newer.execute(f"PRAGMA user_version = {NEWEST_SHAPE + 1}")
    before = listing(made.parent)
    with pytest.raises(IndexFileError, match=f"newer version.*shape {NEWEST_SHAPE + 1}.*update"):
        opener(made)
    assert listing(made.parent) == before


@pytest.mark.parametrize("opener", OPENERS[:2])
def test_no_index_is_no_reason_to_make_one(opener: Callable[[Path], sqlite3.Connection], index: Path) -> None:
    """Without leave to create it, neither file nor folder is made, and the line says how to make one."""
    with pytest.raises(NoIndexError, match="weeksheaf index FOLDER"):
        opener(index)
    assert not index.parent.exists()


@pytest.mark.parametrize("opener", OPENERS)
@pytest.mark.parametrize("place", ["folder", "below a file", "name too long"])
def test_a_place_that_cannot_hold_an_index_is_named(
    opener: Callable[[Path], sqlite3.Connection], place: str, tmp_path: Path
) -> None:
    """A folder, a path through a file and an endless name are known errors, not the system's."""
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").write_text("x")
    path = {
        "folder": tmp_path / "folder",
        "below a file": tmp_path / "file" / "index.db",
        "name too long": tmp_path / ("n" * 300),
    }[place]
    with pytest.raises((IndexFileError, NoIndexError)) as caught:
        opener(path)
    assert str(path) in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("SQLITE_BUSY_SNAPSHOT", "in use"),
        ("SQLITE_LOCKED", "in use"),
        ("SQLITE_FULL", "full"),
        ("SQLITE_NOTADB", "not an index"),
        ("SQLITE_CORRUPT_INDEX", "weeksheaf restore"),
        ("SQLITE_READONLY_DIRECTORY", "check the folder"),
        ("SQLITE_CANTOPEN", "check the folder"),
        ("SQLITE_IOERR_WRITE", "check the folder"),
        ("SQLITE_ERROR", "--index"),
    ],
)
def test_every_trouble_names_the_index_and_the_way_out(name: str, words: str) -> None:
    """One line each."""
    error = sqlite3.OperationalError("some trouble")
    error.sqlite_errorname = name
    line = explanation(Path("/kept/index.db"), error)
    assert words in line
    assert os.fspath(Path("/kept/index.db")) in line
    assert "\n" not in line


def test_a_damaged_index_says_how_to_bring_the_words_back(made: Path) -> None:
    """Pages overwritten in the middle are found when they are read, and the line points at the backups."""
    data = bytearray(made.read_bytes())
    data[4096:] = b"\xaa" * (len(data) - 4096)
    made.write_bytes(data)
    with pytest.raises(IndexFileError, match=r"damaged.*restore") as caught, explained(made):
        connection = open_for_writing(made)
        connection.execute("SELECT * FROM week_log").fetchall()
    assert "index.db-backups" in str(caught.value)
