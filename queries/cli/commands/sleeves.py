"""weeksheaf sleeves"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from queries.cli import sleeve_words
from queries.cli.output import emit
from queries.cli.parameters import as_json
from queries.cli.session import Session
from queries.sleeves.catalogue import catalogue

if TYPE_CHECKING:
    from queries.sleeves.catalogue import Catalogue


@click.group("sleeves", invoke_without_command=True, short_help="List page protectors; draw them, tick those at home.")
@click.option("--all", "show_all", is_flag=True, help="All that are made by rule, not only the plainest.")
@as_json
@click.pass_context
def command(context: click.Context, show_all: bool, as_json: bool) -> None:
    """List the sleeves: those at home, those that you drew, those made by rule. --json lists all.

    Works before anything is indexed.
    """
    if context.invoked_subcommand:
        if as_json or show_all:
            raise click.UsageError(f"write options at the end: weeksheaf sleeves {context.invoked_subcommand} ...")
        return
    found = _catalogue(context.obj)
    emit(as_json, sleeve_words.catalogue_document(found), sleeve_words.catalogue_lines(found, show_all=show_all))


@command.command("add", short_help="Add the sleeves drawn in a TOML file.")
@click.argument("file", type=click.Path(path_type=Path))
@as_json
@click.pass_obj
def add(session: Session, file: Path, as_json: bool) -> None:
    """Add the sleeves drawn in FILE, a TOML file; a drawing of the same name replaces the earlier one.

    They count as at home. One drawing that is refused refuses the whole file.
    """
    from indexer.store.sleeves import tell_drawing, tell_owned
    from queries.sleeves.drawing_file import read_drawings

    drawings = read_drawings(file)
    before = _catalogue(session)
    before.refuse_names_by_rule(item.name for item in drawings)
    held = {item.name: (item.drawing, item.cell) for item in before.known}
    names = [item.name for item in drawings]
    with session.telling(create=True) as connection:
        for item in drawings:
            if held.get(item.name) != (item.drawing, item.cell):
                tell_drawing(connection, item.name, str(item.cell), item.drawing)
        away = [item.name for item in catalogue(connection).known if item.name in names and not item.at_home]
        tell_owned(connection, away, owned=True)
    after = _catalogue(session)
    added = [after.named(name) for name in names]
    emit(as_json, sleeve_words.told_document(added), sleeve_words.added_lines(added, before))


@command.command("show", short_help="Draw a sleeve as text, to scale.")
@click.argument("name")
@click.option("--back", is_flag=True, help="Its back, the mirror image.")
@as_json
@click.pass_obj
def show(session: Session, name: str, back: bool, as_json: bool) -> None:
    """Draw the front of the sleeve NAME as text, to scale, each pocket with its name and size."""
    item, face = _catalogue(session).named(name), "back" if back else "front"
    emit(as_json, sleeve_words.face_document(item, face), sleeve_words.face_lines(item, face))


@command.command("own", short_help="Say which sleeves are at home.")
@click.argument("names", nargs=-1, required=True, metavar="NAME...")
@click.option("--not", "is_away", is_flag=True, help="They are not at home.")
@as_json
@click.pass_obj
def own(session: Session, names: tuple[str, ...], is_away: bool, as_json: bool) -> None:
    """Say that the sleeves of these NAMES are at home, or with --not that they are not.

    A week without a sleeve of its own is planned over those at home.
    """
    from indexer.store.sleeves import tell_owned

    found = _catalogue(session)
    meant = {item.name: item for item in map(found.named, names)}
    changed = [name for name, item in meant.items() if item.at_home == is_away]
    if changed:
        with session.telling(create=True) as connection:
            tell_owned(connection, changed, owned=not is_away)
    found = _catalogue(session)
    emit(as_json, sleeve_words.at_home_document(found), sleeve_words.at_home_lines(found))


@command.command("forget", short_help="Take a drawn sleeve back.")
@click.argument("names", nargs=-1, required=True, metavar="NAME...")
@as_json
@click.pass_obj
def forget(session: Session, names: tuple[str, ...], as_json: bool) -> None:
    """Take back sleeves that you drew."""
    from indexer.store.sleeves import take_back_drawing

    found = _catalogue(session)
    meant = list(dict.fromkeys(map(found.drawn_name, names)))
    with session.telling(create=True) as connection:
        for name in meant:
            take_back_drawing(connection, name)
    emit(as_json, {"forgotten": meant}, sleeve_words.forgotten_lines(meant))


def _catalogue(session: Session) -> "Catalogue":
    return catalogue(session.connection if session.index.exists() else None)
