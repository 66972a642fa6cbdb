"""The way in for words: one transaction, then a backup unasked."""

import json
import sqlite3
from contextlib import closing
from datetime import date
from functools import partial
from pathlib import Path

import pytest

from indexer.errors import IndexFileError, NoIndexError, WordError
from indexer.store import opening, telling
from indexer.store.opening import backup_folder, open_for_reading, open_for_writing
from indexer.store.telling import back_up
from indexer.store.week_log import tell_week

MONDAY = date(2026, 3, 30)


def tell(index: Path, state: str, warnings: list[str] | None = None) -> None:
    with telling.telling(index, (warnings if warnings is not None else []).append, create=True) as connection:
        tell_week(connection, MONDAY, state)


def state_in(index: Path) -> str:
    with closing(open_for_reading(index)) as connection:
        row = connection.execute("SELECT state FROM week_state").fetchone()
        return row[0] if row else "untold"


def backups(index: Path) -> list[Path]:
    return sorted(backup_folder(index).glob("*")) if backup_folder(index).exists() else []


def test_a_word_is_kept_and_backed_up(index: Path) -> None:
    """After every change of words there is a new file beside the index, with all words in it."""
    tell(index, "started")
    tell(index, "done")
    assert state_in(index) == "done"
    assert len(backups(index)) == 2
    newest = json.loads(backups(index)[-1].read_text("utf-8"))
    assert [word["state"] for word in newest["words"]["week_log"]] == ["started", "done"]


def test_nothing_told_is_nothing_backed_up(index: Path) -> None:
    """Without words no folder is made, and without new words no file."""
    with telling.telling(index, print, create=True):
        pass
    assert not backup_folder(index).exists()
    tell(index, "started")
    with telling.telling(index, print):
        pass
    assert len(backups(index)) == 1


def test_a_word_that_fails_leaves_nothing(index: Path) -> None:
    """All that was told in one go is undone together, and no backup is made."""
    tell(index, "started")

    def tell_half() -> None:
        with telling.telling(index, print) as connection:
            tell_week(connection, MONDAY, "done")
            raise WordError("no")

    with pytest.raises(WordError):
        tell_half()
    assert state_in(index) == "started"
    assert len(backups(index)) == 1


def test_a_backup_that_cannot_be_written_is_a_warning(index: Path) -> None:
    """The word is safe in the index; the line names the folder, the reason and the way out."""
    open_for_writing(index, create=True).close()
    backup_folder(index).write_text("a file in its place")
    warnings: list[str] = []
    tell(index, "done", warnings)
    assert state_in(index) == "done"
    (line,) = warnings
    assert str(backup_folder(index)) in line
    assert "weeksheaf backup FILE" in line
    assert "\n" not in line


def test_a_full_disk_for_the_backup_is_a_warning(index: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No half file is left under a final name."""

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("indexer.store.backup.os.fsync", full)
    warnings: list[str] = []
    tell(index, "done", warnings)
    assert "No space left" in warnings[0]
    assert (state_in(index), backups(index)) == ("done", [])


def test_a_locked_index_is_a_known_error_and_no_word(index: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A program that holds the index for longer than a word waits: one line, and nothing is half told."""
    tell(index, "started")
    monkeypatch.setattr(opening, "connect", partial(opening.connect, wait_seconds=0.05))
    with closing(sqlite3.connect(index, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(IndexFileError, match="in use"):
            tell(index, "done")
        other.execute("ROLLBACK")
    assert state_in(index) == "started"
    tell(index, "done")
    assert state_in(index) == "done"


def test_a_statement_that_fails_is_a_known_error(index: Path) -> None:
    """What SQLite says about a word is turned into one line that names the index."""
    with pytest.raises(IndexFileError) as caught:
        tell(index, "no such state")
    assert str(index) in str(caught.value)


def test_words_need_an_index(index: Path) -> None:
    """Unless it may be created."""
    with pytest.raises(NoIndexError), telling.telling(index, print):
        raise AssertionError("told into nothing")
    assert not index.parent.exists()


def test_an_index_that_was_only_read_can_be_backed_up(index: Path) -> None:
    """The step by itself is for runs that told a word of their own: a succession."""
    with closing(open_for_writing(index, create=True)) as connection:
        tell_week(connection, MONDAY, "done")
        back_up(connection, index, print)
    assert len(backups(index)) == 1
