"""weeksheaf backup"""

from pathlib import Path

import click

from indexer.errors import WordError
from queries.cli.output import emit, plural
from queries.cli.parameters import as_json
from queries.cli.session import Session
from queries.cli.visible import visible


@click.command("backup", short_help="Save all that you told the tool to FILE.")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@as_json
@click.pass_obj
def command(session: Session, file: Path, as_json: bool) -> None:
    """Save all that you told the tool to FILE: states, waits, choices, clocks and so on. Readable JSON."""
    from indexer.store.backup import write_backup
    from indexer.store.library_folders import refuse_inside_library

    refuse_inside_library(session.connection, file)
    try:
        count = write_backup(session.connection, file)
    except OSError as error:
        raise WordError(f"the backup {file} cannot be written ({error.strerror}); choose another place") from error
    emit(
        as_json,
        {"file": str(file.absolute()), "words": count},
        [f"{plural(count, 'entry', 'entries')} saved to {visible(str(file))}"],
    )
