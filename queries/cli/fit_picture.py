"""The spread of a week drawn into a picture file: for the command."""

from pathlib import Path

from queries.cli.session import Session
from queries.spread.gathering import file_of
from queries.spread.picture import DPI, Source, draw_spread
from queries.spread.picture_file import format_of, save_spread
from queries.spread.planning import Spread
from queries.weeks import Week, week_words


def check_file(session: Session, file: Path) -> None:
    """Refuse a file that cannot be drawn into, before anything is planned. Raises FolderError, PlanError."""
    from indexer.store.library_folders import refuse_inside_library

    refuse_inside_library(session.connection, file)
    format_of(file)


def draw(spread: Spread, week: Week, file: Path) -> None:
    """Draw it. Raises PlanError where the file cannot be written."""
    sources = {key: Source(photo.code, file_of(photo)) for key, photo in spread.photos.items()}
    save_spread(draw_spread(spread.kept, sources, week_words(week)), file, DPI)
