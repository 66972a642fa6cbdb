"""weeksheaf pull"""

from pathlib import Path

import click

from queries.cli import pull_words
from queries.cli.output import emit
from queries.cli.parameters import WeekType, as_json, shortlisted
from queries.cli.session import Session
from queries.photos import photos_of_week
from queries.week_log import UNTOLD, latest_words
from queries.weeks import Week


@click.command("pull")
@click.argument("week", type=WeekType())
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--all", "takes_all", is_flag=True, help="Every photo, those too that are alike to a keeper or left out.")
@shortlisted("The N photos that tell the week, as weeksheaf week --shortlist N proposes them.")
@click.option("--jpeg", "as_jpeg", is_flag=True, help="Upright sRGB JPEGs instead of exact copies.")
@as_json
@click.pass_obj
def command(
    session: Session, week: Week, folder: Path, takes_all: bool, wanted: int | None, as_jpeg: bool, as_json: bool
) -> None:
    """Make a working folder of a week's photos, with a week sheet. Run again, it adds what is missing.

    It takes the keepers; the sheet shows small what was left out.
    """
    from indexer.store.library_folders import library_folders
    from queries.cli.pull_choice import selection
    from queries.pull import pull_week

    if takes_all and wanted is not None:
        raise click.UsageError("--all and --shortlist exclude each other: every photo, or the N that tell the week")
    settings = session.settings
    photos = photos_of_week(session.connection, week, settings.day_starts_at)
    result = pull_week(
        selection(session, photos, takes_all=takes_all, wanted=wanted),
        week,
        latest_words(session.connection, settings.week_rule).get(week, UNTOLD),
        folder,
        [Path(library.path) for library in library_folders(session.connection)],
        as_jpeg=as_jpeg,
        say=lambda line: click.echo(line, err=True),
        day_of=lambda photo: photo.shown_day(week, settings.day_starts_at),
    )
    emit(as_json, pull_words.document(week, result), pull_words.lines(result))
    if result.failed or result.not_found:
        raise pull_words.incomplete(result)
