"""Which pictures stand on the week sheet, and what is said of each. Pure."""

from collections import defaultdict
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from queries.photos import Photo
from queries.pull.names import known_time
from queries.pull.plan import PlannedFile, PullPlan, Source
from queries.pull.selection import LeftOut
from queries.pull.sheet_values import Aside, Entry, Small

_TIMES_BY_PRECISION = {"day": "day only", "month": "month only", "year": "year only"}


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
    album_day: Callable[[Photo], date | None],
) -> SheetContent:
    """An entry a photo, in capture order. `ours` are the names in the folder that hold what was pulled."""
    behind: dict[str | None, list[Small]] = defaultdict(list)
    for item in left_out:
        behind[item.behind].append(_small(item))
    return SheetContent(
        tuple(
            Entry(
                code=file.photo.code,
                day=album_day(file.photo),
                time=time_words(file.photo),
                is_doubtful=file.photo.doubtful,
                is_damaged=file.photo.damage is not None,
                width=file.photo.width,
                height=file.photo.height,
                path=_picture_path(file, ours, folder),
                behind=tuple(behind[file.photo.key]),
            )
            for file in plan.files
        ),
        tuple(Aside(album_day(item.photo), _small(item)) for item in left_out if item.behind is None),
    )


def time_words(photo: Photo) -> str:
    """The time of day for people: "09:15", or how much else is known."""
    clock = known_time(photo).partition("T")[2]
    return clock[:5] or _TIMES_BY_PRECISION.get(photo.precision, "no date")


def _small(item: LeftOut) -> Small:
    photo = item.photo
    return Small(photo.code, photo.width, photo.height, photo.path, item.note)


def _picture_path(file: PlannedFile, ours: Collection[str], folder: Path) -> str | None:
    """The pulled file where it is ours, because it is near; else the original, if it is there."""
    if file.name in ours:
        return str(folder / file.name)
    return file.source.path if isinstance(file.source, Source) else None
