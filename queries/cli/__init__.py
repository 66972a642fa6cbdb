"""The command line: `weeksheaf [--index FILE] COMMAND`."""

import io
import os
import sys
from pathlib import Path

import click

from queries.cli.group import LazyGroup
from queries.cli.session import Session


def default_index() -> Path:
    """Where the index lies when nothing else is said: in the per-user application folder."""
    return Path(click.get_app_dir("weeksheaf")) / "index.db"


#: Command, and the module of queries.cli.commands it stands in: loaded only when it is called, or help is asked for.
COMMANDS = {
    "index": "index",
    "weeks": "weeks",
    "week": "week",
    "alike": "alike",
    "keep": "keep",
    "leave": "leave",
    "mark": "mark",
    "pull": "pull",
    "sleeves": "sleeves",
    "fit": "fit",
    "prints": "prints",
    "note": "note",
    "order": "order",
    "reprint": "reprint",
    "why": "why",
    "undated": "undated",
    "assign": "assign",
    "clock": "clock",
    "unreadable": "unreadable",
    "devices": "devices",
    "settings": "settings",
    "backup": "backup",
    "restore": "restore",
    "tour": "tour",
}


@click.group(cls=LazyGroup, modules=COMMANDS, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="weeksheaf")
@click.option(
    "--index",
    "index_file",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Where the index lies (also: WEEKSHEAF_INDEX). Default: index.db in your application folder.",
)
@click.pass_context
def main(context: click.Context, index_file: Path | None) -> None:
    """Index a photo library, list the weeks of your paper album, pull a week's photos into a working folder.

    Your photos are only ever read. A WEEK is 2026-W14, any date in it (2026-04-01), this or last. A PHOTO is a path or
    the code printed beside it.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a terminal that knows no emoji must not end a listing
            stream.reconfigure(errors="backslashreplace")
    told = index_file or os.environ.get("WEEKSHEAF_INDEX")
    context.obj = Session(Path(told) if told else default_index())
    context.call_on_close(context.obj.close)
