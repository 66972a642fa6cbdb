"""Which album week a time falls into."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.dating.album_weeks import AlbumWeeks, day_text
from queries.weeks import WeekRule, day_of
from tests.queries.capture_times import clock_times

DAYS = st.dates(date(1, 2, 1), date(9999, 11, 30))


@given(st.datetimes(min_value=None, max_value=None), clock_times, st.integers(0, 6))
def test_it_is_the_week_that_the_calendar_shows(moment, starts_at, first_day) -> None:  # type: ignore[no-untyped-def]
    """One home for the fact, asked from two rooms: the verdict's week is the one in which `weeks` lists the photo."""
    when = moment.isoformat(timespec="seconds")
    day = day_of(when, starts_at)
    week = WeekRule(first_day, 4).whole_week_of(day) if day else None
    if week:
        rule = AlbumWeeks(first_day, timedelta(hours=starts_at.hour, minutes=starts_at.minute))
        assert rule.week_of(when) == week.first_day.toordinal()


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("2026-03-30", "2026-04-05T23:59:59", True),  # Monday and Sunday (ISO 8601)
        ("2026-03-29T23:59:59", "2026-03-30", False),
        ("2026-03", "2026-04-01T10:00:00", True),  # March ends on a Tuesday
        ("2026-03", "2026-04-06T10:00:00", False),
        ("2026", "2027-01-03", True),
        ("2026", "2025", True),
        ("2026", "2024", False),
    ],
)
def test_times_of_any_precision_may_be_of_one_week(one: str, other: str, same: bool) -> None:
    """A month may be of every week that it touches."""
    assert AlbumWeeks().may_be_same(one, other) is same
    assert AlbumWeeks().may_be_same(other, one) is same


def test_the_small_hours_belong_to_the_day_before_where_days_begin_late() -> None:
    """A day without a clock time is itself."""
    rule = AlbumWeeks(0, timedelta(hours=4))
    assert rule.week_of("2026-03-30T03:59:59") == rule.week_of("2026-03-29")
    assert rule.week_of("2026-03-30T04:00:00") == rule.week_of("2026-03-30") != rule.week_of("2026-03-29")
    assert day_text(rule.week_of("2026-04-02") or 0) == "2026-03-30"
    assert rule.week_of("2026-04") is rule.week_of(None) is None
