"""The cameras that photos name, and which one a person means."""

import sqlite3
from datetime import date

import pytest

from indexer.errors import WordError
from indexer.facts.records import Camera
from indexer.store.clocks import take_back, tell_correction
from indexer.store.opening import transaction
from queries.cameras import (
    KnownCamera,
    camera_named,
    cameras_words,
    correction_for,
    held_corrections,
    held_numbered,
    known_cameras,
    own_times,
)
from tests.queries.made_rows import put_claim, put_photo

TODAY = date(2026, 4, 20)
COMPACT, OTHER, PHONE = Camera("", "TW-100", ""), Camera("Tidewell", "TW-200", "0042"), Camera("", "Lanternfish P4", "")
A, B, C, D = (letter * 32 for letter in "abcd")

CAMERAS = [
    KnownCamera(1, Camera("Lanternfish", "Lanternfish P4", ""), "Lanternfish P4", 90),
    KnownCamera(2, Camera("Tidewell", "TW-100", "0042"), "Tidewell TW-100", 20),
    KnownCamera(3, Camera("Tidewell", "TW-100", "0043"), "Tidewell TW-100", 9),
    KnownCamera(4, Camera("Tidewell", "TW-1", ""), "Tidewell TW-1", 2),
]


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("1", 1),
        ("4", 4),
        ("lanternfish", 1),
        ("LANTERNFISH  p4", 1),
        ("p4", 1),
        ("0042", 2),
        ("43", 3),
        ("Tidewell TW-100 (0043)", 3),
        ("tw-1", 4),  # its whole model, though others begin so
        ("Tidewell TW-1", 4),
    ],
)
def test_a_camera_answers_to_its_number_or_to_any_part_that_is_its_own(text: str, number: int) -> None:
    """In any case; a whole name goes before a part of another."""
    assert camera_named(CAMERAS, text).number == number


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0", "no camera answers to '0'; the cameras are: 1 Lanternfish P4, 2 "),
        ("compact", "no camera answers to 'compact'; the cameras are: 1 Lanternfish P4, 2 Tidewell TW-100 (0042), "),
        ("9", "no camera answers to '9'; the cameras are: 1 "),
        ("", "no camera answers to ''; the cameras are: 1 "),
        ("tidewell", "'tidewell' may be several cameras; the cameras are: 1 "),
        ("TW-100", "'TW-100' may be several cameras; the cameras are: 1 "),
    ],
)
def test_another_name_is_refused_with_the_cameras_listed(text: str, says: str) -> None:
    """Whether none answers to it or several do."""
    with pytest.raises(WordError) as refused:
        camera_named(CAMERAS, text)
    assert str(refused.value).startswith(says)
    assert cameras_words(CAMERAS) in str(refused.value)


def test_without_cameras_there_is_no_clock() -> None:
    """That is said instead of an empty list."""
    with pytest.raises(WordError, match="no photo in the index names its camera"):
        camera_named([], "1")


@pytest.fixture
def archive(index: sqlite3.Connection) -> sqlite3.Connection:
    """Two photos of the phone, one of the compact that has no time of its own, one of the phone that is gone."""
    for key, camera, original in ((A, PHONE, "2026-04-01T10:00:00"), (B, PHONE, "2015-01-01T00:00:10")):
        put_photo(index, key, original, camera=camera.model)
        put_claim(index, key, "exif original", original)
        put_claim(index, key, "file time", "2026-04-20T08:00:00")
    put_photo(index, C, None, camera=COMPACT.model)
    put_claim(index, C, "gps", "2026-04-01T08:00:00")
    put_photo(index, D, "2026-04-19T10:00:00", camera=PHONE.model, missing=True)
    put_claim(index, D, "exif original", "2026-04-19T10:00:00")
    return index


def test_cameras_are_listed_with_what_their_own_clocks_say(archive: sqlite3.Connection) -> None:
    """Those with the most photos first; photos that are gone, or name no camera, are in none."""
    put_photo(archive, "e" * 32, camera="")
    assert known_cameras(archive) == [
        KnownCamera(1, PHONE, "Lanternfish P4", 2, "2015-01-01T00:00:10", "2026-04-01T10:00:00"),
        KnownCamera(2, COMPACT, "TW-100", 1),
    ]
    assert [(item.key, item.camera, item.own) for item in own_times(archive)] == [
        (A, PHONE, "2026-04-01T10:00:00"),
        (B, PHONE, "2015-01-01T00:00:10"),
    ]
    assert [item.own for item in own_times(archive, B)] == ["2015-01-01T00:00:10"]
    assert own_times(archive, C) == []


def test_the_claims_of_a_clock_are_taken_in_order(archive: sqlite3.Connection) -> None:
    """The original date goes before that of digitizing, and a day without a clock time is none."""
    put_claim(archive, C, "exif digitized", "2026-04-02T09:00")
    put_claim(archive, C, "xmp original", "2026-04-03T09:00:00")
    assert own_times(archive, C)[0].own == "2026-04-02T09:00"
    put_claim(archive, C, "exif original", "2026-04-04")
    assert own_times(archive, C)[0].own == "2026-04-02T09:00"


def test_corrections_are_numbered_and_those_of_unseen_cameras_too(archive: sqlite3.Connection) -> None:
    """A camera whose photos are not there now is listed while its clock is corrected."""
    with transaction(archive):
        first = tell_correction(archive, OTHER, 3600, None, None, TODAY)
        tell_correction(archive, PHONE, 60, None, "2016-01-01T00:00:00", TODAY)
        tell_correction(archive, PHONE, 120, "2016-01-01T00:00:00", None, TODAY)
    cameras = known_cameras(archive)
    assert [(known.number, known.whole_name, known.photos) for known in cameras] == [
        (1, "Lanternfish P4", 2),
        (2, "TW-100", 1),
        (3, "Tidewell TW-200 (0042)", 0),
    ]
    held = held_corrections(archive, cameras)
    assert [(item.number, item.camera.number, item.correction.shift_seconds) for item in held] == [
        (1, 3, 3600),
        (2, 1, 60),
        (3, 1, 120),
    ]
    own = {"2015-12-31T23:59:59": 60, "2016-01-01T00:00:00": 120}
    for time, shift in own.items():
        found = correction_for(held, PHONE, time)
        assert found
        assert found.correction.shift_seconds == shift
    assert correction_for(held, COMPACT, "2016-01-01T00:00:00") is None
    with pytest.raises(WordError, match="there is no correction 4; weeksheaf clock lists those that hold"):
        held_numbered(held, 4)
    with transaction(archive):
        take_back(archive, first, TODAY)
    assert [known.number for known in known_cameras(archive)] == [1, 2]
