"""weeksheaf prints"""

from pathlib import Path

import click

from queries.cli.output import emit
from queries.cli.parameters import WeekType, as_json
from queries.cli.session import Session
from queries.weeks import Week


@click.command("prints", short_help="Make the files for the lab, and how to cut the prints.")
@click.argument("weeks", metavar="WEEK...", type=WeekType(), nargs=-1)
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--journal", is_flag=True, help="Typeset the week's words on cards, as further pieces.")
@click.option("--handwritten", is_flag=True, help="Lined cards for your own hand instead.")
@click.option("--home", "at_home", is_flag=True, help="The cards into a PDF for your own printer, at actual size.")
@click.option(
    "--shrink/--apart",
    "shrinks",
    default=True,
    help="Where print.lab_trim leaves too little room for pieces side by side: shrink them by a hair (as it is when"
    " nothing is said), or give them prints of their own.",
)
@click.option("--again", is_flag=True, help="Pieces too that were ordered before and have not changed.")
@click.option("--yes", is_flag=True, help="Write them in spite of what is listed as worth a look.")
@click.option("--calibrate", is_flag=True, help="One print with rulers: it shows what the lab takes of the edges.")
@as_json
@click.pass_obj
def command(
    session: Session,
    weeks: tuple[Week, ...],
    folder: Path,
    journal: bool,
    handwritten: bool,
    at_home: bool,
    shrinks: bool,
    again: bool,
    yes: bool,
    calibrate: bool,
    as_json: bool,
) -> None:
    """Make the print files of one or several weeks from their plans, on the fewest prints, with a cutting guide.

    What costs money when it is wrong is listed before anything is written. Before your first order, have the one print
    of --calibrate made: it tells what your lab takes of the edges.
    """
    from queries.cli import print_making, print_words  # need numpy and scipy, which are slow to start
    from queries.prints.printing import Asked

    if calibrate:
        if weeks or journal or handwritten or at_home or again:
            raise click.UsageError("--calibrate goes alone: weeksheaf prints --calibrate FOLDER")
        file = print_making.calibrated(session, folder)
        emit(as_json, {"file": str(file)}, print_words.calibrated_lines(file))
        return
    if not weeks:
        raise click.UsageError("name the weeks and a folder: weeksheaf prints WEEK... FOLDER")
    asked = Asked("shrink" if shrinks else "apart", journal or handwritten or at_home, handwritten, at_home, again)
    order = print_making.prepared_order(session, weeks, folder, asked)
    print_making.confirm(order, folder, yes=yes, as_json=as_json)
    made = print_making.written(session, order, folder)
    emit(as_json, print_words.document(order, made, folder), print_words.lines(order, made, folder))
