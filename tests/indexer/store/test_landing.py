"""Where readings land."""

# ruff: noqa: PTH100 - the store's paths are plain strings and bytes

import os
import sqlite3
from collections.abc import Callable
from datetime import date

import pytest

from indexer.facts.changes import KnownFile
from indexer.facts.records import Claim, Failure, FileReading
from indexer.store import landing as landing_module
from indexer.store.files import FileRow, known_files
from indexer.store.landing import Landing
from indexer.store.library_folders import place_of
from indexer.store.opening import transaction

TODAY, NOW = date(2026, 6, 1), "2026-06-01T12:00:00.000000Z"
KEY, OTHER = "a" * 32, "b" * 32

Reading = Callable[..., FileReading]


@pytest.fixture
def folder(connection: sqlite3.Connection) -> int:
    with transaction(connection):
        return place_of(connection, os.path.abspath("/library")).folder.id


def known(connection: sqlite3.Connection, folder: int) -> dict[bytes, KnownFile]:
    return {row.path: row for row in known_files(connection, folder)}


def row_of(folder: int, path: bytes, reading: FileReading, known_row: KnownFile | None = None) -> FileRow:
    return FileRow(known_row.id if known_row else None, folder, path, 1, 1, 1, reading)


def settle_first_run(connection: sqlite3.Connection, folder: int, **readings: FileReading) -> dict[bytes, KnownFile]:
    """A run in which these files were new; gives the rows by path."""
    first = Landing(connection, [], TODAY)
    for name, reading in readings.items():
        first.add(row_of(folder, name.encode(), reading), None)
    first.write()
    first.settle([], [], NOW)
    return known(connection, folder)


def successions(connection: sqlite3.Connection) -> list[tuple[str, str]]:
    return [tuple(row) for row in connection.execute("SELECT old_key, new_key FROM succession")]


def photos(connection: sqlite3.Connection) -> list[str]:
    return [key for (key,) in connection.execute("SELECT key FROM photo WHERE present ORDER BY key")]


def test_readings_are_counted_by_what_became_of_them(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading, taken_claim: Claim
) -> None:
    """New, changed, unchanged, other and unreadable; a photo with a failed step is both a photo and unreadable."""
    rows = settle_first_run(
        connection,
        folder,
        a=photo_reading(KEY),
        b=photo_reading(OTHER),
        c=photo_reading("c" * 32),
        d=FileReading("other"),
    )
    landing = Landing(connection, [], TODAY)
    landing.add(row_of(folder, b"a", photo_reading(KEY), rows[b"a"]), rows[b"a"])
    landing.add(row_of(folder, b"b", photo_reading(OTHER, taken_claim), rows[b"b"]), rows[b"b"])
    landing.add(row_of(folder, b"d", photo_reading("d" * 32), rows[b"d"]), rows[b"d"])
    landing.add(row_of(folder, b"e", FileReading("other")), None)
    landing.add(row_of(folder, b"f", FileReading("unreadable", failures=(Failure("header", "empty"),))), None)
    cut = photo_reading("e" * 32)
    landing.add(row_of(folder, b"g", FileReading("photo", cut.facts, (Failure("pixels", "cut off"),))), None)
    landing.write()
    assert landing.counts == {"unchanged": 1, "changed": 1, "new": 2, "other": 1, "unreadable": 2}


def test_a_new_file_with_a_lost_picture_is_the_lost_file_moved(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """It takes over the row, so that no row is left behind; only one file can."""
    rows = settle_first_run(connection, folder, old=photo_reading(KEY))
    landing = Landing(connection, [rows[b"old"]], TODAY)
    landing.add(row_of(folder, b"new", photo_reading(KEY)), None)
    landing.add(row_of(folder, b"copy", photo_reading(KEY)), None)
    landing.add(row_of(folder, b"else", photo_reading(OTHER)), None)
    landing.write()
    assert landing.counts == {"moved": 1, "new": 2}
    assert landing.not_moved([rows[b"old"]]) == []
    assert landing.settle([rows[b"old"]], [], NOW) == 0
    now = known(connection, folder)
    assert set(now) == {b"new", b"copy", b"else"}
    assert now[b"new"].id == rows[b"old"].id
    assert not any(row.is_missing for row in now.values())


def test_a_lost_file_without_a_picture_is_nobodys_source(connection: sqlite3.Connection, folder: int) -> None:
    """Files that are no photos have no key to know them by."""
    rows = settle_first_run(connection, folder, notes=FileReading("other"))
    landing = Landing(connection, [rows[b"notes"]], TODAY)
    landing.add(row_of(folder, b"renamed", FileReading("other")), None)
    landing.write()
    landing.settle([rows[b"notes"]], [], NOW)
    now = known(connection, folder)
    assert (now[b"notes"].is_missing, now[b"renamed"].is_missing) == (True, False)


def test_missing_photos_are_counted_and_not_files(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """A photo that still lies in another place is not missing; one that is gone from two places is one."""
    rows = settle_first_run(
        connection, folder, a=photo_reading(KEY), b=photo_reading(KEY), c=photo_reading(OTHER), d=photo_reading(OTHER)
    )
    gone = [rows[b"a"], rows[b"c"], rows[b"d"]]
    assert Landing(connection, gone, TODAY).settle(gone, [], NOW) == 1
    assert photos(connection) == [KEY]
    assert (
        connection.execute("SELECT DISTINCT missing_since FROM file WHERE missing_since NOTNULL").fetchall()[0][0]
        == NOW
    )


def test_a_returned_file_makes_its_photo_present(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """Unread, by its mark alone."""
    rows = settle_first_run(connection, folder, a=photo_reading(KEY))
    Landing(connection, [], TODAY).settle([rows[b"a"]], [], NOW)
    assert photos(connection) == []
    Landing(connection, [], TODAY).settle([], [known(connection, folder)[b"a"]], NOW)
    assert photos(connection) == [KEY]


def test_a_picture_saved_over_is_a_succession(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """The word says which key came after which, and the old photo has no row any more."""
    rows = settle_first_run(connection, folder, a=photo_reading(KEY))
    landing = Landing(connection, [], TODAY)
    landing.add(row_of(folder, b"a", photo_reading(OTHER), rows[b"a"]), rows[b"a"])
    landing.write()
    landing.settle([], [], NOW)
    assert landing.counts == {"changed": 1}
    assert successions(connection) == [(KEY, OTHER)]
    assert photos(connection) == [OTHER]


def test_a_run_stopped_before_its_end_tells_no_half_story(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """A picture saved over is not written down without its word: the next run sees the change again, and tells it."""
    rows = settle_first_run(connection, folder, a=photo_reading(KEY))
    stopped = Landing(connection, [], TODAY)
    stopped.add(row_of(folder, b"a", photo_reading(OTHER), rows[b"a"]), rows[b"a"])
    stopped.write()
    again = known(connection, folder)[b"a"]
    landing = Landing(connection, [], TODAY)
    landing.add(row_of(folder, b"a", photo_reading(OTHER), again), again)
    landing.write()
    landing.settle([], [], NOW)
    assert successions(connection) == [(KEY, OTHER)]


@pytest.mark.parametrize("written_between", [True, False])
def test_files_that_changed_names_are_no_succession(
    written_between: bool, connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """Halfway it looks like one, in one batch or in two."""
    rows = settle_first_run(connection, folder, a=photo_reading(KEY), b=photo_reading(OTHER))
    landing = Landing(connection, [], TODAY)
    landing.add(row_of(folder, b"a", photo_reading(OTHER), rows[b"a"]), rows[b"a"])
    if written_between:
        landing.write()
    landing.add(row_of(folder, b"b", photo_reading(KEY), rows[b"b"]), rows[b"b"])
    landing.write()
    landing.settle([], [], NOW)
    assert successions(connection) == []
    assert photos(connection) == [KEY, OTHER]


def test_a_picture_that_lies_elsewhere_is_not_succeeded(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """The original was kept beside the edited one."""
    rows = settle_first_run(connection, folder, a=photo_reading(KEY))
    landing = Landing(connection, [], TODAY)
    landing.add(row_of(folder, b"a", photo_reading(OTHER), rows[b"a"]), rows[b"a"])
    landing.add(row_of(folder, b"a-original", photo_reading(KEY)), None)
    landing.write()
    landing.settle([], [], NOW)
    assert successions(connection) == []


def test_a_copy_that_is_gone_does_not_hide_a_succession(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading
) -> None:
    """The old picture is found nowhere, though a missing file once showed it too."""
    rows = settle_first_run(connection, folder, a=photo_reading(KEY), copy=photo_reading(KEY))
    landing = Landing(connection, [rows[b"copy"]], TODAY)
    landing.add(row_of(folder, b"a", photo_reading(OTHER), rows[b"a"]), rows[b"a"])
    landing.write()
    landing.settle([rows[b"copy"]], [], NOW)
    assert successions(connection) == [(KEY, OTHER)]


def test_a_batch_that_fails_stays_in_hand(
    connection: sqlite3.Connection, folder: int, photo_reading: Reading, monkeypatch: pytest.MonkeyPatch
) -> None:
    """All of it is undone, and all of it is written the next time, counted once."""
    landing = Landing(connection, [], TODAY)
    landing.add(row_of(folder, b"a", photo_reading(KEY)), None)
    landing.add(row_of(folder, b"b", photo_reading(OTHER)), None)

    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(landing_module, "judge", interrupt)
        with pytest.raises(KeyboardInterrupt):
            landing.write()
    assert (known(connection, folder), landing.counts) == ({}, {})
    landing.write()
    landing.write()
    assert (sorted(known(connection, folder)), landing.counts) == ([b"a", b"b"], {"new": 2})
