"""One index run at a time."""

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from indexer.errors import IndexFileError
from indexer.store import run_lock
from indexer.store.opening import open_for_writing, transaction
from indexer.store.run_lock import the_only_run
from indexer.store.words import new_stamp


def test_a_second_run_is_refused(index: Path) -> None:
    """It is told at once which index is in use, and to wait."""
    with the_only_run(index), pytest.raises(IndexFileError, match=r"another run.*wait") as caught, the_only_run(index):
        raise AssertionError("two runs at once")
    assert str(index) in str(caught.value)


def test_the_next_run_may_begin_when_one_has_ended(index: Path) -> None:
    """However it ended."""
    with pytest.raises(KeyboardInterrupt), the_only_run(index):
        raise KeyboardInterrupt
    with the_only_run(index):
        pass
    with the_only_run(index):
        pass


def test_runs_into_other_indexes_do_not_matter(index: Path) -> None:
    """The lock is the index's own."""
    with the_only_run(index), the_only_run(index.with_name("other.db")):
        pass


def test_words_can_be_told_during_a_run(index: Path) -> None:
    """The lock is not on the index itself."""
    with closing(open_for_writing(index, create=True)) as connection, the_only_run(index), transaction(connection):
        assert new_stamp(connection).uuid


def test_a_run_that_was_killed_leaves_no_lock(index: Path) -> None:
    """The system lets go of it: no one has to delete a file."""
    script = (
        "import sys, pathlib, time; from indexer.store.run_lock import the_only_run\n"
        "with the_only_run(pathlib.Path(sys.argv[1])):\n    print('locked', flush=True); time.sleep(60)\n"
    )
    with subprocess.Popen([sys.executable, "-c", script, os.fspath(index)], stdout=subprocess.PIPE) as other:
        assert other.stdout
        assert other.stdout.readline().strip() == b"locked"
        with pytest.raises(IndexFileError, match="another run"), the_only_run(index):
            raise AssertionError("two processes at once")
        other.kill()
    with the_only_run(index):
        pass


def test_a_lock_file_of_another_kind_is_a_known_error(index: Path) -> None:
    """What lies in the lock's place is named and left as it is."""
    index.parent.mkdir()
    lock = index.with_name("index.db-running")
    lock.write_text("keep me")
    with pytest.raises(IndexFileError, match=r"index.db-running"), the_only_run(index):
        raise AssertionError("ran without a lock")
    assert lock.read_text() == "keep me"


def test_other_trouble_is_not_called_another_run(index: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that cannot be written is named as what it is."""

    class Unwritable:
        def execute(self, *_: object) -> None:
            error = sqlite3.OperationalError("unable to open database file")
            error.sqlite_errorname = "SQLITE_CANTOPEN"
            raise error

        def close(self) -> None:
            pass

    monkeypatch.setattr(run_lock, "connect", lambda *_, **__: Unwritable())
    with pytest.raises(IndexFileError, match="unable to open") as caught, the_only_run(index):
        raise AssertionError("ran without a lock")
    assert "another run" not in str(caught.value)
