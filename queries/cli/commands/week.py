"""weeksheaf week"""

import click

from queries.cli import documents, wording
from queries.cli.output import emit
from queries.cli.parameters import WeekType, as_json, shortlisted
from queries.cli.session import Session
from queries.finished import compare_with_page
from queries.notes import notes_of_week
from queries.photos import photos_of_week
from queries.week_log import UNTOLD, log_of
from queries.weeks import Week


@click.command("week")
@click.argument("week", type=WeekType())
@shortlisted("Propose the N photos that tell the week, each with its reason.")
@as_json
@click.pass_obj
def command(session: Session, week: Week, wanted: int | None, as_json: bool) -> None:
    """Show a week: its state and history, its days and photos."""
    settings = session.settings
    photos = photos_of_week(session.connection, week, settings.day_starts_at)
    log = log_of(session.connection, week, settings.week_rule)
    word = log[-1] if log else UNTOLD
    notes = notes_of_week(session.connection, week, settings.week_rule)
    shown = (week, photos, log, word, compare_with_page(session.connection, word, photos), notes, settings)
    if wanted is None:
        emit(as_json, documents.week_document(*shown), wording.week_page(*shown))
        return
    from queries.cli import shortlist_words
    from queries.cli.shortlisting import shortlist_of  # needs numpy, which is slow to start

    found = shortlist_of(session, photos, wanted)
    emit(
        as_json,
        {**documents.week_document(*shown), **shortlist_words.document(found, photos)},
        (*wording.week_head(*shown[:-1]), *shortlist_words.lines(found, photos)),
    )
