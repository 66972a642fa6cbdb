"""weeksheaf tour"""

import shlex
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory, mkdtemp

import click

from queries.cli.session import Session
from queries.cli.visible import visible
from queries.progress import WeekRow, week_table
from queries.weeks import week_words


@click.command("tour", short_help="Show the main job on the sample library, or on FOLDER.")
@click.argument("folder", required=False, type=click.Path(path_type=Path))
@click.pass_context
def command(context: click.Context, folder: Path | None) -> None:
    """Show the main job on the sample library, or on FOLDER, step by step, in an index of its own."""
    main = context.find_root().command
    library = folder or sample_library()
    with TemporaryDirectory(prefix="weeksheaf-tour-") as scratch:
        index = Path(scratch, "index.db")

        def step(says: str, *words: str) -> None:
            click.secho(f"\n{says}", bold=True)
            click.echo(f"$ weeksheaf {visible(shlex.join(words))}")
            exit_code = main.main(["--index", str(index), *words], prog_name="weeksheaf", standalone_mode=False)
            if exit_code:
                context.exit(exit_code)

        step("1. Index a photo library. The photos are only read.", "index", str(library))
        week = _fullest_week(index)
        if week is None:
            click.echo("\nNo week of this folder has photos with a day, so the tour ends here.")
            return
        working_folder = mkdtemp(prefix=f"{week.week.name}-")
        for says, words in _further_steps(week, working_folder):
            step(says, *words)
    click.echo(f"\nThe working folder is yours to look at and to delete: {working_folder}")


def sample_library() -> Path:
    """The sample library: inside the package where it was installed, beside it in a checkout."""
    package = Path(__file__).parents[2]
    inside = package / "sample_library"
    return inside if inside.is_dir() else package.parent / "sample_library"


def _fullest_week(index: Path) -> WeekRow | None:
    session = Session(index)
    try:
        rows = week_table(session.connection, session.settings).rows
    finally:
        session.close()
    return max((row for row in rows if row.photos), key=lambda row: row.photos - row.doubtful, default=None)


def _further_steps(row: WeekRow, working_folder: str) -> Iterator[tuple[str, tuple[str, ...]]]:
    week = row.week.name
    yield "2. See which cameras and phones the photos come from.", ("devices",)
    yield "3. List the weeks that are not finished.", ("weeks", "--unfinished")
    yield f"4. Look at one of them: {week_words(row.week)}.", ("week", week)
    yield "5. See which of its photos are alike, and which one of each set is kept.", ("alike", week)
    wanted = str(max(1, row.keepers // 2))
    yield f"6. Ask which {wanted} of them tell the week, and why.", ("week", week, "--shortlist", wanted)
    yield (
        "7. Pull the keepers into a working folder; the week sheet shows the others small.",
        ("pull", week, working_folder),
    )
    yield "8. Plan the week's spread: which photo in which pocket, and where cards go.", ("fit", week)
    prints = str(Path(working_folder, "prints"))
    yield (
        "9. Make the files for the lab. What is worth a look comes first; --yes goes on.",
        ("prints", week, prints, "--yes"),
    )
    yield "10. They go to the lab.", ("order", "sent", "o01")
    yield (
        "11. Until they and cards in the right blue are here, the week waits.",
        ("mark", week, "waiting", "--for", "prints", "--for", "supplies:slate-blue cards"),
    )
    yield "12. The prints arrive: which weeks waited for them?", ("order", "arrived", "o01")
    yield "13. Months later the cards turn up too, and the week gets done.", ("mark", week, "done")
    yield "14. What is left:", ("weeks", "--unfinished", "--until", str(row.week.last_day))
