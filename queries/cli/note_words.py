"""A week's own words, as JSON and on the terminal."""

import textwrap
from collections.abc import Iterator, Sequence
from typing import Any

from queries.cli.output import plural, width
from queries.cli.visible import visible
from queries.notes import Note
from queries.weeks import Week, day_words, week_words


def note_fields(note: Note) -> dict[str, Any]:
    return {"day": note.day.isoformat() if note.day else None, "text": note.text}


def numbered_fields(notes: Sequence[Note]) -> list[dict[str, Any]]:
    return [
        {"number": number, **note_fields(note), "told_at": note.told_at} for number, note in enumerate(notes, start=1)
    ]


def brief_lines(notes: Sequence[Note]) -> Iterator[str]:
    """A line for each note, cut off where the terminal ends."""
    for number, note in enumerate(notes, start=1):
        line = f"  note {number}, {_of(note)}: {' / '.join(map(visible, note.paragraphs))}"
        yield line if len(line) <= width() else line[: width() - 3].rstrip() + "..."


def note_lines(week: Week, notes: Sequence[Note], *, is_done: bool) -> Iterator[str]:
    """All notes of a week, numbered, each whole."""
    yield f"{_head(week)}: {plural(len(notes), 'note') if notes else 'no notes'}"
    for number, note in enumerate(notes, start=1):
        yield f"{number:>3}  {_of(note)}:"
        for paragraph in note.paragraphs:
            yield from textwrap.wrap(
                visible(paragraph),
                width(),
                initial_indent=" " * 5,
                subsequent_indent=" " * 5,
                break_on_hyphens=False,
            )
    if not notes:
        yield f'Keep one: weeksheaf note {week.name} "TEXT"'
    yield from _done_lines(is_done=is_done)


def told_lines(week: Week, number: int, note: Note, *, is_done: bool) -> Iterator[str]:
    """What was kept just now."""
    words = plural(len(note.text.split()), "word")
    parts = f" in {len(note.paragraphs)} paragraphs" if len(note.paragraphs) > 1 else ""
    yield f"{_head(week)}: note {number} kept, of {_of(note)}: {words}{parts}"
    yield from _done_lines(is_done=is_done)


def taken_back_lines(week: Week, number: int, note: Note, *, is_done: bool) -> Iterator[str]:
    """What was taken back just now."""
    yield f"{_head(week)}: note {number} is taken back, of {_of(note)}:"
    yield from (f"     {line}" for line in textwrap.wrap(visible(" / ".join(note.paragraphs)), width() - 5))
    yield from _done_lines(is_done=is_done)


def _done_lines(*, is_done: bool) -> Iterator[str]:
    if is_done:
        yield "The week is done: its cards stay as they were made."


def _head(week: Week) -> str:
    return f"{week_words(week)} ({week.name})"


def _of(note: Note) -> str:
    """ "the week", "Tue 31 Mar"."""
    return day_words(note.day) if note.day else "the week"
