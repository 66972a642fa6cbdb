"""Which pictures stand on the week sheet, and what is said of each. Pure."""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from queries.originals import Source
from queries.photos import Photo, as_lived
from queries.pull.names import known_time
from queries.pull.plan import PlannedFile, PullPlan
from queries.pull.selection import LeftOut
from queries.pull.sheet_values import Aside, Entry, Small
from queries.weeks import date_words

_TIMES_BY_PRECISION = {"day": "day only", "between": "about then", "month": "month only", "year": "year only"}


@dataclass(frozen=True, slots=True)
class SheetContent:
    """All that stands on the sheet: the pulled photos, and what is left out and stands behind none of them."""

    entries: tuple[Entry, ...]
    asides: tuple[Aside, ...] = ()

    @property
    def left_out(self) -> int:
        """How many pictures are shown small."""
        return len(self.asides) + sum(len(entry.behind) for entry in self.entries)


def content_of(
    plan: PullPlan,
    left_out: Sequence[LeftOut],
    ours: Collection[str],
    folder: Path,
    day_of: Callable[[Photo], date | None],
) -> SheetContent:
    """An entry a photo, each day in the order it was lived. `ours` are the names in the folder that hold what was
    pulled; `day_of` gives the day of the week, None for a photo that was put here by hand."""
    behind: dict[str | None, list[Small]] = defaultdict(list)
    for item in left_out:
        behind[item.behind].append(_small(item))
    return SheetContent(
        tuple(
            Entry(
                code=file.photo.code,
                day=(day := day_of(file.photo)),
                time=time_words(file.photo) if day else date_known(file.photo),
                is_doubtful=file.photo.doubtful,
                is_damaged=file.photo.damage is not None,
                width=file.photo.width,
                height=file.photo.height,
                path=_picture_path(file, ours, folder),
                behind=tuple(behind[file.photo.key]),
            )
            for file in _as_lived(plan.files, day_of)
        ),
        tuple(Aside(day_of(item.photo), _small(item)) for item in left_out if item.behind is None),
    )


def _as_lived(files: Sequence[PlannedFile], day_of: Callable[[Photo], date | None]) -> Iterator[PlannedFile]:
    """The files of each day in the order of `as_lived`: on a journey, clocks alone would mislead."""
    by_key = {file.photo.key: file for file in files}
    days: dict[date | None, list[Photo]] = defaultdict(list)
    for file in files:
        days[day_of(file.photo)].append(file.photo)
    for photos in days.values():
        yield from (by_key[photo.key] for photo in as_lived(photos))


def time_words(photo: Photo) -> str:
    """The time of day for people: "09:15", or how much else is known."""
    clock = known_time(photo).partition("T")[2]
    return clock[:5] or _TIMES_BY_PRECISION.get(photo.precision, "no date")


def date_known(photo: Photo) -> str:
    """The date of a photo that was taken on no day of the week: "12 Apr 2026", "1996-08", "no date"."""
    known = known_time(photo)[:10]
    return date_words(date.fromisoformat(known)) if len(known) == 10 else known or "no date"


def _small(item: LeftOut) -> Small:
    photo = item.photo
    return Small(photo.code, photo.width, photo.height, photo.path, item.note)


def _picture_path(file: PlannedFile, ours: Collection[str], folder: Path) -> str | None:
    """The pulled file where it is ours, because it is near; else the original, if it is there."""
    if file.name in ours:
        return str(folder / file.name)
    return file.source.path if isinstance(file.source, Source) else None
