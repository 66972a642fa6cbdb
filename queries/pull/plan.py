"""What a pull will do, decided from values: no disk, no clock. Pure."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from indexer.errors import PullError
from queries.made_files.values import FileState, bytes_words, is_as_recorded
from queries.originals import NoSource, Source
from queries.photos import Photo
from queries.pull.manifest import Manifest, PulledPhoto
from queries.pull.names import capture_order, names_of
from queries.weeks import Week, span_words, week_words

#: copy: to be written. keep: there, ours and unchanged. leave: there, and the person's. missing: no original to copy.
Action = Literal["copy", "keep", "leave", "missing"]

#: The most that a JPEG of quality 95 and 4:4:4 took for a pixel, on 35 photographs (their median was 0.2).
JPEG_BYTES_PER_PIXEL = 0.75
#: What a JPEG takes besides: its tables, Exif and colour profile.
JPEG_BYTES_AT_LEAST = 2_000


@dataclass(frozen=True, slots=True)
class PlannedFile:
    """One photo of the week: its file name, what to do, the bytes that this will write, and why where it is not plain.

    `state` and `record` are what lies under the name now and what was recorded of it, as far as either is there.
    """

    photo: Photo
    name: str
    action: Action
    source: Source | NoSource
    state: FileState | None = None
    record: PulledPhoto | None = None
    size: int = 0
    reason: str = ""


@dataclass(frozen=True, slots=True)
class PullPlan:
    """The whole pull in capture order. `strays` are files pulled earlier whose photos are not in it now.

    `total_bytes` are to be written; `is_estimate` says that they are reckoned from pixels.
    """

    files: tuple[PlannedFile, ...]
    strays: tuple[PulledPhoto, ...]
    is_estimate: bool

    @property
    def total_bytes(self) -> int:
        return sum(file.size for file in self.files)

    def having(self, action: Action) -> tuple[PlannedFile, ...]:
        return tuple(file for file in self.files if file.action == action)


def plan_pull(
    photos: Sequence[Photo],
    week: Week,
    folder: Path,
    *,
    as_jpeg: bool,
    held: Manifest | None,
    on_disk: Mapping[str, FileState],
    sources: Mapping[str, Source | NoSource],
    beside: Sequence[Photo] = (),
) -> PullPlan:
    """Decide for each photo that is taken; `beside` are the others. `on_disk` goes by name, `sources` by photo key.

    Raises PullError when the folder holds another week, or the other kind of files.
    """
    if held is not None:
        _refuse_other_pull(held, week, folder, as_jpeg=as_jpeg)
    records = {record.key: record for record in held.photos} if held else {}
    names = names_of(photos, {key: record.file for key, record in records.items()}, as_jpeg=as_jpeg, beside=beside)
    files = []
    for photo in sorted(photos, key=capture_order):
        name, source, record = names[photo.key], sources[photo.key], records.get(photo.key)
        state = on_disk.get(name)
        action, reason = _judge(record, state, source)
        size = _bytes_to_write(photo, source, as_jpeg=as_jpeg) if action == "copy" else 0
        files.append(PlannedFile(photo, name, action, source, state, record, size, reason))
    strays = (record for key, record in records.items() if key not in names and record.file in on_disk)
    return PullPlan(tuple(files), tuple(sorted(strays, key=lambda record: record.file)), is_estimate=as_jpeg)


def plan_words(plan: PullPlan, week: Week, left_out: int = 0) -> str:
    """The plan in one line, sizes shown, for the person to read before anything is copied.

    `left_out` is how many photos of the week are not in the plan.
    """
    parts = [f"{len(plan.files)} {'photo' if len(plan.files) == 1 else 'photos'}"]
    if copies := plan.having("copy"):
        about = "up to about " if plan.is_estimate else ""
        parts.append(f"{len(copies)} to copy ({about}{bytes_words(plan.total_bytes)})")
    parts += [f"{len(kept)} already there"] if (kept := plan.having("keep")) else []
    parts += [f"{len(left)} left as they are"] if (left := plan.having("leave")) else []
    parts += [f"{len(missing)} without an original"] if (missing := plan.having("missing")) else []
    parts += [f"{left_out} left out"] if left_out else []
    return f"{week_words(week)}: {', '.join(parts)}"


def _judge(record: PulledPhoto | None, state: FileState | None, source: Source | NoSource) -> tuple[Action, str]:
    if state is None:
        return ("missing", source.reason) if isinstance(source, NoSource) else ("copy", "")
    if not state.is_plain:
        return "leave", "a folder or link has this name"
    if record is not None:
        return ("keep", "") if is_as_recorded(record, state) else ("leave", "changed since it was pulled")
    if isinstance(source, NoSource):
        return "leave", f"not known to be ours, and its original cannot be compared: {source.reason}"
    if state.sha256 is not None and state.sha256 == source.fresh_sha256:
        return "keep", ""
    return "leave", "another file has this name"


def _bytes_to_write(photo: Photo, source: Source | NoSource, *, as_jpeg: bool) -> int:
    if as_jpeg:
        return round(photo.width * photo.height * JPEG_BYTES_PER_PIXEL) + JPEG_BYTES_AT_LEAST
    return source.size if isinstance(source, Source) else 0


def _refuse_other_pull(held: Manifest, week: Week, folder: Path, *, as_jpeg: bool) -> None:
    if held.first_day != week.first_day:
        there = span_words(Week(held.first_day, held.week_name))
        raise PullError(f"{folder} holds the photos of {there} already; choose another folder for {span_words(week)}")
    if held.photos and held.as_jpeg != as_jpeg:
        there, asked = ("JPEGs", "exact copies") if held.as_jpeg else ("exact copies", "JPEGs")
        raise PullError(f"{folder} holds {there} already; pull the {asked} into a folder of their own")
