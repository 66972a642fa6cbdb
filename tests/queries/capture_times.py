"""Capture times of every precision, and starts of the day, for property tests."""

from datetime import date

from hypothesis import strategies as st

clock_times = st.times().map(lambda moment: moment.replace(second=0, microsecond=0)).filter(lambda at: at.hour < 12)

capture_times = st.one_of(
    st.datetimes().map(lambda at: at.isoformat(timespec="seconds")),
    st.datetimes().map(lambda at: at.isoformat(timespec="minutes")),
    st.dates().map(date.isoformat),
    st.dates().map(lambda day: day.isoformat()[:7]),
    st.dates().map(lambda day: day.isoformat()[:4]),
    st.none(),
    st.sampled_from(["0001-01-01T00:10:00", "0001-01-01T11:59:59", "9999-12-31T23:59:59", "2024-02-29T00:00:00"]),
)
