"""The candidates of a week from what is known of its photos. Pure."""

from collections.abc import Mapping, Sequence
from datetime import datetime, time, timedelta

from queries.looks import Look, set_aside
from queries.photos import Photo
from queries.shortlist.values import Candidate


def candidates_of(
    photos: Sequence[Photo], looks: Mapping[str, Look], sets: Mapping[str, frozenset[int]], starts_at: time
) -> list[Candidate]:
    """A candidate for each photo of a week, in their order; `looks` and `sets` are by key, as `queries.looks` gives
    them. A photo without a day is none."""
    return [
        candidate
        for photo in photos
        if (candidate := _candidate(photo, looks.get(photo.key), sets.get(photo.key, frozenset()), starts_at))
    ]


def _candidate(photo: Photo, look: Look | None, sets: frozenset[int], starts_at: time) -> Candidate | None:
    day = photo.album_day(starts_at)
    if day is None:
        return None
    return Candidate(
        key=photo.key,
        day=day,
        taken=_moment(photo),
        width=photo.width,
        height=photo.height,
        shape=photo.shape,
        keeper=photo.keeper,
        choice=photo.choice,
        sets=sets,
        set_aside=set_aside(photo, look),
        phash=look.phash if look else None,
        layout=look.layout if look else None,
        sharpness=look.sharpness if look else None,
        dark=look.dark if look else None,
        bright=look.bright if look else None,
        contrast=look.contrast if look else None,
    )


def _moment(photo: Photo) -> datetime | None:
    """None where only the day is known."""
    if photo.taken is None or photo.placed is None or len(photo.placed) <= 10:
        return None
    fraction = timedelta(seconds=float(f"0.{photo.fraction or 0}"))
    return datetime.fromisoformat(photo.taken) + fraction
