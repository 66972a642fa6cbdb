"""What week.json is to say of each photo. Pure."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from queries.made_files.writing import Written
from queries.originals import Source
from queries.photos import Photo
from queries.pull.manifest import PulledAlike, PulledPhoto
from queries.pull.plan import PlannedFile, PullPlan


def records_before_copying(plan: PullPlan, left_out: Mapping[str, Photo]) -> dict[str, PulledPhoto]:
    """By photo key: all that is known of the folder before anything is added to it. `left_out` are photos of the week.

    A record stays even when its file is gone and cannot be copied again now, so that its name stays too.
    """
    records = {file.photo.key: record for file in plan.files if (record := _standing_record(file))}
    return records | {record.key: _stray(record, left_out.get(record.key)) for record in plan.strays}


def new_record(photo: Photo, name: str, source_path: str, written: Written, source_sha256: str) -> PulledPhoto:
    """The record of a file just written."""
    return PulledPhoto(
        file=name,
        source=source_path,
        key=photo.key,
        code=photo.code,
        sha256=written.sha256,
        source_sha256=source_sha256 or written.sha256,
        size=written.size,
        mtime_ns=written.mtime_ns,
        taken=photo.taken,
        precision=photo.precision,
        zone=photo.zone,
        shape=photo.shape,
        width=photo.width,
        height=photo.height,
        doubtful=bool(photo.doubtful),
        keeper=photo.keeper,
        alike=_alike(photo),
    )


def _stray(record: PulledPhoto, photo: Photo | None) -> PulledPhoto:
    """The record of a file that stays though its photo is not pulled now."""
    if photo is None:
        return replace(record, in_week=False)
    return replace(record, in_week=True, keeper=photo.keeper, alike=_alike(photo))


def _alike(photo: Photo) -> PulledAlike | None:
    alike = photo.alike
    return PulledAlike(alike.kind, alike.keeper_code, alike.photos) if alike else None


def in_file_order(records: Iterable[PulledPhoto]) -> tuple[PulledPhoto, ...]:
    """Records as their files sort."""
    return tuple(sorted(records, key=lambda record: record.file))


def _standing_record(file: PlannedFile) -> PulledPhoto | None:
    """The record of a file that the plan does not write; what the index says of its photo is brought up to date."""
    record, state, source = file.record, file.state, file.source
    path = source.path if isinstance(source, Source) else None
    if record is not None:
        seen = state if file.action == "keep" and state else record
        written = Written(record.sha256, seen.size, seen.mtime_ns)
        return new_record(file.photo, record.file, path or record.source, written, record.source_sha256)
    if file.action == "keep" and state and path:  # there before us, with the very bytes we would have written
        written = Written(state.sha256 or "", state.size, state.mtime_ns)
        own = source.own_sha256 if isinstance(source, Source) else None
        return new_record(file.photo, file.name, path, written, own or "")
    return None
