"""Bursts that are in doubt: both photos are decoded once more and laid over each other part by part.

What differs in colour where it matches in structure is dropped. A photo out of reach, or one that cannot be decoded,
drops nothing.
"""

import sqlite3
from collections.abc import Callable, Collection, Generator, Mapping
from contextlib import closing
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from indexer.alike.doubts import batches, look_alikes
from indexer.places import first_there
from indexer.store.likenesses import Compared
from indexer.store.pixels import to_look_at_again

if TYPE_CHECKING:  # slow to load, and most runs are in no doubt
    from indexer.alike.surfaces import Surfaces
    from indexer.facts.close_looks import CloseLook

#: What it is called.
LOOKING_TWICE = "looking twice at pictures"
#: So many photos are held at a time, 102 KB each.
_MOST_PHOTOS = 500
#: Of these so many are ready to be laid over others, 0.5 MB each: a photo is compared with few before it.
_MOST_READY = 64


def without_look_alikes(
    connection: sqlite3.Connection, compared: Compared, report: Callable[[int, int, str], None]
) -> Compared:
    """What was found, without the bursts that only look alike, and no longer in doubt. `report` takes how many photos
    were looked at of how many, and the last one's path."""
    if not compared.doubts:
        return compared
    told = list(batches(compared.doubts, _MOST_PHOTOS))
    total = len(set[str]().union(*(photos for _, photos in told)))
    apart, done = set[tuple[str, str]](), set[str]()
    looks: dict[str, CloseLook] = {}
    for doubts, photos in told:
        looks = {key: look for key, look in looks.items() if key in photos}
        with closing(_looks(connection, photos - looks.keys())) as results:
            for key, path, look in results:
                done.add(key)
                report(len(done), total, path)
                looks |= {key: look} if look else {}
        differ = differences(looks)
        apart |= {_pair(doubt.key, key) for doubt in doubts for key in look_alikes(doubt, differ)}
    found = [link for link in compared.found if link.kind != "burst" or (link.one, link.other) not in apart]
    return replace(compared, found=found, doubts=())


def _pair(one: str, other: str) -> tuple[str, str]:
    return (one, other) if one < other else (other, one)


def _looks(connection: sqlite3.Connection, keys: Collection[str]) -> "Generator[tuple[str, str, CloseLook | None]]":
    """(key, path, miniature) of the photos that are there."""
    from indexer.facts.close_looks import look_closely_at_all

    photos = to_look_at_again(connection, keys)
    reachable = [(photo.key, path) for photo in photos if (path := first_there(photo.places))]
    if reachable:
        with closing(look_closely_at_all([path for _, path in reachable])) as results:
            for place, look in results:
                yield *reachable[place], look


def differences(looks: "Mapping[str, CloseLook]") -> Callable[[str, str], float | None]:
    """By how much the surfaces of two photos differ; the pictures that were made ready last are kept so."""
    from indexer.alike.surfaces import surface_difference, surfaces_of

    @lru_cache(maxsize=_MOST_READY)
    def ready(key: str) -> "Surfaces | None":
        return surfaces_of(looks[key]) if key in looks else None

    def differ(one: str, other: str) -> float | None:
        first, second = ready(one), ready(other)
        return surface_difference(first, second) if first and second else None

    return differ
