"""Opening the index: for reading, for writing, brought up to the newest shape first."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import files
from pathlib import Path
from urllib.parse import quote
from uuid import uuid4

from indexer.errors import IndexFileError, NoIndexError

#: "WSHF" in `PRAGMA application_id`.
APPLICATION_ID = 1465075782
#: The first with STRICT tables.
SMALLEST_SQLITE = (3, 37)
#: How long a statement waits for another run to let go of the index.
BUSY_SECONDS = 5.0


def migrations() -> list[tuple[int, str]]:
    """(number, SQL script) of every migration, in order. The number is the name's first four digits."""
    scripts = (item for item in files("indexer.store").joinpath("migrations").iterdir() if item.name.endswith(".sql"))
    return sorted((int(item.name[:4]), item.read_text("utf-8")) for item in scripts)


#: The shape that this version of the tool reads and writes; a test holds it against the migrations' numbers.
NEWEST_SHAPE = 5


def open_for_reading(path: Path) -> sqlite3.Connection:
    """A connection that cannot write. Raises NoIndexError, IndexFileError."""
    _refuse_absent(path)
    _refuse_folder(path)
    if path.stat().st_size == 0:
        raise IndexFileError(f"{path} is empty and no index; make one with: weeksheaf index FOLDER")
    with explained(path):
        connection, shape = _open(_reading_address(path), path)
        if shape < NEWEST_SHAPE:
            connection.close()
            open_for_writing(path).close()
            connection = connect(_reading_address(path))
        connection.execute("PRAGMA query_only = ON")
        return connection


def open_for_writing(path: Path, *, create: bool = False) -> sqlite3.Connection:
    """A connection in the newest shape; with `create`, makes the file and its folder where they are missing.

    The caller begins and ends its own transactions. Raises NoIndexError, IndexFileError.
    """
    if not create:
        _refuse_absent(path)
    _refuse_folder(path)
    with explained(path):
        make_folder_for(path)
        connection, shape = _open(address(path), path)
        try:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA foreign_keys = ON")
            _bring_up(connection, shape)
        except BaseException:
            connection.close()
            raise
        return connection


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[sqlite3.Connection]:
    """All or nothing: commits at the end, rolls back when anything is raised."""
    try:
        connection.execute("BEGIN IMMEDIATE")  # inside: an interrupt may fall between it and the next line
        yield connection
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:  # SQLite undoes some by itself, as on a full disk
            connection.execute("ROLLBACK")
        raise


@contextmanager
def explained(path: Path) -> Iterator[None]:
    """Turn what SQLite says about the index file into one line a person can act on."""
    try:
        yield
    except sqlite3.Error as error:
        raise IndexFileError(explanation(path, error)) from error


def _refuse_folder(path: Path) -> None:
    if os.path.isdir(path):  # noqa: PTH112 - False, and no error, for a name that the system cannot take
        raise IndexFileError(f"{path} is a folder; name a file for the index: --index {path / 'index.db'}")


def make_folder_for(path: Path) -> None:
    """Make the folder that the index is to lie in. Raises IndexFileError."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise IndexFileError(
            f"the folder of the index {path} cannot be made ({error.strerror}); choose another place with --index FILE"
        ) from error


def explanation(path: Path, error: sqlite3.Error) -> str:
    """One line that names the index and the way out."""
    name = getattr(error, "sqlite_errorname", "")
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return f"the index {path} is in use by another run; wait until it is done, then try again"
    if name == "SQLITE_FULL":
        return f"the disk that holds the index {path} is full; make room there, then run the same command again"
    if name == "SQLITE_NOTADB":
        return f"{path} is not an index (it is another kind of file, left untouched); choose another with --index FILE"
    if name.startswith("SQLITE_CORRUPT"):
        return (
            f"the index {path} is damaged; move it away, run weeksheaf index again, and bring your words back with:"
            f" weeksheaf restore FILE (the newest file in {backup_folder(path)})"
        )
    if name.startswith(("SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_IOERR")):
        return f"the index {path} cannot be opened or written ({error}); check the folder, or choose one with --index"
    return f"the index {path} cannot be used ({error}); choose another with --index FILE"


def backup_folder(path: Path) -> Path:
    """Where the backups made unasked lie: beside the index."""
    return path.with_name(path.name + "-backups")


def connect(uri: str, wait_seconds: float = BUSY_SECONDS) -> sqlite3.Connection:
    """A connection that begins no transactions by itself. Raises IndexFileError where SQLite is too old for the
    index."""
    if sqlite3.sqlite_version_info < SMALLEST_SQLITE:
        raise IndexFileError(
            f"this Python carries SQLite {sqlite3.sqlite_version}, and the index needs"
            f" {'.'.join(map(str, SMALLEST_SQLITE))} or newer; use a newer Python"
        )
    connection = sqlite3.connect(uri, uri=True, timeout=wait_seconds, isolation_level=None)
    connection.row_factory = sqlite3.Row
    return connection


def address(path: Path) -> str:
    """The path as a `file:` URI with an empty authority, which a drive letter and a network share both need."""
    quoted = quote(os.fsencode(path.absolute()).replace(os.fsencode(os.sep), b"/"), safe="/:")
    return f"file://{quoted}" if quoted.startswith("/") else f"file:///{quoted}"


def _reading_address(path: Path) -> str:
    """A plain read-only open of a WAL database fails in an unwritable folder; `immutable` is right there as long as
    nobody has left a -wal file, which would hold part of the truth."""
    unwritable = not os.access(path.parent, os.W_OK)
    if unwritable and not path.with_name(path.name + "-wal").exists():
        return f"{address(path)}?immutable=1"
    return f"{address(path)}?mode=rw" if not unwritable else f"{address(path)}?mode=ro"


def _refuse_absent(path: Path) -> None:
    if not os.path.exists(path):  # noqa: PTH110 - Path.exists raises for a name that is too long
        raise NoIndexError(
            f"there is no index at {path}; make one with: weeksheaf index FOLDER (a folder that holds photos)"
        )


def _open(address: str, path: Path) -> tuple[sqlite3.Connection, int]:
    """A connection and the shape's number; one to a file of another kind is closed: nothing stays beside it."""
    connection = connect(address)
    try:
        return connection, _checked_shape(connection, path)
    except BaseException:
        connection.close()
        raise


def _checked_shape(connection: sqlite3.Connection, path: Path) -> int:
    """The shape's number, 0 for an empty file. Raises IndexFileError for anything that is not an index of ours."""
    shape, mark, tables = connection.execute(_SHAPE).fetchone()  # at one moment: another process may be making it
    if path.stat().st_size == 1:  # which SQLite takes for an empty file
        raise IndexFileError(f"{path} is not an index, left untouched; choose another with --index FILE")
    if mark != APPLICATION_ID and (tables or mark):
        raise IndexFileError(
            f"{path} is a database of another program, left untouched; choose another with --index FILE"
        )
    if shape > NEWEST_SHAPE:
        raise IndexFileError(
            f"the index {path} was made by a newer version of weeksheaf (shape {shape}, this one knows {NEWEST_SHAPE});"
            " update weeksheaf, or choose another with --index FILE"
        )
    return int(shape)


_SHAPE = (
    "SELECT user_version, application_id, (SELECT count(*) FROM sqlite_schema)"
    " FROM pragma_user_version, pragma_application_id"
)


def _bring_up(connection: sqlite3.Connection, shape: int) -> None:
    if shape < NEWEST_SHAPE:
        for number, script in migrations():
            if number > shape:
                _migrate(connection, number, script)
    if connection.execute("SELECT 1 FROM about WHERE name = 'index_id'").fetchone() is None:
        connection.execute("INSERT INTO about VALUES ('index_id', ?) ON CONFLICT (name) DO NOTHING", (uuid4().hex,))


def _migrate(connection: sqlite3.Connection, number: int, script: str) -> None:
    try:
        connection.executescript(script)
    except sqlite3.OperationalError:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        if connection.execute(_SHAPE).fetchone()[0] < number:  # else another process was first
            raise
