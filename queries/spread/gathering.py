"""The photos that a week's spread may hold: the week's shortlist, or those that were named."""

import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import time
from pathlib import Path

from indexer.errors import PlanError
from queries.fitting.values import Picture
from queries.looks import looks_of, scenes_by_photo, sets_by_photo
from queries.photos import Photo, photos_with_keys
from queries.shortlist import Shortlist, candidates_of, shortlist
from queries.shortlist.values import SAME_SCENE


@dataclass(frozen=True, slots=True)
class Proposed:
    """Photos that may be placed, the best first; those that would have been among them but are not on the disk; and by
    code why others are not among them that show what one of them shows."""

    photos: tuple[Photo, ...]
    gone: tuple[Photo, ...] = ()
    twins: Mapping[str, str] = field(default_factory=dict)


def file_of(photo: Photo) -> str | None:
    """A place where a file of the photo is now, whatever the index says; None where there is none."""
    return next((path for path in photo.paths if Path(path).is_file()), None)


def proposed(connection: sqlite3.Connection, photos: Sequence[Photo], wanted: int, starts_at: time) -> Proposed:
    """The `wanted` photos of a week that tell it, the best first; those that are gone from the disk are passed over."""
    there = [photo for photo in photos if file_of(photo)]
    found = _shortlist(connection, there, wanted, starts_at)
    best = _in_order_of_choice(found, there)
    twins = {item.candidate.code: item.reason for item in found.set_aside if item.reason.startswith(SAME_SCENE)}
    if len(there) == len(photos):
        return Proposed(best, (), twins)
    of_all = _in_order_of_choice(_shortlist(connection, photos, wanted, starts_at), photos)
    missed = {photo.key for photo in of_all} - {photo.key for photo in there}
    return Proposed(best, tuple(photo for photo in photos if photo.key in missed), twins)


def named_photos(connection: sqlite3.Connection, keys: Iterable[str]) -> Proposed:
    """The photos with these keys, in that order. Raises PlanError where one is gone from the disk, or left out."""
    by_key = {photo.key: photo for photo in photos_with_keys(connection, keys)}
    photos = tuple(by_key[key] for key in keys)
    for photo in photos:
        if photo.choice == "leave":
            raise PlanError(f"{photo.code} was left out by you; to have it on the pages: weeksheaf keep {photo.code}")
        if not file_of(photo):
            raise PlanError(
                f"photo {photo.code} is gone from the disk: {photo.path} is not there; connect its disk, or name"
                " another"
            )
    return Proposed(photos)


def pictures_of(photos: Iterable[Photo], lived: Sequence[str], zooms: Mapping[str, float]) -> tuple[Picture, ...]:
    """Photos, the best first, as fitting has them; each once. `lived` are the keys of the week's photos in the order
    they were lived; those of other weeks stand before or after them, by when they were taken."""
    unique = tuple({photo.key: photo for photo in photos}.values())
    order = {key: place for place, key in enumerate(lived)}
    firsts = [photo.placed or photo.taken or "" for photo in unique if photo.key in order]
    start = min(firsts, default="")
    strangers = sorted((photo.taken or "", photo.key) for photo in unique if photo.key not in order)
    for place, (taken, key) in enumerate(strangers, 1):
        order[key] = place + len(order) if taken >= start else place - len(strangers) - 1
    return tuple(
        Picture(photo.key, photo.code, photo.width, photo.height, rank, order[photo.key], zooms.get(photo.key, 1.0))
        for rank, photo in enumerate(unique)
    )


def _shortlist(connection: sqlite3.Connection, photos: Sequence[Photo], wanted: int, starts_at: time) -> Shortlist:
    keys = [photo.key for photo in photos]
    looks, sets = looks_of(connection, keys), sets_by_photo(connection, keys)
    return shortlist(candidates_of(photos, looks, sets, scenes_by_photo(connection, keys), starts_at), wanted)


def _in_order_of_choice(found: Shortlist, photos: Sequence[Photo]) -> tuple[Photo, ...]:
    by_key = {photo.key: photo for photo in photos}
    return tuple(by_key[item.candidate.key] for item in sorted(found.chosen, key=lambda item: item.rank))
