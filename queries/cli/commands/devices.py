"""weeksheaf devices"""

import click

from queries.cli import documents, wording
from queries.cli.output import emit
from queries.cli.parameters import as_json
from queries.cli.session import Session
from queries.devices import devices, uncopied


@click.command("devices", short_help="List cameras and phones with their first and last photo.")
@as_json
@click.pass_obj
def command(session: Session, as_json: bool) -> None:
    """List cameras and phones with their first and last photo: one that ends early has not been copied yet."""
    found = devices(session.connection)
    late = uncopied(found)
    document = {"devices": [documents.device_fields(device, late) for device in found]}
    emit(as_json, document, wording.devices(found, late))
