"""weeksheaf mark"""

import click

from indexer.store.words import STATES
from queries.cli import documents, wording
from queries.cli.output import emit, plural
from queries.cli.parameters import TextType, WaitType, WeekType, as_json
from queries.cli.session import Session
from queries.photos import photos_of_week
from queries.week_log import Word
from queries.weeks import Week, week_words


@click.command("mark", short_help="Tell how far a week is: open, started, waiting, done, skipped.")
@click.argument("week", type=WeekType())
@click.argument("state", type=click.Choice(STATES, case_sensitive=False))
@click.option(
    "--for",
    "waiting_for",
    type=WaitType(),
    multiple=True,
    help='What it waits for: supplies:"slate-blue cards", prints, photos:Aunt, words; plain text means supplies.',
)
@click.option("--note", type=TextType(), default="", help="A remark to keep with it.")
@as_json
@click.pass_obj
def command(session: Session, week: Week, state: str, waiting_for: tuple[str, ...], note: str, as_json: bool) -> None:
    """Tell how far a week is: open, started, waiting, done or skipped."""
    from indexer.store.week_log import tell_week

    if (state == "waiting") != bool(waiting_for):
        raise click.UsageError("a waiting week says what for (--for TEXT), and only a waiting week does")
    waiting_for = tuple(dict.fromkeys(waiting_for))
    starts_at = session.settings.day_starts_at
    with session.telling() as connection:
        photos = photos_of_week(connection, week, starts_at)
        keys = [photo.key for photo in photos] if state == "done" else []
        tell_week(connection, week.first_day, state, waiting_for=waiting_for, note=note, holding=keys)
    told = Word("", "", state, waiting_for, note)
    document = {**documents.week_fields(week), "state": state, "waiting_for": list(waiting_for), "photos": len(photos)}
    holds = f"{plural(len(photos), 'photo')} in this week" if photos else "no photos in this week"
    emit(as_json, document, [f"{week_words(week)} ({week.name}): {wording.state_words(told)}; {holds}"])
