"""weeksheaf assign"""

import sqlite3
from datetime import timedelta
from pathlib import Path

import click

from indexer.errors import WeekError, WordError
from queries.cli import assign_words
from queries.cli.moving import tell_and_compare
from queries.cli.output import emit
from queries.cli.parameters import PhotoType, TakenType, WeekType, as_json
from queries.cli.session import Session
from queries.photos import photos_with_keys
from queries.weeks import week_words


@click.command("assign", short_help="Put photos into a week by hand, or say when they were taken.")
@click.argument("words", metavar="PHOTO... [WEEK]", nargs=-1, required=True)
@click.option(
    "--taken", type=TakenType(), help='When they were taken: "2026-03-30 14:00", or 2026-03-30, 2026-03, 2026.'
)
@click.option("--forget", "forgets", is_flag=True, help="Go back to what the evidence says of these photos.")
@as_json
@click.pass_context
def command(context: click.Context, words: tuple[str, ...], taken: str | None, forgets: bool, as_json: bool) -> None:
    """Put photos into a week by hand: they keep their time and count in that WEEK alone.

    With --taken there is no WEEK: the photos get that time. Copies follow, no file is changed, and what you said
    outlasts every further index run.
    """
    from indexer.store.assignments import assignments, forget, tell_taken, tell_week

    session: Session = context.obj
    if taken and forgets:
        raise click.UsageError("--taken and --forget exclude each other")
    if (taken or forgets) and _is_week(words[-1], context):
        raise click.UsageError(f"{words[-1]} is a week: with --taken or --forget name photos only")
    names = words if taken or forgets else words[:-1]
    if not names:
        raise click.UsageError("name at least one PHOTO and, last, the WEEK; or say --taken TIME")
    week = None if taken or forgets else WeekType().convert(words[-1], None, context)
    if week and week.first_day > session.today + timedelta(days=1):
        raise WordError(f"{week_words(week)}, {week.name}, is yet to come: name a week that has begun")
    keys = list(dict.fromkeys(PhotoType().convert(name, None, context).key for name in names))

    def tell(connection: sqlite3.Connection) -> set[str]:
        """Tells it; the keys of which there was nothing to forget."""
        untold = set(keys) - assignments(connection).keys() if forgets else set()
        if forgets:
            forget(connection, keys, session.today)
        elif taken:
            tell_taken(connection, keys, taken, session.today)
        elif week:
            tell_week(connection, keys, week.first_day, session.today)
        return untold

    untold, moves = tell_and_compare(session, tell)
    by_key = {photo.key: photo for photo in photos_with_keys(session.connection, keys)}
    now = [by_key[key] for key in keys]
    emit(
        as_json,
        assign_words.document(now, moves, session.settings),
        assign_words.lines(now, moves, session.settings, untold=untold),
    )


def _is_week(word: str, context: click.Context) -> bool:
    """Whether a word can only be a week: no file is called so."""
    try:
        WeekType().convert(word, None, context)
    except WeekError:
        return False
    return not Path(word).exists()
