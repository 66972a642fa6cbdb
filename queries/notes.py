"""The week's own words, for its journaling cards."""

import sqlite3
import unicodedata
from dataclasses import dataclass
from datetime import date

from indexer.errors import WeekError, WordError
from queries.weeks import Week, WeekRule, week_words, weekday_number

#: The control characters that a text may hold as it comes in, and what becomes of them.
_BREAKS = {"\r\n": "\n", "\r": "\n", "\u2028": "\n", "\u2029": "\n\n", "\t": " "}


@dataclass(frozen=True, slots=True)
class Note:
    """A text of a week, of one day or of the whole week (None). `told_at` is UTC; its paragraphs part at line feeds."""

    uuid: str
    told_at: str
    day: date | None
    text: str

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """Its paragraphs, without the empty lines between them."""
        return tuple(line.strip() for line in self.text.split("\n") if line.strip())


def notes_of_week(connection: sqlite3.Connection, week: Week, rule: WeekRule) -> list[Note]:
    """The notes that hold: first those of the week as a whole, then day by day, each in the order they were told.

    A note shows in the week that holds the fourth day of the week it was told for.
    """
    rows = connection.execute("SELECT * FROM week_note ORDER BY day, told_at, uuid")  # NULL sorts first
    return [_note(row) for row in rows if rule.whole_week_told(date.fromisoformat(row["first_day"])) == week]


def note_text(text: str) -> str:
    """The text as it is kept: line feeds alone part its paragraphs, no space stands around it.

    Raises WordError where nothing is left, and for what no card can show: control characters, bytes that are no text.
    """
    for before, after in _BREAKS.items():
        text = text.replace(before, after)
    for letter in text:
        if letter != "\n" and unicodedata.category(letter) in ("Cc", "Cs"):
            raise WordError(f"the text holds {letter!r}, which no card can show; take it out")
    if not any(unicodedata.category(letter)[0] not in "ZC" for letter in text):
        raise WordError("the text is empty; write what the card is to say")
    return text.strip()


def day_in_week(text: str, week: Week) -> date:
    """The day meant by a date (2026-04-01) or a weekday's name. Raises WordError where the week has none such."""
    word = text.strip()
    try:
        number = weekday_number(word)
    except WeekError:
        days = [day for day in week.days() if day.isoformat() == word]
    else:
        days = [day for day in week.days() if day.weekday() == number]
    if not days:
        first, last = week.first_day, week.last_day
        raise WordError(f"{text!r} is no day of {week_words(week)}: give a weekday or a date, {first} to {last}")
    return days[0]


def _note(row: sqlite3.Row) -> Note:
    day = date.fromisoformat(row["day"]) if row["day"] else None
    return Note(row["uuid"], row["told_at"], day, row["text"])
