"""The photos that a week's spread may hold: the week's shortlist, or those that were named."""

import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import time
from pathlib import Path

from indexer.errors import PlanError
from queries.fitting.values import Picture
from queries.looks import looks_of, sets_by_photo
from queries.photos import Photo, photos_with_keys
from queries.shortlist import candidates_of, shortlist


@dataclass(frozen=True, slots=True)
class Proposed:
    """Photos that may be placed, the best first, and the codes of those that would have been among them but are not on
    the disk."""

    photos: tuple[Photo, ...]
    gone: tuple[Photo, ...] = ()


def file_of(photo: Photo) -> str | None:
    """A place where a file of the photo is now, whatever the index says; None where there is none."""
    return next((path for path in photo.paths if Path(path).is_file()), None)


def proposed(connection: sqlite3.Connection, photos: Sequence[Photo], wanted: int, starts_at: time) -> Proposed:
    """The `wanted` photos of a week that tell it, the best first; those that are gone from the disk are passed over."""
    there = [photo for photo in photos if file_of(photo)]
    best = _shortlist(connection, there, wanted, starts_at)
    if len(there) == len(photos):
        return Proposed(best)
    missed = {photo.key for photo in _shortlist(connection, photos, wanted, starts_at)} - {photo.key for photo in best}
    found = {photo.key for photo in there}
    return Proposed(best, tuple(photo for photo in photos if photo.key in missed and photo.key not in found))


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


def _shortlist(
    connection: sqlite3.Connection, photos: Sequence[Photo], wanted: int, starts_at: time
) -> tuple[Photo, ...]:
    """The shortlist of these photos in the order of choice."""
    keys = [photo.key for photo in photos]
    looks, sets = looks_of(connection, keys), sets_by_photo(connection, keys)
    chosen = shortlist(candidates_of(photos, looks, sets, starts_at), wanted).chosen
    by_key = {photo.key: photo for photo in photos}
    return tuple(by_key[item.candidate.key] for item in sorted(chosen, key=lambda item: item.rank))
