"""Opening the index: what it is, what shape it has, and what stands in the way."""

# ruff: noqa: PT012 - what is done in a transaction is what raises

import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from indexer.errors import IndexFileError
from indexer.store import opening
from indexer.store.backup import write_backup
from indexer.store.opening import (
    NEWEST_SHAPE,
    address,
    connect,
    explained,
    migrations,
    open_for_reading,
    open_for_writing,
    transaction,
)

INSERT_SETTING = "INSERT INTO setting_log VALUES (?, '2026-01-01T00:00:00.000000Z', 'week.min_days', '1')"


def listing(folder: Path) -> dict[str, bytes]:
    return {item.name: item.read_bytes() for item in folder.iterdir()}


@pytest.fixture
def unwritable(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every folder counts as unwritable: no permission stops an administrator, so the question is answered for us."""
    monkeypatch.setattr(opening.os, "access", lambda *_: False)


@pytest.mark.parametrize(
    "name", ["a b.db", "50%.db", "\udcff.db", "100%41.db", "what?.db", "#1.db", "é😀.db", "a;b&c=d.db"]
)
def test_any_name_is_the_name_of_the_file(name: str, tmp_path: Path) -> None:
    """The address that SQLite is given does not read a name as anything else."""
    if (os.name == "nt" and "?" in name) or (sys.platform != "linux" and "\udcff" in name):
        pytest.skip("this system allows no such name")
    open_for_writing(tmp_path / name, create=True).close()
    open_for_reading(tmp_path / name).close()
    assert {item.name for item in tmp_path.iterdir()} == {name}


def test_a_path_is_looked_up_from_the_present_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A relative path works like an absolute one."""
    monkeypatch.chdir(tmp_path)
    open_for_writing(Path("index.db"), create=True).close()
    assert (tmp_path / "index.db").is_file()


def test_an_index_is_brought_up_before_it_is_read(made: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A newer tool reads an older index in its own shape, and what was told is still there."""
    with closing(open_for_writing(made)) as writer:
        writer.execute(INSERT_SETTING, ("u",))
    number = NEWEST_SHAPE + 1
    script = f"BEGIN; CREATE TABLE extra (x); PRAGMA user_version = {number}; COMMIT;"
    monkeypatch.setattr(opening, "NEWEST_SHAPE", number)
    monkeypatch.setattr(opening, "migrations", lambda: [*migrations(), (number, script)])
    with closing(open_for_reading(made)) as reader:
        assert reader.execute("SELECT count(*) FROM extra").fetchone()[0] == 0
        assert reader.execute("SELECT value FROM setting").fetchone()[0] == "1"
        with pytest.raises(sqlite3.OperationalError, match="readonly"):
            reader.execute("DELETE FROM extra")


def test_migrations_are_numbered_without_a_gap() -> None:
    """The newest shape is the number of the last migration."""
    assert [number for number, _ in migrations()] == list(range(1, NEWEST_SHAPE + 1))


@pytest.mark.parametrize("number", range(1, NEWEST_SHAPE + 1))
def test_a_migration_lands_with_its_number_or_not_at_all(number: int) -> None:
    """Broken off at its last statement it leaves neither tables nor number; whole, it leaves both."""
    scripts = dict(migrations())
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as database:
        for earlier in range(1, number):
            database.executescript(scripts[earlier])
        before = list(database.iterdump())
        body, commit, rest = scripts[number].rpartition("COMMIT;")
        assert commit
        assert not rest.strip()
        with pytest.raises(sqlite3.OperationalError):
            database.executescript(f"{body} SELECT broken_off(); COMMIT;")
        database.execute("ROLLBACK")
        assert database.execute("PRAGMA user_version").fetchone()[0] == number - 1
        assert list(database.iterdump()) == before
        database.executescript(scripts[number])
        assert database.execute("PRAGMA user_version").fetchone()[0] == number


def test_an_index_whose_making_broke_off_gets_its_identity_later(
    index: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The tables may be there without the id that backups are named by; the next opening makes up for it."""
    with monkeypatch.context() as patch:
        patch.setattr(opening, "uuid4", lambda: (_ for _ in ()).throw(KeyboardInterrupt))
        with pytest.raises(KeyboardInterrupt):
            open_for_writing(index, create=True)
    with closing(open_for_writing(index)) as connection:
        write_backup(connection, tmp_path / "words.json")
        first = connection.execute("SELECT value FROM about").fetchone()[0]
    with closing(open_for_writing(index)) as connection:
        assert connection.execute("SELECT value FROM about").fetchone()[0] == first


def test_an_index_that_another_process_made_first_is_taken_as_it_is(
    made: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two first commands at once: the one that comes second goes on with what the first has made."""
    with closing(open_for_writing(made)) as writer:
        writer.execute(INSERT_SETTING, ("u",))
    monkeypatch.setattr(opening, "_checked_shape", lambda *_: 0)  # as it was a moment before
    with closing(open_for_writing(made)) as connection:
        assert not connection.in_transaction
        assert connection.execute("SELECT value FROM setting").fetchone()[0] == "1"


def test_a_migration_that_fails_is_an_error(made: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The index stays in its shape, and the next version may try again."""
    number = NEWEST_SHAPE + 1
    script = f"BEGIN; CREATE TABLE extra (x); SELECT broken(); PRAGMA user_version = {number}; COMMIT;"
    with monkeypatch.context() as patch:
        patch.setattr(opening, "NEWEST_SHAPE", number)
        patch.setattr(opening, "migrations", lambda: [*migrations(), (number, script)])
        with pytest.raises(IndexFileError, match="broken"):
            open_for_writing(made)
    with closing(open_for_reading(made)) as connection:
        assert connection.execute("PRAGMA user_version").fetchone()[0] == NEWEST_SHAPE


def views_of(connection: sqlite3.Connection) -> list[str]:
    return [name for (name,) in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'view'")]


def test_any_sqlite_tool_can_read_the_index(made: Path) -> None:
    """Every view and table opens in a bare connection: none uses a function of ours."""
    with closing(sqlite3.connect(made)) as bare:
        names = views_of(bare)
        assert {"photo", "photo_file", "week_state", "setting", "unreadable"} <= set(names)
        for name in names:
            bare.execute(f"SELECT * FROM {name}").fetchall()
        assert bare.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        bare.execute("REINDEX")


@pytest.mark.skipif(not shutil.which("sqlite3"), reason="SQLite's own command line is not installed")
def test_sqlites_own_command_line_can_read_the_index(made: Path) -> None:
    """The same with the sqlite3 program, a reader of another build."""
    with closing(sqlite3.connect(made)) as bare:
        statements = [f"SELECT count(*) FROM {name};" for name in views_of(bare)]
    done = subprocess.run(["sqlite3", "-bail", os.fspath(made), *statements], capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.split() == ["0"] * len(statements)


@pytest.mark.parametrize(
    "statement",
    ["DELETE FROM week_log", "CREATE TABLE x (y)", "UPDATE about SET value = ''", "DROP VIEW photo", "VACUUM"],
)
def test_a_reader_cannot_write(statement: str, made: Path) -> None:
    """Every kind of writing is refused."""
    with closing(open_for_reading(made)) as reader, pytest.raises(sqlite3.OperationalError):
        reader.execute(statement)


def test_a_reader_sees_what_was_told_meanwhile(made: Path) -> None:
    """A reader that is open sees the next word, and does not stand in the writer's way."""
    with closing(open_for_reading(made)) as reader, closing(open_for_writing(made)) as writer:
        with transaction(writer):
            writer.execute(INSERT_SETTING, ("u",))
            assert reader.execute("SELECT count(*) FROM setting").fetchone()[0] == 0
        assert reader.execute("SELECT count(*) FROM setting").fetchone()[0] == 1


@pytest.mark.usefixtures("unwritable")
def test_an_index_in_an_unwritable_folder_can_be_read(made: Path) -> None:
    """It is opened as a file that nobody changes, so that nothing has to be made beside it."""
    before = listing(made.parent)
    with closing(open_for_reading(made)) as reader:
        assert reader.execute("SELECT count(*) FROM photo").fetchone()[0] == 0
        assert listing(made.parent) == before


@pytest.mark.usefixtures("unwritable")
def test_words_still_in_the_log_file_are_not_overlooked(made: Path) -> None:
    """With a -wal file beside it, which holds part of the truth, the index is not read as one that nobody changes."""
    with closing(open_for_writing(made)) as writer:
        writer.execute(INSERT_SETTING, ("u",))
        assert made.with_name("index.db-wal").stat().st_size
        with closing(open_for_reading(made)) as reader:
            assert reader.execute("SELECT count(*) FROM setting").fetchone()[0] == 1


def test_an_index_locked_by_another_is_a_known_error(made: Path) -> None:
    """A writer waits for its time and then names the index and what to do."""
    with closing(open_for_writing(made)) as other, closing(connect(f"{address(made)}", 0.05)) as writer:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(IndexFileError, match="in use by another run; wait") as caught, explained(made):  # noqa: SIM117
            with transaction(writer):
                raise AssertionError("the lock was not kept")
        assert str(made) in str(caught.value)
        other.execute("ROLLBACK")
        with transaction(writer):
            writer.execute(INSERT_SETTING, ("u",))


def test_a_full_disk_undoes_the_transaction_and_says_so(made: Path) -> None:
    """What was there before is whole, and the same connection goes on once there is room."""
    with closing(open_for_writing(made)) as writer:
        pages = writer.execute("PRAGMA page_count").fetchone()[0]
        writer.execute(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(IndexFileError, match="full; make room"), explained(made), transaction(writer):
            for number in range(10_000):
                writer.execute(INSERT_SETTING, (f"{number:0100}",))
        assert writer.execute("SELECT count(*) FROM setting_log").fetchone()[0] == 0
        writer.execute("PRAGMA max_page_count = 100000")
        with transaction(writer):
            writer.execute(INSERT_SETTING, ("u",))


def test_an_exception_undoes_all(connection: sqlite3.Connection) -> None:
    """Ctrl-C too: all or nothing."""
    with pytest.raises(KeyboardInterrupt), transaction(connection):
        connection.execute(INSERT_SETTING, ("u",))
        raise KeyboardInterrupt
    assert connection.execute("SELECT count(*) FROM setting_log").fetchone()[0] == 0
    assert not connection.in_transaction


def test_a_commit_that_fails_leaves_nothing_open(connection: sqlite3.Connection) -> None:
    """The connection can begin again: here a reference that is checked at the end is broken."""
    with pytest.raises(sqlite3.IntegrityError), transaction(connection):
        connection.execute("PRAGMA defer_foreign_keys = ON")
        connection.execute("INSERT INTO week_holding VALUES ('nobody', 'key')")
    assert not connection.in_transaction
    with transaction(connection):
        connection.execute(INSERT_SETTING, ("u",))


def test_the_first_error_is_the_one_that_is_told(connection: sqlite3.Connection) -> None:
    """SQLite undoes some transactions by itself (full disk, read error); that must not hide the reason."""
    connection.execute(INSERT_SETTING, ("u",))
    with pytest.raises(sqlite3.IntegrityError), transaction(connection):
        connection.execute(INSERT_SETTING.replace("INSERT", "INSERT OR ROLLBACK"), ("u",))
    assert not connection.in_transaction
