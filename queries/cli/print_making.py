"""Prints made and told: for the command."""

import sys
from collections.abc import Sequence
from pathlib import Path

import click

from indexer.errors import PrintError
from queries.cli import print_words
from queries.cli.output import emit, plural
from queries.cli.progress_line import ProgressLine
from queries.cli.session import Session
from queries.orders.values import Order
from queries.prints.calibration_file import write_ruler
from queries.prints.printing import Asked, Prepared, prepared
from queries.prints.writing import NOTHING_MADE, Made, write_order
from queries.settings import Settings
from queries.weeks import Week


def prepared_order(session: Session, weeks: Sequence[Week], folder: Path, asked: Asked) -> Prepared:
    """All that is decided before anything is written. Raises PrintError, FolderError."""
    _check_folder(session, folder)
    settings = session.settings
    return prepared(
        session.connection,
        weeks,
        folder.absolute(),
        asked,
        settings.lab,
        settings.week_rule,
        settings.day_starts_at,
    )


def confirm(order: Prepared, folder: Path, *, yes: bool, as_json: bool) -> None:
    """List what is worth a look, and go on where that is said. Raises PrintError where it is not."""
    if order.is_nothing or not order.risks or (yes and as_json):
        return
    emit(as_json, print_words.document(order, NOTHING_MADE, folder), print_words.risk_lines(order))
    if yes:
        return
    if as_json or not sys.stdin.isatty():
        count = plural(len(order.risks), "thing")
        raise PrintError(f"nothing was written: {count} to look at before it is paid for, listed above; --yes goes on")
    click.confirm("Write the prints all the same?", abort=True)


def written(session: Session, order: Prepared, folder: Path) -> Made:
    """The files made and the order told. Raises PrintError, FolderError."""
    from indexer.scan import Progress
    from indexer.store.orders import tell_order
    from queries.orders.order_text import order_text

    if order.is_nothing:
        return NOTHING_MADE

    def tell(told: Order) -> None:
        with session.telling() as connection:
            tell_order(connection, told.id, told.number, "planned", order_text(told))

    with ProgressLine() as line:
        return write_order(
            order,
            folder.absolute(),
            session.settings.home_paper,
            tell,
            lambda done, total: line.show(Progress("drawing", done, total, "")),
        )


def calibrated(session: Session, folder: Path) -> Path:
    """The ruler print in the folder; before anything is indexed too. Raises PrintError, FolderError."""
    if not session.index.exists():
        return write_ruler(Settings({}).lab, folder.absolute())
    _check_folder(session, folder)
    return write_ruler(session.settings.lab, folder.absolute())


def _check_folder(session: Session, folder: Path) -> None:
    from indexer.store.library_folders import library_folders
    from queries.made_files.folder import check_target

    check_target(folder, [Path(library.path) for library in library_folders(session.connection)])
