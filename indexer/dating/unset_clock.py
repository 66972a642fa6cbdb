"""Cameras that were never told the date: their times begin with the first of January of some year. Pure."""

from collections import defaultdict
from collections.abc import Collection, Iterator, Sequence
from datetime import datetime, timedelta
from itertools import pairwise

from indexer.dating.moments import has_clock, span
from indexer.dating.numbers import Photos, Run
from indexer.dating.own import with_doubt
from indexer.dating.twins import Verdicts
from indexer.dating.values import PhotoSaid
from indexer.dating.words import day_words
from indexer.facts.records import Camera

_SOURCES = frozenset({"exif original", "exif digitized"})
#: The date that clocks leave the factory with, or fall back to without a battery (common practice).
FACTORY_DAY = "-01-01"
#: How long after it a clock that nothing vouches for is still suspected ...
SOON = timedelta(days=14)
#: ... unless the photo with the number before is of the year before: a factory date is older than the camera.
_GOING_ON = timedelta(days=366)


def with_unset_clocks(
    verdicts: Verdicts, numbered: Sequence[Run], photos: Photos, vouched: Collection[str]
) -> Verdicts:
    """The verdicts, those of photos flagged whose clock may just have left the factory."""
    found = dict(verdicts)
    going_on = _going_on(verdicts, numbered)
    for camera, keys in _by_camera(verdicts, photos).items():
        for key, factory_day in _soon_after_factory_day(keys, verdicts, vouched, going_on):
            name = " of this camera" if camera.model else ""
            found[key] = with_doubt(
                found[key],
                f"{day_words(factory_day)} is what the clock{name} shows when never set, and nothing bears it out",
            )
    return found


def _by_camera(verdicts: Verdicts, photos: Photos) -> dict[Camera, list[str]]:
    """The photos that each camera's clock dated and nothing corrected, in the order of time."""
    found: defaultdict[Camera, list[str]] = defaultdict(list)
    for key, photo in photos.items():
        verdict = verdicts[key]
        if verdict.source in _SOURCES and has_clock(verdict.taken) and verdict.taken == _own(photo, verdict.chosen):
            found[photo.camera].append(key)
    for keys in found.values():
        keys.sort(key=lambda key: verdicts[key].taken or "")
    return found


def _own(photo: PhotoSaid, chosen: int | None) -> str | None:
    return None if chosen is None else photo.said[chosen].claim.when


def _soon_after_factory_day(
    keys: list[str], verdicts: Verdicts, vouched: Collection[str], going_on: Collection[str]
) -> Iterator[tuple[str, str]]:
    """(key, factory day) of each photo of one camera that a clock never set may have dated."""
    since: tuple[datetime, str] | None = None
    for key in keys:
        taken = verdicts[key].taken or ""
        moment = span(taken)[0]
        if key in vouched or key in going_on:
            since = None
            continue
        if taken[4:10] == FACTORY_DAY:
            since = since or (moment, taken[:10])
        if since and moment - since[0] <= SOON:
            yield key, since[1]


def _going_on(verdicts: Verdicts, numbered: Sequence[Run]) -> frozenset[str]:
    """The photos that go on where the photo with the number before them left off: that clock was running."""
    found = set()
    for run in numbered:
        dated = [item for item in run if verdicts[item.key].source in _SOURCES]
        for before, item in pairwise(dated):
            step = span(verdicts[item.key].taken or "")[0] - span(verdicts[before.key].taken or "")[0]
            is_sure = before.key in found or not _is_factory_day(verdicts[before.key].taken)
            if timedelta() <= step <= _GOING_ON and is_sure:
                found.add(item.key)
    return frozenset(found)


def _is_factory_day(taken: str | None) -> bool:
    return taken is not None and taken[4:10] == FACTORY_DAY
