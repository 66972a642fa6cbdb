"""The candidates of a week from what is known of its photos. Pure."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime, time, timedelta

from queries.looks import Look, set_aside
from queries.photos import Photo
from queries.shortlist.values import Candidate


def candidates_of(
    photos: Sequence[Photo],
    looks: Mapping[str, Look],
    sets: Mapping[str, frozenset[int]],
    scenes: Mapping[str, frozenset[int]],
    starts_at: time,
) -> list[Candidate]:
    """A candidate for each photo of a week, in their order; `looks`, `sets` and `scenes` are by key, as `queries.looks`
    gives them. A photo without a day is none."""
    days = ((photo, photo.album_day(starts_at)) for photo in photos)
    return [_candidate(photo, day, looks.get(photo.key), sets, scenes) for photo, day in days if day]


def _candidate(
    photo: Photo,
    day: date,
    look: Look | None,
    sets: Mapping[str, frozenset[int]],
    scenes: Mapping[str, frozenset[int]],
) -> Candidate:
    return Candidate(
        key=photo.key,
        day=day,
        taken=_moment(photo),
        width=photo.width,
        height=photo.height,
        shape=photo.shape,
        keeper=photo.keeper,
        choice=photo.choice,
        sets=sets.get(photo.key, frozenset()),
        scenes=scenes.get(photo.key, frozenset()),
        code=photo.code,
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
