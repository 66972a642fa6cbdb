"""weeksheaf weeks"""

from datetime import date

import click

from queries.cli import documents, wording
from queries.cli.output import emit
from queries.cli.parameters import DateType, as_json
from queries.cli.session import Session
from queries.progress import choose, week_table


@click.command("weeks")
@click.option("--unfinished", is_flag=True, help="Only weeks that are neither done nor skipped.")
@click.option("--ready", is_flag=True, help="Only weeks with photos that wait for nothing.")
@click.option("--since", type=DateType(), help="From the week of this date on.")
@click.option("--until", type=DateType(), help="Up to the week of this date.")
@as_json
@click.pass_obj
def command(
    session: Session, unfinished: bool, ready: bool, since: date | None, until: date | None, as_json: bool
) -> None:
    """List every week from the first photo to the last, newest last."""
    table = choose(
        week_table(session.connection, session.settings), unfinished=unfinished, ready=ready, since=since, until=until
    )
    emit(as_json, documents.week_table(table), wording.week_table(table))
