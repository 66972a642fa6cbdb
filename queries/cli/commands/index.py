"""weeksheaf index"""

from contextlib import closing
from pathlib import Path

import click

from queries.cli import index_words
from queries.cli.group import INTERRUPTED
from queries.cli.output import emit
from queries.cli.parameters import as_json
from queries.cli.progress_line import ProgressLine
from queries.cli.session import Session, warn


@click.command("index", short_help="Read the photos in FOLDERS, or in all folders known so far.")
@click.argument("folders", nargs=-1, type=click.Path(path_type=Path))
@click.option("--accept-missing", is_flag=True, help="Photos in a folder that is empty or gone count as missing.")
@as_json
@click.pass_context
def command(context: click.Context, folders: tuple[Path, ...], accept_missing: bool, as_json: bool) -> None:
    """Read the photos in FOLDERS, or in all known folders when none is named. Photos are never changed."""
    from indexer import check_before_opening, index_folders, open_for_writing, the_only_run
    from indexer.store.backup import newest_backup
    from indexer.store.telling import back_up

    session: Session = context.obj
    check_before_opening(session.index, folders)
    is_new = not session.index.exists()
    with (
        closing(open_for_writing(session.index, create=bool(folders))) as connection,
        the_only_run(session.index),
        ProgressLine() as line,
    ):
        summary = index_folders(
            connection, folders, today=session.today, accept_missing=accept_missing, report=line.show
        )
        back_up(connection, session.index, warn)
    standing = index_words.standing(session.connection, session.settings)
    emit(as_json, index_words.document(summary, standing), index_words.lines(summary, standing, folders))
    if is_new and (older := newest_backup(session.index)):
        warn(
            f"backups of an earlier index lie beside this one; what you told it comes back with:"
            f" weeksheaf restore {older}"
        )
    if summary.was_stopped:
        click.echo("Stopped. What was read is kept; the same command goes on from here.", err=True)
        context.exit(INTERRUPTED)
    if summary.held:
        raise index_words.held_error(summary)
