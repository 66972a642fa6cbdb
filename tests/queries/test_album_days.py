"""The album day of a photo in SQL."""

import sqlite3
from datetime import time

from hypothesis import given, settings

from queries.album_days import ALBUM_DAY, shift_of
from queries.weeks import day_of
from tests.queries.capture_times import capture_times, clock_times


@settings(deadline=None)
@given(taken=capture_times, starts_at=clock_times)
def test_the_album_day_in_sql_is_that_of_the_calendar(
    bare_photos: sqlite3.Connection, taken: tuple[str | None, str], starts_at: time
) -> None:
    """For every capture time with a day and every start of the day, SQL gives the day that `day_of` gives."""
    day = day_of(*taken, starts_at)
    asked = {"taken": taken[0], "precision": taken[1], "shift": shift_of(starts_at)}
    (found,) = bare_photos.execute(
        f"SELECT {ALBUM_DAY} FROM (SELECT :taken AS taken, :precision AS precision)", asked
    ).fetchone()
    if day:
        assert found == day.isoformat()
