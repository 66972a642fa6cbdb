"""weeksheaf keep"""

import click

from queries.cli.choosing import tell_and_report
from queries.cli.parameters import PhotoType, as_json
from queries.cli.session import Session
from queries.photos import Photo


@click.command("keep", short_help="Keep a photo, whatever the tool would choose.")
@click.argument("photos", metavar="PHOTO...", type=PhotoType(), nargs=-1, required=True)
@click.option("--forget", is_flag=True, help="Go back to the tool's own choice.")
@as_json
@click.pass_obj
def command(session: Session, photos: tuple[Photo, ...], forget: bool, as_json: bool) -> None:
    """Keep photos, whatever the tool would choose: each stands for the photos that it is alike to."""
    tell_and_report(session, photos, None if forget else "keep", as_json=as_json)
