"""weeksheaf leave"""

import click

from queries.cli.choosing import tell_and_report
from queries.cli.parameters import PhotoType, as_json
from queries.cli.session import Session
from queries.photos import Photo


@click.command("leave", short_help="Leave a photo out of the album.")
@click.argument("photos", metavar="PHOTO...", type=PhotoType(), nargs=-1, required=True)
@click.option("--forget", is_flag=True, help="Go back to the tool's own choice.")
@as_json
@click.pass_obj
def command(session: Session, photos: tuple[Photo, ...], forget: bool, as_json: bool) -> None:
    """Leave photos out of the album; another of those alike takes the place. The files stay as they are."""
    tell_and_report(session, photos, None if forget else "leave", as_json=as_json)
