"""Times as a person types them."""

from datetime import date
from random import Random

import pytest

from indexer.errors import WordError
from queries.told_times import parse_moment, parse_taken

TODAY = date(2026, 4, 20)


@pytest.mark.parametrize(
    ("text", "moment"),
    [
        ("2026-03-30 14:00", "2026-03-30T14:00:00"),
        ("2026-03-30T14:00:05", "2026-03-30T14:00:05"),
        (" 2026-03-30   9:05 ", "2026-03-30T09:05:00"),
        ("2026-03-30", "2026-03-30T00:00:00"),
    ],
)
def test_a_moment_of_a_clock(text: str, moment: str) -> None:
    """It is known to the second; a date is its first moment."""
    assert parse_moment(text) == moment


@pytest.mark.parametrize(
    ("text", "taken"),
    [
        ("2026-03-30 14:00", "2026-03-30T14:00"),
        ("2026-03-30 14:00:05", "2026-03-30T14:00:05"),
        ("2026-03-30", "2026-03-30"),
        ("1996-08", "1996-08"),
        ("1996", "1996"),
        ("2026-04-21", "2026-04-21"),
    ],
)
def test_a_capture_time_is_as_exact_as_it_is_told(text: str, taken: str) -> None:
    """Nothing is added; tomorrow has begun somewhere."""
    assert parse_taken(text, TODAY) == taken


@pytest.mark.parametrize("text", ["2026-02-30", "2026-13", "0000", "2026-03-30 25:00", "2026-03-30 12:60"])
def test_a_time_that_does_not_exist(text: str) -> None:
    """It is never rolled over."""
    with pytest.raises(WordError, match=f"there is no time {text}"):
        parse_taken(text, TODAY)


@pytest.mark.parametrize("text", ["2026-04-22", "2027", "2026-05", "2099-01-01 10:00"])
def test_a_time_to_come_is_refused(text: str) -> None:
    """No photo was taken after tomorrow."""
    with pytest.raises(WordError, match=f"{text} is yet to come"):
        parse_taken(text, TODAY)


@pytest.mark.parametrize("text", ["", "Monday", "30.3.2026", "2026-W14", "20260330", "2026-03-30 14"])
def test_what_is_no_time(text: str) -> None:
    """The order of day and month is not guessed, and a week is no time."""
    with pytest.raises(WordError, match="is no time; write it like 2026-03-30 14:00"):
        parse_taken(text, TODAY)


def answer(text: str) -> str:
    """The time, or the line that refuses it."""
    try:
        return parse_taken(text, TODAY)
    except WordError as refused:
        return str(refused)


def test_any_text_is_a_time_or_refused() -> None:
    """5,000 texts of digits and signs give a time that begins as typed, or one line."""
    random = Random(6)
    for _ in range(5000):
        text = f"{random.randrange(10000):04}" + "".join(random.choices("-: T0123", k=random.randrange(14)))
        found = answer(text)
        assert found[:4] == text[:4] or (" " in found and "\n" not in found)
