"""weeksheaf why"""

import click

from queries.cli import documents, wording
from queries.cli.output import emit
from queries.cli.parameters import PhotoType, as_json
from queries.cli.session import Session
from queries.evidence import evidence_of
from queries.photos import Photo


@click.command("why", short_help="Show what speaks for a photo's capture time.")
@click.argument("photo", type=PhotoType())
@as_json
@click.pass_obj
def command(session: Session, photo: Photo, as_json: bool) -> None:
    """Show what speaks for a photo's capture time, and which of it was believed."""
    rows = evidence_of(session.connection, photo)
    emit(
        as_json,
        documents.why_document(photo, rows, session.settings),
        wording.why(photo, rows, session.settings),
    )
