"""A week's own words as journaling cards"""

from datetime import date

from queries.notes import Note
from queries.prints.journal import signs_left_out, words_of
from queries.weeks import WeekRule

WEEK = WeekRule().week_of(date(2026, 3, 30))
TUESDAY, FRIDAY = date(2026, 3, 31), date(2026, 4, 3)


def note(text: str, day: date | None = None) -> Note:
    return Note(text, "2026-04-05T09:00:00.000000Z", day, text)


def test_each_day_is_named_once_above_its_words() -> None:
    """Words of the whole week have no heading; all notes come, in their order."""
    notes = [note("Rain."), note("Boats.", TUESDAY), note("Kites.", TUESDAY), note("Home.", FRIDAY)]
    words = words_of(WEEK, notes)
    assert [text for _, text in words.paragraphs] == ["Rain.", "Boats.", "Kites.", "Home."]
    headings = [heading for heading, _ in words.paragraphs]
    assert ("31" in headings[1], "3" in headings[3]) == (True, True)
    assert [bool(heading) for heading in headings] == [False, True, False, True]
    assert (words.under, words.week) == ("week 14", "2026-W14")


def test_pictures_that_no_card_shows_are_found() -> None:
    """So that they can be told; words are never among them."""
    assert signs_left_out(WEEK, [note("We swam. \N{SWIMMER}"), note("\N{KITE} up", FRIDAY)]) == (
        "\N{SWIMMER}",
        "\N{KITE}",
    )
