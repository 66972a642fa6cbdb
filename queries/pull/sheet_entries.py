"""Which pictures stand on the week sheet, and what is said of each. Pure."""

from collections.abc import Callable, Collection
from datetime import date
from pathlib import Path

from queries.photos import Photo
from queries.pull.names import known_time
from queries.pull.plan import PlannedFile, PullPlan, Source
from queries.pull.sheet_layout import Entry

_TIMES_BY_PRECISION = {"day": "day only", "month": "month only", "year": "year only"}


def entries_of(
    plan: PullPlan, ours: Collection[str], folder: Path, album_day: Callable[[Photo], date | None]
) -> tuple[Entry, ...]:
    """An entry a photo, in capture order. `ours` are the names in the folder that hold what was pulled."""
    return tuple(
        Entry(
            code=file.photo.code,
            day=album_day(file.photo),
            time=time_words(file.photo),
            is_doubtful=file.photo.doubtful,
            is_damaged=file.photo.damage is not None,
            width=file.photo.width,
            height=file.photo.height,
            path=_picture_path(file, ours, folder),
        )
        for file in plan.files
    )


def time_words(photo: Photo) -> str:
    """The time of day for people: "09:15", or how much else is known."""
    clock = known_time(photo).partition("T")[2]
    return clock[:5] or _TIMES_BY_PRECISION.get(photo.precision, "no date")


def _picture_path(file: PlannedFile, ours: Collection[str], folder: Path) -> str | None:
    """The pulled file where it is ours, because it is near; else the original, if it is there."""
    if file.name in ours:
        return str(folder / file.name)
    return file.source.path if isinstance(file.source, Source) else None
