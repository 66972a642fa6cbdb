"""Photos as the index knows them."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date, time
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from indexer import index_folders, open_for_writing
from queries.photos import (
    Photo,
    count_doubtful,
    doubtful_photos,
    photos_of_week,
    photos_with_keys,
    unreadable_files,
    zone_text,
)
from queries.weeks import WeekRule, day_of

patient = settings(deadline=None)
TODAY = date(2026, 4, 20)
W14 = WeekRule().week_named(2026, 14)

#: (Exif original, its decimal fraction) by name; without one the name may tell the day.
TAKEN = {
    "b 10 00.jpg": ("2026:04:01 10:00:00", ""),
    "a 10 00.jpg": ("2026:04:01 10:00:00", ""),
    "c burst.jpg": ("2026:04:01 10:00:01", "25"),
    "d burst.jpg": ("2026:04:01 10:00:01", "08"),
    "2026-04-01 drawing.jpg": ("", ""),
    "late.jpg": ("2026:04:01 23:59:59", ""),
    "next day.jpg": ("2026:04:02 00:00:00", ""),
    "night.jpg": ("2026:04:06 01:30:00", ""),
    "2026-04-06 scan.jpg": ("", ""),
    "scan 1994-07.jpg": ("", ""),
}


@pytest.fixture(scope="module")
def index(tmp_path_factory: pytest.TempPathFactory) -> Iterator[sqlite3.Connection]:
    """An index of these photos, one of them in two places, and of one empty file."""
    folder = tmp_path_factory.mktemp("photos")
    for number, (name, (taken, fraction)) in enumerate(TAKEN.items()):
        (folder / name).write_bytes(_jpeg(number, taken, fraction))
    (folder / "another").mkdir()
    (folder / "another" / "late.jpg").write_bytes((folder / "late.jpg").read_bytes())
    (folder / "broken.jpg").write_bytes(b"")
    with closing(open_for_writing(tmp_path_factory.mktemp("index") / "index.db", create=True)) as connection:
        index_folders(connection, [folder], today=TODAY)
        yield connection


def _jpeg(number: int, taken: str, fraction: str) -> bytes:
    exif = Image.Exif()
    if taken:
        exif.get_ifd(0x8769).update({0x9003: taken, 0x9291: fraction})
    out = BytesIO()
    Image.new("RGB", (48, 32), (number * 20, 90, 140)).save(out, "JPEG", exif=exif)
    return out.getvalue()


def names(photos: list[Photo]) -> list[str]:
    return [Path(photo.path).name for photo in photos]


def test_photos_come_in_the_order_they_were_taken(index: sqlite3.Connection) -> None:
    """By time down to the fraction of a second, then by name; what is known by day only ends its day."""
    assert names(photos_of_week(index, W14, time(0))) == [
        "a 10 00.jpg", "b 10 00.jpg", "d burst.jpg", "c burst.jpg", "late.jpg", "2026-04-01 drawing.jpg",
        "next day.jpg",
    ]  # fmt: skip


def test_the_night_belongs_to_the_day_before(index: sqlite3.Connection) -> None:
    """With a later start of the day the week takes in the night after it, but not that day's photo without a time."""
    assert "night.jpg" in names(photos_of_week(index, W14, time(4)))
    assert "night.jpg" not in names(photos_of_week(index, W14, time(1, 30)))
    assert "2026-04-06 scan.jpg" not in names(photos_of_week(index, W14, time(11, 59)))


def test_a_photo_in_two_places(index: sqlite3.Connection) -> None:
    """One photo with two paths, the speaking one first."""
    (late,) = [photo for photo in photos_of_week(index, W14, time(0)) if photo.path.endswith("late.jpg")]
    assert late.path == late.paths[0]
    assert len(set(late.paths)) == 2


def test_photos_are_found_by_key_and_unknown_keys_are_none(index: sqlite3.Connection) -> None:
    """A key the index knows gives its photo; another gives none."""
    known = photos_of_week(index, W14, time(0))[0]
    assert photos_with_keys(index, [known.key, "0" * 32]) == [known]


def test_doubtful_photos_and_their_count(index: sqlite3.Connection) -> None:
    """The list of photos to look at is as long as its count says."""
    assert names(doubtful_photos(index)) == ["scan 1994-07.jpg"]
    assert count_doubtful(index) == 1


def test_unreadable_files_are_named(index: sqlite3.Connection) -> None:
    """A file that promises a picture and is empty is a row with step and reason."""
    ((path, step, reason),) = unreadable_files(index)
    assert (Path(path).name, step, reason) == ("broken.jpg", "header", "the file is empty")


@patient
@given(st.integers(-14 * 60, 14 * 60))
def test_zones_are_written_as_iso_8601_does(minutes: int) -> None:
    """The text of an offset reads back as that many minutes."""
    text = zone_text(minutes) or ""
    sign = -1 if text[0] == "-" else 1
    assert len(text) == 6
    assert sign * (int(text[1:3]) * 60 + int(text[4:])) == minutes


@pytest.mark.parametrize(("minutes", "text"), [(120, "+02:00"), (-570, "-09:30"), (0, "+00:00"), (None, None)])
def test_zones(minutes: int | None, text: str | None) -> None:
    """Known offsets have a sign, unknown ones are absent."""
    assert zone_text(minutes) == text


def test_the_album_day_is_that_of_the_calendar(index: sqlite3.Connection) -> None:
    """A photo's own day is the one the calendar gives for its time."""
    for photo in photos_of_week(index, W14, time(4)):
        assert photo.album_day(time(4)) == day_of(photo.placed, time(4))
