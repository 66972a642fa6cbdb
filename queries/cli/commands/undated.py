"""weeksheaf undated"""

import click

from queries.cli import documents, wording
from queries.cli.output import emit
from queries.cli.parameters import as_json
from queries.cli.session import Session
from queries.evidence import count_suggestions
from queries.photos import doubtful_photos


@click.command("undated", short_help="List the photos whose capture time is doubtful or unknown.")
@as_json
@click.pass_obj
def command(session: Session, as_json: bool) -> None:
    """List the photos whose capture time is doubtful or unknown, with the reason."""
    photos = doubtful_photos(session.connection)
    document = {"photos": [documents.photo_fields(photo, session.settings) for photo in photos]}
    suggestions = count_suggestions(session.connection)
    emit(as_json, document, wording.undated(photos, session.settings, suggestions))
