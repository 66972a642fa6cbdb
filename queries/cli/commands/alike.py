"""weeksheaf alike"""

import click

from queries.alike import alike_report
from queries.cli import alike_words
from queries.cli.output import emit
from queries.cli.parameters import WeekType, as_json
from queries.cli.session import Session
from queries.weeks import Week


@click.command("alike", short_help="List photos alike: copies and bursts, and which one is kept.")
@click.argument("week", type=WeekType(), required=False)
@as_json
@click.pass_obj
def command(session: Session, week: Week | None, as_json: bool) -> None:
    """List photos that show one picture (copies) or one scene in quick succession (bursts), and which one is kept.

    Of the whole library, or with WEEK those with a photo in that week. Overrule the choice with keep and leave.
    """
    report = alike_report(session.connection, week, session.settings.day_starts_at)
    emit(as_json, alike_words.document(report, week, session.settings), alike_words.lines(report, week))
