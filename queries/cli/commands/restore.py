"""weeksheaf restore"""

from contextlib import closing
from pathlib import Path

import click

from indexer.errors import WordError
from queries.cli.output import emit, plural
from queries.cli.parameters import as_json
from queries.cli.session import Session, warn
from queries.cli.visible import visible
from queries.settings import setting_named


@click.command("restore")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@as_json
@click.pass_obj
def command(session: Session, file: Path, as_json: bool) -> None:
    """Bring back what a backup holds. Nothing is lost or doubled: what the index has already stays as it is."""
    from indexer.store.backup import read_backup, restore
    from indexer.store.opening import explained, open_for_writing
    from indexer.store.telling import back_up

    words = read_backup(file)
    for row in words["setting_log"]:
        try:
            setting = setting_named(row["name"])
            setting.check(setting.default if row["value"] is None else row["value"])
        except WordError as error:
            warn(f"a setting in {file} is kept and does not hold here: {error}")
    with closing(open_for_writing(session.index, create=True)) as connection, explained(session.index):
        done = restore(connection, words, session.today)
        back_up(connection, session.index, warn)
    document = {"file": str(file.absolute()), "added": done.added, "had": done.had}
    emit(
        as_json,
        document,
        [
            (
                f"{plural(done.added, 'entry', 'entries')} restored from {visible(str(file))},"
                f" {done.had:,} were here already"
            )
        ],
    )
