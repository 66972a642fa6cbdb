"""Photos in weeks: put there by hand, and lived in two zones."""

import sqlite3
from datetime import date, time

from queries.photos import Photo, photos_of_week, photos_with_keys
from queries.weeks import WeekRule
from tests.queries.made_rows import put_photo

W14 = WeekRule().week_named(2026, 14)
MIDNIGHT, FOUR = time(0), time(4)
A, B, C, D, E = (letter * 32 for letter in "abcde")


def photos(connection: sqlite3.Connection, starts_at: time = MIDNIGHT) -> list[Photo]:
    return photos_of_week(connection, W14, starts_at)


def test_what_was_put_here_by_hand_ends_the_week(index: sqlite3.Connection) -> None:
    """In the order it was taken; what was taken on a day of the week anyway stands under it."""
    put_photo(index, A, "2026-04-12T09:00:00", placed="2026-04-02")
    put_photo(index, B, "2020-01-01", placed="2026-04-02")
    put_photo(index, C, "2026-03-31T10:00:00", placed="2026-04-02")
    put_photo(index, D, "2026-04-05T10:00:00")
    put_photo(index, E, "2026-04-01T10:00:00", placed="2026-04-09")
    found = photos(index)
    assert [photo.key for photo in found] == [C, D, B, A]
    assert [photo.shown_day(W14, MIDNIGHT) for photo in found] == [date(2026, 3, 31), date(2026, 4, 5), None, None]
    assert [photo.album_day(MIDNIGHT) for photo in found] == [date(2026, 4, day) for day in (2, 5, 2, 2)]
    assert [photo.assigned for photo in found] == [True, False, True, True]


def test_a_photo_without_any_day_can_be_put_here(index: sqlite3.Connection) -> None:
    """As a scan of which only the month is known, or nothing."""
    put_photo(index, A, "1996-08", placed="2026-04-02")
    put_photo(index, B, None, placed="2026-04-02")
    assert [(photo.taken, photo.shown_day(W14, MIDNIGHT)) for photo in photos(index)] == [
        (None, None),
        ("1996-08", None),
    ]


def test_a_time_told_by_hand_is_no_week_told_by_hand(index: sqlite3.Connection) -> None:
    """It puts the photo into a week as any other time does."""
    put_photo(index, A, "2026-03-31T10:00")
    (photo,) = photos_with_keys(index, [A])
    assert not photo.assigned


def zone(connection: sqlite3.Connection, key: str, minutes: int) -> None:
    connection.execute("UPDATE picture SET offset_minutes = ? WHERE key = ?", (minutes, key))


def test_a_week_in_two_zones_keeps_its_days_and_the_order_it_was_lived_in(index: sqlite3.Connection) -> None:
    """Within a day what was lived later comes later, whatever the clocks say; the day is that of the wall clock."""
    put_photo(index, A, "2026-03-30T23:30:00")
    zone(index, A, -300)  # 04:30 of the next day in universal time
    put_photo(index, B, "2026-03-31T01:00:00")
    zone(index, B, 60)  # 00:00, so before a; but on another day
    put_photo(index, C, "2026-03-31T08:00:00")
    zone(index, C, -300)  # 13:00
    put_photo(index, D, "2026-03-31T09:00:00")
    zone(index, D, 60)  # 08:00
    put_photo(index, E, "2026-03-31")
    assert [photo.key for photo in photos(index)] == [A, B, D, C, E]
    assert [photo.key for photo in photos(index, FOUR)] == [B, A, D, C, E]  # the small hours are of the day before
