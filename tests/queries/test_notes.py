"""The week's own words"""

import sqlite3
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.errors import WordError
from indexer.store.notes import take_back, tell_note
from queries.notes import Note, day_in_week, note_text, notes_of_week
from queries.weeks import WeekRule

RULE, SUNDAY = WeekRule(), WeekRule(6, 1)
MONDAY = date(2026, 3, 30)
W14 = RULE.week_of(MONDAY)


def texts(index: sqlite3.Connection, day: date = MONDAY, rule: WeekRule = RULE) -> list[str]:
    return [note.text for note in notes_of_week(index, rule.week_of(day), rule)]


def test_the_week_first_then_its_days(index: sqlite3.Connection) -> None:
    """Each in the order it was told; those of other weeks and those taken back are not there."""
    for day, text in ((5, "Sunday"), (None, "week"), (1, "Wednesday"), (None, "week again"), (1, "Wednesday again")):
        tell_note(index, MONDAY, date(2026, 4, day) if day else None, text)
    take_back(index, tell_note(index, MONDAY, None, "gone"))
    tell_note(index, date(2026, 4, 6), None, "the week after")
    assert texts(index) == ["week", "week again", "Wednesday", "Wednesday again", "Sunday"]
    assert notes_of_week(index, W14, RULE)[2].day == date(2026, 4, 1)


def test_notes_told_when_weeks_began_on_another_day(index: sqlite3.Connection) -> None:
    """They show in the week that holds the fourth day, a day's note with its day though that lies outside now."""
    tell_note(index, MONDAY, date(2026, 4, 5), "told from Monday on")
    tell_note(index, date(2026, 3, 29), None, "told from Sunday on")
    assert texts(index, MONDAY, SUNDAY) == texts(index, MONDAY) == ["told from Sunday on", "told from Monday on"]
    assert texts(index, date(2026, 4, 5), SUNDAY) == []
    tell_note(index, date(9999, 12, 20), None, "at the edge")
    assert texts(index, MONDAY, SUNDAY) == ["told from Sunday on", "told from Monday on"]


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("  The ferry.\n", "The ferry."),
        ("One.\r\n\r\nTwo.\rThree.", "One.\n\nTwo.\nThree."),
        ("One.\u2028Two.\u2029Three.", "One.\nTwo.\n\nThree."),
        ("a\tb", "a b"),
        ("👩‍👩‍👧 at the pier", "👩‍👩‍👧 at the pier"),
        ("שלום \u200fעולם", "שלום \u200fעולם"),
        ("\u202b42\u202c", "\u202b42\u202c"),
    ],
)
def test_a_text_as_it_is_kept(text: str, kept: str) -> None:
    """Line feeds part paragraphs, whatever the system's line breaks are; marks of direction and joiners stay."""
    assert note_text(text) == kept


@pytest.mark.parametrize("text", ["", "  ", "\n\t\r\n", "\u200b", "\u00a0\ufeff", "\u202e"])
def test_a_text_with_nothing_in_it(text: str) -> None:
    """Blank is empty, by whichever blanks."""
    with pytest.raises(WordError, match="the text is empty"):
        note_text(text)


@pytest.mark.parametrize("text", ["a\x07", "\x1b[31mred", "nul\x00", "\x85next", "\ud83d", "feed\x0c", "\x7f"])
def test_what_no_card_can_show(text: str) -> None:
    """The line names it."""
    with pytest.raises(WordError, match="no card can show"):
        note_text(text)


@given(st.text(st.characters(exclude_categories=["Cc", "Cs"])))
def test_no_word_is_lost_in_keeping(text: str) -> None:
    """What is kept has the same words, and kept again it is the same."""
    try:
        kept = note_text(text)
    except WordError:
        return
    assert kept.split() == text.split()
    assert note_text(kept) == kept


def test_paragraphs() -> None:
    """Blank lines part them and are none."""
    assert Note("", "", None, "One.\n\n \nTwo.\nThree.").paragraphs == ("One.", "Two.", "Three.")


@pytest.mark.parametrize(
    ("text", "rule", "day"),
    [
        ("wednesday", RULE, 1), ("Wed", RULE, 1), (" SUN ", RULE, 5), ("2026-04-05", RULE, 5), ("sunday", SUNDAY, 29),
    ],
)  # fmt: skip
def test_a_day_of_the_week(text: str, rule: WeekRule, day: int) -> None:
    """By its date or its weekday, wherever the week begins."""
    assert day_in_week(text, rule.week_of(MONDAY)).day == day


@pytest.mark.parametrize("text", ["2026-04-06", "2026-03-29", "20260401", "someday", "", "2026-W14", "1", "2026-04-31"])
def test_no_day_of_the_week(text: str) -> None:
    """The line says which days there are."""
    with pytest.raises(WordError, match=r"no day of 30 Mar - 5 Apr 2026, week 14.*2026-03-30 to 2026-04-05"):
        day_in_week(text, W14)
