"""weeksheaf fit"""

from pathlib import Path
from typing import Any

import click

from queries.cli.documents import week_fields
from queries.cli.fit_parameters import wished, wishes_of
from queries.cli.output import emit
from queries.cli.parameters import PhotoType, WeekType, as_json
from queries.cli.session import Session
from queries.photos import Photo
from queries.weeks import Week, week_words


@click.command("fit", short_help="Plan a week's spread: which photo in which pocket.")
@click.argument("week", type=WeekType())
@click.argument("photos", metavar="[PHOTO]...", type=PhotoType(), nargs=-1)
@wished
@click.option("--picture", type=click.Path(path_type=Path), metavar="FILE", help="Draw the spread into a PNG or JPEG.")
@click.option("--forget", "forgets", is_flag=True, help="Forget the week's plan and all that was fixed in it.")
@as_json
@click.pass_obj
def command(
    session: Session,
    /,
    week: Week,
    photos: tuple[Photo, ...],
    picture: Path | None,
    forgets: bool,
    as_json: bool,
    **said: Any,
) -> None:
    """Plan a week's spread: which photo in which pocket, and which pockets hold cards.

    Takes the week's shortlist, or the photos named. The plan is kept: run again, it is shown; with further options the
    rest is planned anew around what you fixed, then and now. Pockets are L1, L2, ... R1, ... from the top left.
    """
    from queries.cli import fit_words
    from queries.cli.fitting import forgotten, planned  # need numpy, which is slow to start

    wishes = wishes_of(photos, said)
    if forgets:
        if not wishes.is_nothing or picture:
            raise click.UsageError("--forget goes alone: forget the plan first, then make another")
        was_there = forgotten(session, week)
        says = "forgotten, and all that was fixed in it" if was_there else "there was none"
        emit(as_json, {"week": week_fields(week), "forgotten": was_there}, [f"Plan of {week_words(week)}: {says}"])
        return
    if picture:
        from queries.cli import fit_picture

        fit_picture.check_file(session, picture)
    spread = planned(session, week, wishes)
    if picture:
        fit_picture.draw(spread, week, picture)
    emit(as_json, fit_words.document(week, spread, picture), fit_words.lines(week, spread, picture))
