"""weeksheaf note"""

import click

from indexer.errors import WordError
from queries.cli import note_words
from queries.cli.documents import week_fields
from queries.cli.output import emit
from queries.cli.parameters import NoteType, WeekType, as_json
from queries.cli.session import Session
from queries.notes import Note, day_in_week, notes_of_week
from queries.week_log import UNTOLD, latest_words
from queries.weeks import Week


@click.command("note", short_help="Keep a week's own words, for its journaling cards.")
@click.argument("week", type=WeekType())
@click.argument("text", type=NoteType(), required=False)
@click.option("--day", metavar="DAY", help="Of this day alone: a date in the week, or a weekday.")
@click.option("--take-back", "taken_back", type=click.IntRange(min=1), metavar="N", help="Take note N back.")
@as_json
@click.pass_obj
def command(
    session: Session, week: Week, text: str | None, day: str | None, taken_back: int | None, as_json: bool
) -> None:
    """Keep a TEXT for the week's journaling cards; without one, list the notes kept.

    A TEXT of - is read from standard input, with line breaks between its paragraphs.
    """
    if text is not None and taken_back is not None:
        raise click.UsageError("--take-back N goes without a TEXT")
    if text is None and day is not None:
        raise click.UsageError("--day DAY goes with a TEXT")
    number, note = 0, None
    if text is not None:
        number, note = _told(session, week, text, day)
    elif taken_back is not None:
        number, note = taken_back, _taken_back(session, week, taken_back)
    notes = notes_of_week(session.connection, week, session.settings.week_rule)
    done = latest_words(session.connection, session.settings.week_rule).get(week, UNTOLD).state == "done"
    document = {
        **week_fields(week),
        "is_done": done,
        "notes": note_words.numbered_fields(notes),
        "told": number if note and text is not None else None,
        "taken_back": note_words.note_fields(note) if note and text is None else None,
    }
    if note is None:
        lines = note_words.note_lines(week, notes, is_done=done)
    else:
        say = note_words.told_lines if text is not None else note_words.taken_back_lines
        lines = say(week, number, note, is_done=done)
    emit(as_json, document, lines)


def _told(session: Session, week: Week, text: str, day: str | None) -> tuple[int, Note]:
    """Keep the note; it and its number in the list."""
    from indexer.store.notes import tell_note

    of_day = day_in_week(day, week) if day is not None else None
    rule = session.settings.week_rule
    with session.telling() as connection:
        uuid = tell_note(connection, week.first_day, of_day, text)
        notes = notes_of_week(connection, week, rule)
    return next((number, note) for number, note in enumerate(notes, start=1) if note.uuid == uuid)


def _taken_back(session: Session, week: Week, number: int) -> Note:
    """Take a note back; the note. Raises WordError where the list has no such number."""
    from indexer.store.notes import take_back

    notes = notes_of_week(session.connection, week, session.settings.week_rule)
    if number > len(notes):
        there = f"notes 1 to {len(notes)}" if len(notes) > 1 else "note 1 alone" if notes else "no notes"
        raise WordError(f"there is no note {number}; {week.name} has {there}: weeksheaf note {week.name}")
    with session.telling() as connection:
        take_back(connection, notes[number - 1].uuid)
    return notes[number - 1]
