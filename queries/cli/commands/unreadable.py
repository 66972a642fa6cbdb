"""weeksheaf unreadable"""

import click

from queries.cli import wording
from queries.cli.output import emit
from queries.cli.parameters import as_json
from queries.cli.session import Session
from queries.photos import unreadable_files


@click.command("unreadable", short_help="List the files that could not be read in full.")
@as_json
@click.pass_obj
def command(session: Session, as_json: bool) -> None:
    """List the files that could not be read in full: the step that failed, and why."""
    rows = unreadable_files(session.connection)
    document = {"files": [{"path": path, "step": step, "reason": reason} for path, step, reason in rows]}
    emit(as_json, document, wording.unreadable(rows))
