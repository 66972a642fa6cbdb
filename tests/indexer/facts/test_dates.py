"""Dates to ISO 8601 text."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.dates import is_blank, iso_text


@pytest.mark.parametrize(
    ("fields", "text", "precision"),
    [
        ((1987,), "1987", "year"),
        ((1987, 8), "1987-08", "month"),
        ((2024, 2, 29), "2024-02-29", "day"),
        ((2026, 3, 30, 9, 15), "2026-03-30T09:15", "minute"),
        ((2026, 3, 30, 9, 15, 20), "2026-03-30T09:15:20", "second"),
    ],
)
def test_a_date_is_as_exact_as_what_is_known(fields: tuple[int, ...], text: str, precision: str) -> None:
    """Nothing is filled up."""
    assert iso_text(*fields) == (text, precision)


@pytest.mark.parametrize(
    "fields",
    [(), (0,), (10_000,), (2026, 13), (2026, 2, 29), (2026, 3, 30, 9), (2026, 3, 30, 24, 0), (2026, 1, 1, 1, 1, 60)],
)
def test_what_no_calendar_shows_is_refused(fields: tuple[int, ...]) -> None:
    """Month 13, the 29 February of another year, an hour without minutes and the like."""
    with pytest.raises(ValueError):  # noqa: PT011 - whatever its words
        iso_text(*fields)


@given(st.integers(-5, 10_005), st.integers(-1, 15), st.integers(-1, 33))
def test_no_day_is_rolled_over(year: int, month: int, day: int) -> None:
    """The text is the calendar's own, or there is none."""
    try:
        expected = date(year, month, day).isoformat()
    except ValueError:
        with pytest.raises(ValueError):  # noqa: PT011
            iso_text(year, month, day)
    else:
        assert iso_text(year, month, day) == (expected, "day")


@pytest.mark.parametrize(
    ("text", "blank"), [("", True), ("0000:00:00", True), ("  :  ", True), ("noon", False), ("0010", False)]
)
def test_zeros_and_marks_are_blank(text: str, blank: bool) -> None:
    """A word is another form and not a blank."""
    assert is_blank(text) is blank
