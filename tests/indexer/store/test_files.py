"""The rows read off files."""

# ruff: noqa: PTH100, PTH118 - the store's paths are plain strings and bytes

import os
import sqlite3
from collections.abc import Callable
from dataclasses import replace

import pytest

from indexer.facts.changes import KnownFile
from indexer.facts.records import Camera, Claim, Failure, FileReading
from indexer.store.files import (
    FileRow,
    digest_of,
    is_present,
    known_digest,
    known_files,
    mark_missing,
    mark_returned,
    save,
)
from indexer.store.library_folders import place_of
from indexer.store.opening import transaction

SOUND = Claim("exif original", "2026:03:30 09:15:20", "2026-03-30T09:15:20", "second", "25", 120)
FILE_TIME = Claim("file time", "2026-05-01T22:30:00 UTC", "2026-05-01T22:30:00", "second", is_utc=True, is_arrival=True)
SHUT = FileReading("unreadable", failures=(Failure("open", "Permission denied"),))
KEY = "a" * 32

Reading = Callable[..., FileReading]


@pytest.fixture
def folder(connection: sqlite3.Connection) -> int:
    """A library folder to save into."""
    with transaction(connection):
        return place_of(connection, os.path.abspath("/library")).folder.id


def keep(connection: sqlite3.Connection, folder: int, path: bytes, reading: FileReading, **values: object) -> FileRow:
    row = replace(FileRow(None, folder, path, 1000, 5, 1, reading), **values)
    with transaction(connection):
        save(connection, [row])
    return row


def below(path: str) -> bytes:
    return os.fsencode(path.replace("/", os.sep))


def test_a_photo_is_known_as_it_was_saved(connection: sqlite3.Connection, folder: int, photo_reading: Reading) -> None:
    """Path, size, time, kind, key and reader come back as the decision needs them."""
    values = {"size": 7, "mtime_ns": -5, "reader_version": 3, "sidecar": "a.xmp 1 2"}
    keep(connection, folder, below("2026/a.jpg"), photo_reading(KEY, SOUND), **values)
    (row,) = known_files(connection, folder)
    assert row == KnownFile(
        row.id, folder, below("2026/a.jpg"), 7, -5, "photo", KEY, 3, False, False, False, "a.xmp 1 2"
    )


def test_names_that_are_no_text_are_kept(connection: sqlite3.Connection, folder: int, photo_reading: Reading) -> None:
    """The path is kept as bytes; the claim of such a name as text that any tool can show."""
    path = b"\xff\n.jpg"
    claim = Claim("file name", os.fsdecode(path) + "\ud800", "2026-01-05", "day")
    keep(connection, folder, path, photo_reading(KEY, claim))
    assert known_files(connection, folder)[0].path == path
    text = connection.execute("SELECT text FROM evidence").fetchone()[0]
    assert text.encode().decode() == text


@pytest.mark.parametrize(
    ("failures", "has_failed", "was_shut"),
    [
        ((), False, False),
        ((Failure("open", "Permission denied"),), True, True),
        ((Failure("header", "empty"),), True, False),
        ((Failure("metadata", "damaged"), Failure("pixels", "cut off")), True, False),
    ],
)
def test_what_failed_is_known(
    failures: tuple[Failure, ...], has_failed: bool, was_shut: bool, connection: sqlite3.Connection, folder: int
) -> None:
    """A file that could not be opened is told from one whose content failed."""
    keep(connection, folder, b"a.jpg", FileReading("unreadable", failures=failures))
    (row,) = known_files(connection, folder)
    assert (row.has_failed, row.was_shut) == (has_failed, was_shut)


def test_one_step_failing_twice_is_one_row(connection: sqlite3.Connection, folder: int) -> None:
    """The first reason stands."""
    keep(connection, folder, b"a", FileReading("unreadable", failures=(Failure("header", "x"), Failure("header", "y"))))
    assert [tuple(row) for row in connection.execute("SELECT step, reason FROM failure")] == [("header", "x")]


def test_the_files_below_a_folder_are_those_in_it(connection: sqlite3.Connection, folder: int) -> None:
    """Not those whose names begin alike, and a name with wildcards of SQL is a name."""
    paths = ["2025/a.jpg", "2025/trip/b.jpg", "2025-old/c.jpg", "2025.jpg", "%/d.jpg", "_025/e.jpg"]
    for path in paths:
        keep(connection, folder, below(path), FileReading("other"))
    assert {row.path for row in known_files(connection, folder, "2025")} == {below(paths[0]), below(paths[1])}
    assert {row.path for row in known_files(connection, folder, os.path.join("2025", "trip"))} == {below(paths[1])}
    assert {row.path for row in known_files(connection, folder, "%")} == {below("%/d.jpg")}
    assert len(known_files(connection, folder)) == len(paths)


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such names")
def test_a_folder_whose_name_is_no_text_has_its_files(connection: sqlite3.Connection, folder: int) -> None:
    """Folder names are bytes too."""
    keep(connection, folder, b"\xfe\xff/a.jpg", FileReading("other"))
    keep(connection, folder, b"\xfe/b.jpg", FileReading("other"))
    assert [row.path for row in known_files(connection, folder, os.fsdecode(b"\xfe\xff"))] == [b"\xfe\xff/a.jpg"]


def test_reading_again_replaces_what_was_read(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """Claims and failures of before are gone, the row and its number stay."""
    keep(connection, folder, b"a.jpg", replace(photo_reading(KEY, SOUND), failures=(Failure("pixels", "cut off"),)))
    (row,) = known_files(connection, folder)
    keep(connection, folder, b"b.jpg", photo_reading("b" * 32, FILE_TIME), id=row.id, size=9)
    (again,) = known_files(connection, folder)
    assert (again.id, again.path, again.key, again.size, again.has_failed) == (row.id, b"b.jpg", "b" * 32, 9, False)
    assert [source for (source,) in connection.execute("SELECT source FROM evidence")] == ["file time"]


def test_a_file_that_is_no_photo_any_more_keeps_no_facts(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """Neither key nor size nor camera of the photo that lay there."""
    keep(connection, folder, b"a.jpg", photo_reading(KEY, SOUND, camera=Camera("Gull", "Skerry 3")))
    (row,) = known_files(connection, folder)
    keep(connection, folder, b"a.jpg", FileReading("other"), id=row.id)
    facts = connection.execute("SELECT kind, key, stored_width, make, format FROM file").fetchone()
    assert tuple(facts) == ("other", None, None, None, None)
    assert connection.execute("SELECT count(*) FROM evidence").fetchone()[0] == 0


def test_a_missing_file_keeps_its_row(connection: sqlite3.Connection, folder: int, photo_reading: Reading) -> None:
    """Absence is a mark, not a deletion; what comes back, or is read again, is there again."""
    keep(connection, folder, b"a.jpg", photo_reading(KEY, SOUND))
    (row,) = known_files(connection, folder)
    assert is_present(connection, KEY)
    mark_missing(connection, [row.id], "2026-06-01T00:00:00.000000Z")
    assert known_files(connection, folder)[0].is_missing
    assert not is_present(connection, KEY)
    mark_returned(connection, [row.id])
    assert is_present(connection, KEY)
    mark_missing(connection, [row.id], "2026-06-01T00:00:00.000000Z")
    keep(connection, folder, b"a.jpg", photo_reading(KEY, SOUND), id=row.id)
    assert is_present(connection, KEY)


def test_the_digest_tells_a_touched_file_from_a_changed_one(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """The file's own time takes no part in it; all else that was read does."""
    plain = photo_reading(KEY, SOUND, FILE_TIME)
    keep(connection, folder, b"a.jpg", plain)
    (row,) = known_files(connection, folder)
    assert known_digest(connection, row.id) == digest_of(plain)
    touched = photo_reading(KEY, SOUND, replace(FILE_TIME, when="2020-01-01T00:00:00"))
    assert digest_of(touched) == digest_of(plain)
    others = [
        photo_reading("b" * 32, SOUND, FILE_TIME),
        photo_reading(KEY, replace(SOUND, when="2026-03-31T09:15:20"), FILE_TIME),
        photo_reading(KEY, FILE_TIME),
        photo_reading(KEY, SOUND, FILE_TIME, orientation=6),
        photo_reading(KEY, SOUND, FILE_TIME, camera=Camera("Gull")),
        photo_reading(KEY, SOUND, FILE_TIME, latitude=1.0),
        photo_reading(KEY, SOUND, FILE_TIME, stored_width=41),
        replace(plain, failures=(Failure("pixels", "cut off"),)),
        FileReading("other"),
    ]
    assert len({digest_of(reading) for reading in (plain, *others)}) == len(others) + 1


def test_a_name_that_is_no_text_has_a_digest(photo_reading: Reading) -> None:
    """Half a surrogate pair, as Python writes such names, does not break it."""
    assert digest_of(photo_reading(KEY, Claim("file name", "\udcff", None)))


def test_the_view_of_unreadable_files_shows_those_that_are_there(connection: sqlite3.Connection, folder: int) -> None:
    """A file that is missing is no trouble any more."""
    keep(connection, folder, b"a.jpg", SHUT)
    assert tuple(connection.execute("SELECT path, step, reason FROM unreadable").fetchone()) == (
        b"a.jpg",
        "open",
        "Permission denied",
    )
    mark_missing(connection, [known_files(connection, folder)[0].id], "2026-06-01T00:00:00.000000Z")
    assert connection.execute("SELECT * FROM unreadable").fetchone() is None
