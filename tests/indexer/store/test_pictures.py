"""One row per photo, derived from its files."""

# ruff: noqa: PTH100 - the store's paths are plain strings and bytes

import os
import sqlite3
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from indexer.dating.values import NOTHING_KNOWN, CaptureTime, PhotoSaid
from indexer.facts.codes import shortest_codes
from indexer.facts.records import Claim, FileReading
from indexer.store import files
from indexer.store.files import FileRow, known_files, mark_missing, mark_returned
from indexer.store.library_folders import place_of
from indexer.store.opening import transaction
from indexer.store.pictures import judge, judge_all, speaking_file
from indexer.store.settings import tell_setting
from tests.indexer.dating.said import file, photo_of_files

TODAY = date(2026, 6, 1)
KEY, OTHER = "a" * 32, "b" * 32
ORIGINAL = Claim("exif original", "2026:03:30 09:15:20", "2026-03-30T09:15:20", "second")
IN_UTC = Claim("file name", "PXL_20260105_020000000.jpg", "2026-01-05T02:00:00", "second", is_utc=True)
FILE_TIME = Claim("file time", "2026-05-01T22:30:00 UTC", "2026-05-01T22:30:00", "second", is_utc=True, is_arrival=True)

Reading = Callable[..., FileReading]


@pytest.fixture
def put(connection: sqlite3.Connection, photo_reading: Reading) -> Callable[..., int]:
    """Saves a photo's file and judges the photo; gives the file's number."""

    def put_file(path: str, key: str, *claims: Claim, **facts: object) -> int:
        with transaction(connection):
            folder = place_of(connection, os.path.abspath("/library")).folder
            files.save(
                connection, [FileRow(None, folder.id, path.encode(), 1, 1, 1, photo_reading(key, *claims, **facts))]
            )
            judge(connection, {key}, TODAY)
        return next(row.id for row in known_files(connection, folder.id) if row.path == path.encode())

    return put_file


def photo(connection: sqlite3.Connection, key: str = KEY) -> sqlite3.Row:
    row = connection.execute("SELECT * FROM photo WHERE key = ?", (key,)).fetchone()
    assert isinstance(row, sqlite3.Row)
    return row


def test_a_photo_is_judged_by_the_claims_of_its_file(connection: sqlite3.Connection, put: Callable[..., int]) -> None:
    """The verdict stands in the view, and points at the claim that was believed."""
    put("a.jpg", KEY, FILE_TIME, replace(ORIGINAL, fraction="25", offset_minutes=120))
    row = photo(connection)
    assert (row["taken"], row["fraction"], row["offset_minutes"]) == ("2026-03-30T09:15:20", "25", 120)
    assert (row["precision"], row["source"], row["doubtful"], row["present"]) == ("second", "exif original", 0, 1)
    believed = connection.execute("SELECT source FROM evidence WHERE id = ?", (row["evidence_id"],)).fetchone()
    assert believed["source"] == "exif original"


def test_a_photo_without_claims_has_a_row(connection: sqlite3.Connection, put: Callable[..., int]) -> None:
    """It is a photo of unknown time, and doubtful."""
    put("a.jpg", KEY)
    row = photo(connection)
    assert (row["taken"], row["precision"], row["doubtful"], row["evidence_id"]) == (None, "unknown", 1, None)


def test_two_places_are_one_photo(connection: sqlite3.Connection, put: Callable[..., int]) -> None:
    """The file with the better claim speaks, wherever the other lies."""
    put("a.jpg", KEY, FILE_TIME)
    tagged = put("b.jpg", KEY, ORIGINAL)
    assert connection.execute("SELECT count(*) FROM photo").fetchone()[0] == 1
    assert (photo(connection)["file_id"], photo(connection)["source"]) == (tagged, "exif original")


def test_a_file_that_is_there_speaks_before_one_that_is_missing(
    connection: sqlite3.Connection, put: Callable[..., int]
) -> None:
    """The missing file's claim is still believed; the place shown is one where the picture lies."""
    tagged, plain = put("a.jpg", KEY, ORIGINAL), put("b.jpg", KEY, FILE_TIME)
    with transaction(connection):
        mark_missing(connection, [tagged], "2026-06-01T00:00:00.000000Z")
        judge(connection, {KEY}, TODAY)
    row = photo(connection)
    assert (row["file_id"], row["source"], row["present"]) == (plain, "exif original", 1)


def test_equal_claims_are_told_by_a_file_that_is_there(connection: sqlite3.Connection, put: Callable[..., int]) -> None:
    """Among equals the present file's claim is the one believed."""
    first, second = put("a.jpg", KEY, ORIGINAL), put("b.jpg", KEY, replace(ORIGINAL, when="2026-03-31T09:15:20"))
    assert photo(connection)["file_id"] == first
    with transaction(connection):
        mark_missing(connection, [first], "2026-06-01T00:00:00.000000Z")
        judge(connection, {KEY}, TODAY)
    assert (photo(connection)["file_id"], photo(connection)["taken"]) == (second, "2026-03-31T09:15:20")


def test_a_photo_whose_files_are_all_missing_keeps_its_row(
    connection: sqlite3.Connection, put: Callable[..., int]
) -> None:
    """With its time and its place, not present, until it comes back."""
    file = put("a.jpg", KEY, ORIGINAL)
    with transaction(connection):
        mark_missing(connection, [file], "2026-06-01T00:00:00.000000Z")
        judge(connection, {KEY}, TODAY)
    assert (photo(connection)["present"], photo(connection)["taken"]) == (0, "2026-03-30T09:15:20")
    with transaction(connection):
        mark_returned(connection, [file])
        judge(connection, {KEY}, TODAY)
    assert photo(connection)["present"] == 1


def test_a_key_that_no_file_shows_has_no_row(
    connection: sqlite3.Connection, put: Callable[..., int], photo_reading: Reading
) -> None:
    """After its only file shows another picture."""
    file = put("a.jpg", KEY, ORIGINAL)
    with transaction(connection):
        row = known_files(connection, 1)[0]
        files.save(connection, [FileRow(file, row.folder_id, row.path, 2, 2, 1, photo_reading(OTHER, ORIGINAL))])
        judge(connection, {KEY, OTHER}, TODAY)
    assert [key for (key,) in connection.execute("SELECT key FROM photo")] == [OTHER]


def test_a_told_zone_judges_every_photo_anew(connection: sqlite3.Connection, put: Callable[..., int]) -> None:
    """In the same transaction; and back again when it is taken back. (FACTS "File names": UTC-5 makes it Sunday.)"""
    put("a.jpg", KEY, IN_UTC)
    assert photo(connection)["doubtful"] == 1
    with transaction(connection):
        tell_setting(connection, "home.timezone", "America/New_York", TODAY)
        row = photo(connection)
        assert (row["taken"], row["offset_minutes"], row["doubtful"]) == ("2026-01-04T21:00:00", -300, 0)
    with transaction(connection):
        tell_setting(connection, "home.timezone", None, TODAY)
        assert photo(connection)["doubtful"] == 1


def test_another_setting_leaves_the_verdicts_alone(
    connection: sqlite3.Connection, put: Callable[..., int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only the zone, and where weeks and days begin, bear on them."""
    put("a.jpg", KEY, ORIGINAL)
    monkeypatch.setattr("indexer.store.settings.judge_all", lambda *_: pytest.fail("judged for nothing"))
    tell_setting(connection, "week.min_days", "1", TODAY)
    assert connection.execute("SELECT value FROM setting").fetchone()[0] == "1"


def test_a_week_that_begins_elsewhere_judges_every_photo_anew(
    connection: sqlite3.Connection, put: Callable[..., int]
) -> None:
    """Whether two dates contradict each other hangs on whether they lie in one week: here Sunday and Monday."""
    put("a.jpg", KEY, ORIGINAL, replace(ORIGINAL, source="xmp original", when="2026-03-29T23:00:00"))
    assert photo(connection)["doubtful"] == 1
    with transaction(connection):
        tell_setting(connection, "week.first_day", "sunday", TODAY)
    assert photo(connection)["doubtful"] == 0


def test_a_time_that_was_in_the_future_stands_when_the_day_has_come(
    connection: sqlite3.Connection, put: Callable[..., int]
) -> None:
    """The doubt goes by the day on which the photo is judged."""
    put("a.jpg", KEY, replace(ORIGINAL, when="2026-09-01T00:00:00"))
    assert photo(connection)["doubtful"] == 1
    with transaction(connection):
        judge_all(connection, date(2026, 8, 31))
    assert photo(connection)["doubtful"] == 0


def test_many_photos_are_judged_at_once(connection: sqlite3.Connection, photo_reading: Reading) -> None:
    """More than one statement can name."""
    keys = [f"{number:032x}" for number in range(1201)]
    with transaction(connection):
        folder = place_of(connection, os.path.abspath("/library")).folder
        rows = [FileRow(None, folder.id, key.encode(), 1, 1, 1, photo_reading(key, ORIGINAL)) for key in keys]
        files.save(connection, rows)
        judge(connection, keys, TODAY)
    codes = dict(connection.execute("SELECT key, code FROM photo").fetchall())
    assert codes == shortest_codes(keys)


def test_a_longer_code_stays_when_the_other_photo_goes(connection: sqlite3.Connection, put: Callable[..., int]) -> None:
    """What is written on a sheet still names its photo: a code may grow and never shrinks."""
    put("a.jpg", "abcdef" + "0" * 26, ORIGINAL)
    assert photo(connection, "abcdef" + "0" * 26)["code"] == "abcde"
    put("b.jpg", "abcde0" + "0" * 26, ORIGINAL)
    assert photo(connection, "abcdef" + "0" * 26)["code"] == "abcdef"
    with transaction(connection):
        connection.execute("UPDATE file SET kind = 'other', key = NULL WHERE path = ?", (b"b.jpg",))
        judge(connection, {"abcde0" + "0" * 26}, TODAY)
    assert photo(connection, "abcdef" + "0" * 26)["code"] == "abcdef"


KEYS = st.lists(st.text("0f", min_size=7, max_size=7).map(lambda end: end + "0" * 25), max_size=12, unique=True)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=30)
@given(KEYS, st.integers(0, 12))
def test_codes_stay_unique_however_photos_arrive(
    connection: sqlite3.Connection, photo_reading: Reading, keys: list[str], cut: int
) -> None:
    """In one batch or two, every code is its key's beginning, and no other key begins so."""
    with transaction(connection):
        folder = place_of(connection, os.path.abspath("/library")).folder
        for batch in (keys[:cut], keys[cut:]):
            files.save(
                connection, [FileRow(None, folder.id, key.encode(), 1, 1, 1, photo_reading(key)) for key in batch]
            )
            judge(connection, batch, TODAY)
        codes = dict(connection.execute("SELECT key, code FROM picture").fetchall())
        assert codes == shortest_codes(keys)
        connection.execute("DELETE FROM picture")
        connection.execute("DELETE FROM file")


@pytest.mark.parametrize(
    ("width", "height", "orientation", "shape"),
    [
        (4000, 3000, 1, "landscape"),
        (4000, 3000, 6, "portrait"),
        (3000, 4000, 8, "landscape"),
        (1000, 1000, 1, "square"),
        (1000, 970, 1, "square"),
        (970, 1000, 1, "square"),
        (1000, 969, 1, "landscape"),
        (969, 1000, 1, "portrait"),
        (969, 1000, 5, "landscape"),
    ],
)
def test_the_shape_is_that_of_the_displayed_picture(
    width: int, height: int, orientation: int, shape: str, connection: sqlite3.Connection, put: Callable[..., int]
) -> None:
    """After turning; sides within 3 % are a square (design page, "shape")."""
    put("a.jpg", KEY, stored_width=width, stored_height=height, orientation=orientation)
    assert photo(connection)["shape"] == shape


FIRST, SECOND = file(1, "a.jpg"), file(2, "b.jpg")
GONE_FIRST, GONE_SECOND = file(1, "a.jpg", missing=True), file(2, "b.jpg", missing=True)


@pytest.mark.parametrize(
    ("photo_said", "chosen", "speaks"),
    [
        (photo_of_files(KEY, (FIRST, [ORIGINAL]), (SECOND, [ORIGINAL])), 1, 2),
        (photo_of_files(KEY, (FIRST, [FILE_TIME]), (GONE_SECOND, [ORIGINAL])), 1, 1),
        (photo_of_files(KEY, (GONE_FIRST, [FILE_TIME]), (GONE_SECOND, [ORIGINAL])), 1, 2),
        (photo_of_files(KEY, (GONE_FIRST, []), (SECOND, [])), None, 2),
        (photo_of_files(KEY, (FIRST, []), (SECOND, [FILE_TIME])), None, 2),
    ],
    ids=[
        "the believed one",
        "one that is there",
        "the believed one if all are missing",
        "the first without claims",
        "one with claims before one without",
    ],
)
def test_which_file_speaks(photo_said: PhotoSaid, chosen: int | None, speaks: int) -> None:
    """The file of the believed claim if it is there, else the first that is, and says something."""
    verdict: CaptureTime = replace(NOTHING_KNOWN, chosen=chosen)
    assert speaking_file(photo_said, verdict) == speaks
