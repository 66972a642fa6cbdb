"""The shortlist of a week, as JSON and in words."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

from queries.cli.output import ROOMY, columns, plural, width
from queries.cli.visible import visible
from queries.cli.wording import clock_words
from queries.photos import Photo
from queries.shortlist import Chosen, Shortlist
from queries.weeks import day_words


def document(found: Shortlist, photos: Sequence[Photo]) -> dict[str, Any]:
    """`photos` are those of the week. `rank` is the order of choice, from 0: the first k are the shortlist of k."""
    by_key = {photo.key: photo for photo in photos}
    return {
        "shortlist": [_chosen_fields(item, by_key[item.candidate.key]) for item in found.chosen],
        "set_aside": [
            {"path": photo.path, "code": photo.code, "key": photo.key, "reason": item.reason}
            for item in found.set_aside
            for photo in [by_key[item.candidate.key]]
        ],
    }


def _chosen_fields(item: Chosen, photo: Photo) -> dict[str, Any]:
    return {
        "path": photo.path,
        "code": photo.code,
        "key": photo.key,
        "reason": item.reason,
        "day": item.candidate.day.isoformat(),
        "taken": photo.taken,
        "shape": photo.shape,
        "choice": photo.choice,
        "rank": item.rank,
    }


def lines(found: Shortlist, photos: Sequence[Photo]) -> Iterator[str]:
    """What was chosen, day by day, and what was set aside, each with its reason; `photos` are those of the week."""
    by_key = {photo.key: photo for photo in photos}
    yield ""
    yield _summary(found)
    if says := number_words(found):
        yield says
    rows = columns([_cells(item, by_key[item.candidate.key]) for item in found.chosen]) if found.chosen else []
    for day, group in groupby(zip(found.chosen, rows, strict=True), lambda pair: pair[0].candidate.day):
        yield ""
        yield day_words(day)
        yield from ("  " + line for _, line in group)
    yield from _set_aside_lines(found, by_key)


def number_words(found: Shortlist) -> str:
    """Why there are more or fewer than were asked for; "" where there are neither."""
    count = len(found.chosen)
    if count > found.asked:
        return f"That is more than {found.asked:,}, because all that you kept come in."
    if count < found.asked and found.candidates:
        return f"That is fewer than {found.asked:,}: the week has no more to choose from."
    return ""


def _summary(found: Shortlist) -> str:
    """ "Shortlist: 6 of 14 photos, 2 portrait, 4 landscape; 5 of 5 days, 6 of 9 occasions"."""
    choice = f"{len(found.chosen):,} of {plural(found.candidates, 'photo')}"
    if not found.chosen:
        return f"Shortlist: {choice}" if found.candidates else "Shortlist: there are no photos to choose from"
    shapes = ", ".join(
        f"{count} {shape}" for shape in ("portrait", "landscape", "square") if (count := found.count(shape))
    )
    days = f"{found.days_shown} of {plural(found.days, 'day')}"
    return f"Shortlist: {choice}, {shapes}; {days}, {found.occasions_shown} of {plural(found.occasions, 'occasion')}"


def _cells(item: Chosen, photo: Photo) -> tuple[str, ...]:
    name = [visible(Path(photo.path).name)] if width() >= ROOMY else []
    return (photo.code, clock_words(photo), photo.shape, item.reason, *name)


def _set_aside_lines(found: Shortlist, by_key: Mapping[str, Photo]) -> Iterator[str]:
    if not found.set_aside:
        return
    yield ""
    yield "Set aside; to have one come in: weeksheaf keep CODE"
    photos = [by_key[item.candidate.key] for item in found.set_aside]
    cells = [
        (photo.code, day_words(item.candidate.day), clock_words(photo), item.reason, visible(Path(photo.path).name))
        for item, photo in zip(found.set_aside, photos, strict=True)
    ]
    yield from ("  " + line for line in columns(cells))
