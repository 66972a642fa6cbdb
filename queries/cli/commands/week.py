"""weeksheaf week"""

import click

from queries.cli import documents, wording
from queries.cli.output import emit
from queries.cli.parameters import WeekType, as_json
from queries.cli.session import Session
from queries.photos import photos_of_week
from queries.progress import UNTOLD, compare_with_page, log_of
from queries.weeks import Week


@click.command("week")
@click.argument("week", type=WeekType())
@as_json
@click.pass_obj
def command(session: Session, week: Week, as_json: bool) -> None:
    """Show a week: its state and history, its days and photos."""
    settings = session.settings
    photos = photos_of_week(session.connection, week, settings.day_starts_at)
    log = log_of(session.connection, week, settings.week_rule)
    word = log[-1] if log else UNTOLD
    shown = (week, photos, log, word, compare_with_page(session.connection, word, photos), settings)
    emit(as_json, documents.week_document(*shown), wording.week_page(*shown))
