"""weeksheaf why"""

import click

from queries.behind import behind
from queries.cli import why_words
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
    shown = (photo, evidence_of(session.connection, photo), behind(session.connection, photo), session.settings)
    emit(as_json, why_words.document(*shown), why_words.lines(*shown))
