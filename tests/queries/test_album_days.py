"""The album day of a photo in SQL."""

import sqlite3
from datetime import date, time

from hypothesis import given, settings

from queries.album_days import ALBUM_DAY, HAS_DAY, shift_of
from queries.weeks import day_of
from tests.queries.capture_times import capture_times, clock_times


@settings(deadline=None)
@given(taken=capture_times, starts_at=clock_times)
def test_the_album_day_in_sql_is_that_of_the_calendar(
    bare_photos: sqlite3.Connection, taken: str | None, starts_at: time
) -> None:
    """For every capture time with a day and every start of the day, SQL gives the day that `day_of` gives."""
    day = day_of(taken, starts_at)
    asked = {"placed": taken, "shift": shift_of(starts_at)}
    row = bare_photos.execute(f"SELECT {ALBUM_DAY} FROM (SELECT :placed AS placed) WHERE {HAS_DAY}", asked).fetchone()
    found = row and row[0]
    assert found == day.isoformat() if day else found is None or found < date.min.isoformat()
