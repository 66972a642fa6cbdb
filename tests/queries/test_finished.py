"""Done weeks against today's photos."""

import sqlite3
from datetime import date, time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.store.opening import transaction
from indexer.store.week_log import tell_week
from queries.finished import compare_with_page, late_counts
from queries.photos import photos_of_week
from queries.week_log import UNTOLD, Word, latest_words, log_of
from queries.weeks import WeekRule, day_of
from tests.queries.capture_times import capture_times, clock_times
from tests.queries.made_rows import put_photo, put_set

ISO = WeekRule()
W14 = ISO.week_named(2026, 14)


@settings(deadline=None)
@given(st.lists(capture_times, max_size=12), clock_times, st.data())
def test_late_counts_in_sql_are_those_of_the_calendar(
    bare_photos: sqlite3.Connection, taken: list[str | None], starts_at: time, data: st.DataObject
) -> None:
    """The photos counted as late are those whose day lies in a done week and that the week's list lacks."""
    days = [day_of(item, starts_at) for item in taken]
    weeks = {found for day in days if day and (found := ISO.whole_week_of(day)) and found.next_first_day < date.max}
    held = {place for place in range(len(taken)) if data.draw(st.booleans())}
    bare_photos.execute("DELETE FROM photo")
    bare_photos.execute("DELETE FROM week_holding")
    words = {found: Word(found.name, "", "done", (), "") for found in weeks}
    for place, text in enumerate(taken):
        bare_photos.execute("INSERT INTO photo VALUES (?, ?, 'square', 0, 1, 1)", (str(place), text))
    bare_photos.executemany(
        "INSERT INTO week_holding VALUES (?, ?)", [(found.name, str(place)) for found in weeks for place in held]
    )
    expected = {
        found: late
        for found in weeks
        if (late := sum(bool(day and day in found and place not in held) for place, day in enumerate(days)))
    }
    assert late_counts(bare_photos, words, starts_at) == expected


def test_only_a_done_week_is_compared_with_its_page(index: sqlite3.Connection) -> None:
    """A week that is not done has nothing late and nothing gone; a done one names the keys that are gone."""
    with transaction(index):
        tell_week(index, date(2026, 3, 30), "done", holding=["aaaa", "bbbb"])
    done = log_of(index, W14, ISO)[-1]
    found = compare_with_page(index, done, [])
    assert (found.late, found.gone) == ([], ["aaaa", "bbbb"])
    assert compare_with_page(index, UNTOLD, []).gone == ()


@pytest.fixture
def page(index: sqlite3.Connection) -> sqlite3.Connection:
    """Week 14 is done and holds a; b to e turned up: b is a copy of a, c is in a burst with a, d is a copy of e."""
    for letter in "abcde":
        put_photo(index, letter * 32, f"2026-04-01T10:00:0{ord(letter) - ord('a')}")
    put_set(index, 1, "copy", ["a" * 32, "b" * 32])
    put_set(index, 2, "burst", ["a" * 32, "c" * 32])
    put_set(index, 3, "copy", ["e" * 32, "d" * 32])
    with transaction(index):
        tell_week(index, date(2026, 3, 30), "done", holding=["a" * 32])
    return index


def test_a_copy_of_what_is_on_the_page_is_not_late(page: sqlite3.Connection) -> None:
    """A copy of a photo that the done week holds shows nothing new; a burst and copies of others are late."""
    words = latest_words(page, ISO)
    assert late_counts(page, words, time(0)) == {W14: 3}
    found = compare_with_page(page, words[W14], photos_of_week(page, W14, time(0)))
    assert "".join(photo.code[0] for photo in found.late) == "cde"
    assert [(photo.code, of) for photo, of in found.copies] == [("bbbbb", "aaaaa")]


def test_a_page_that_holds_the_copy_too(page: sqlite3.Connection) -> None:
    """What the page holds is neither late nor a copy of something on it."""
    with transaction(page):
        tell_week(page, date(2026, 3, 30), "done", holding=["a" * 32, "b" * 32])
    words = latest_words(page, ISO)
    assert compare_with_page(page, words[W14], photos_of_week(page, W14, time(0))).copies == []
    assert late_counts(page, words, time(0)) == {W14: 3}


def test_the_page_of_another_week_does_not_count(page: sqlite3.Connection) -> None:
    """A copy of what another week's page holds is late in its own week."""
    put_photo(page, "f" * 32, "2026-04-08T10:00:00")
    page.execute("UPDATE alike_member SET photo_key = ? WHERE photo_key = ?", ("f" * 32, "b" * 32))
    with transaction(page):
        tell_week(page, date(2026, 4, 6), "done")
    assert late_counts(page, latest_words(page, ISO), time(0))[ISO.week_named(2026, 15)] == 1
