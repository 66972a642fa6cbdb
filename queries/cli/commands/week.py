"""weeksheaf week"""

import click

from queries.cli import week_page_words
from queries.cli.output import emit
from queries.cli.parameters import WeekType, as_json, shortlisted
from queries.cli.session import Session
from queries.week_page import week_page
from queries.weeks import Week


@click.command("week")
@click.argument("week", type=WeekType())
@shortlisted("Propose the N photos that tell the week, each with its reason.")
@as_json
@click.pass_obj
def command(session: Session, week: Week, wanted: int | None, as_json: bool) -> None:
    """Show a week: its state and history, its days and photos."""
    page = week_page(session.connection, week, session.settings)
    document = week_page_words.document(page, session.settings)
    if wanted is None:
        emit(as_json, document, week_page_words.lines(page, session.settings))
        return
    from queries.cli import shortlist_words
    from queries.cli.shortlisting import shortlist_of  # needs numpy, which is slow to start

    found = shortlist_of(session, page.photos, wanted)
    emit(
        as_json,
        {**document, **shortlist_words.document(found, page.photos)},
        (*week_page_words.head(page), *shortlist_words.lines(found, page.photos)),
    )
