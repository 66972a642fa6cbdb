"""Times of reduced precision."""

# ruff: noqa: DTZ001 - wall clocks are naive here

from datetime import date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.dating.moments import apart, moved, span

TIMES = st.one_of(
    st.datetimes().map(lambda at: at.isoformat(timespec="seconds")),
    st.datetimes().map(lambda at: at.isoformat(timespec="minutes")),
    st.dates().map(date.isoformat),
    st.dates().map(lambda day: day.isoformat()[:7]),
    st.dates().map(lambda day: day.isoformat()[:4]),
)


@pytest.mark.parametrize(
    ("when", "first", "last"),
    [
        ("2026", datetime(2026, 1, 1), datetime(2027, 1, 1)),
        ("2026-02", datetime(2026, 2, 1), datetime(2026, 3, 1)),
        ("2026-12", datetime(2026, 12, 1), datetime(2027, 1, 1)),
        ("2026-02-28", datetime(2026, 2, 28), datetime(2026, 3, 1)),
        ("2026-02-28T23:59", datetime(2026, 2, 28, 23, 59), datetime(2026, 3, 1)),
        ("2026-02-28T23:59:59", datetime(2026, 2, 28, 23, 59, 59), datetime(2026, 3, 1)),
    ],
)
def test_a_time_means_a_span(when: str, first: datetime, last: datetime) -> None:
    """From its first moment to the first moment after it."""
    assert span(when) == (first, last)


@given(TIMES, TIMES)
def test_the_distance_of_two_times_is_the_same_both_ways(one: str, other: str) -> None:
    """None where their spans overlap, and never negative."""
    assert apart(one, other) == apart(other, one) >= timedelta()
    (first, last), (first_other, last_other) = span(one), span(other)
    assert (apart(one, other) == timedelta()) == (first <= last_other and first_other <= last)


@given(TIMES, st.integers(-(10**11), 10**11))
def test_a_time_is_moved_as_exact_as_it_was_or_leaves_the_calendar(when: str, seconds: int) -> None:
    """Back and forth is where it was; what leaves the calendar is nothing, not an error."""
    there = moved(when, seconds)
    if there is not None:
        assert len(there) == len(when)
        if len(when) == 19:
            assert moved(there, -seconds) == when
            assert span(there)[0] - span(when)[0] == timedelta(seconds=seconds)


def test_a_month_stays_where_it_is_and_a_day_moves_by_whole_days() -> None:
    """An hour's correction does not change a day without a clock time; three days do."""
    assert moved("2026-03", 10**7) == "2026-03"
    assert moved("2026-03-30", 3600) == "2026-03-30"
    assert moved("2026-03-30", 3 * 86_400 + 3600) == "2026-04-02"
