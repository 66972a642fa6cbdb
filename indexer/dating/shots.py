"""What the questions about clocks need of each photo. Pure."""

from collections.abc import Iterable, Iterator

from indexer.dating.moments import has_clock
from indexer.dating.offsets import own_offset
from indexer.dating.values import PhotoSaid, Said, Shot
from indexer.facts.file_numbers import file_number


def shots_of(photos: Iterable[PhotoSaid]) -> list[Shot]:
    """The photos that a named camera's own clock dated to the second."""
    return [shot for photo in photos if (shot := _shot(photo))]


def _shot(photo: PhotoSaid) -> Shot | None:
    written = next(_own(photo), None)
    if written is None or written.claim.when is None:
        return None
    file = written.file
    numbered = file_number(file.name)
    return Shot(
        key=photo.key,
        camera=file.camera,
        own=written.claim.when,
        offset_minutes=own_offset(photo.said),
        gps=_said_by(photo, "gps", file.id),
        number=(file.folder, *numbered) if numbered else None,
        names_time=_said_by(photo, "file name", file.id),
    )


def _own(photo: PhotoSaid) -> Iterator[Said]:
    """The original dates of cameras, to the second."""
    for item in photo.said:
        claim, camera = item.claim, item.file.camera
        is_own = claim.source == "exif original" and claim.precision == "second" and claim.when
        if is_own and (camera.make or camera.model):
            yield item


def _said_by(photo: PhotoSaid, source: str, file_id: int) -> str | None:
    """The moment that this file claims otherwise; names only where they are of the wall clock."""
    for item in photo.said:
        claim = item.claim
        is_wanted = claim.source == source and item.file.id == file_id and has_clock(claim.when)
        if is_wanted and claim.precision == "second" and claim.is_utc == (source == "gps"):
            return claim.when
    return None
