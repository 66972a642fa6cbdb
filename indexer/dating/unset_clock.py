"""Cameras that were never told the date: their times begin with the first of January of some year. Pure."""

from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping
from datetime import datetime, timedelta

from indexer.dating.moments import has_clock, span
from indexer.dating.offsets import Device, devices_of
from indexer.dating.own import with_doubt
from indexer.dating.twins import Verdicts
from indexer.dating.values import FilePlace, PhotoSaid
from indexer.dating.words import day_words

_SOURCES = frozenset({"exif original", "exif digitized"})
#: The date that clocks leave the factory with, or fall back to without a battery (common practice).
FACTORY_DAY = "-01-01"
#: How long after it a clock that nothing vouches for is still suspected ...
SOON = timedelta(days=14)
#: ... unless it had been taking photos within a year before: a factory date is older than the camera.
_GOING_ON = timedelta(days=366)


def with_unset_clocks(verdicts: Verdicts, photos: Mapping[str, PhotoSaid], vouched: Collection[str]) -> Verdicts:
    """The verdicts, those of photos flagged whose clock may just have left the factory."""
    found = dict(verdicts)
    for keys in _by_device(verdicts, photos).values():
        for key, factory_day in _soon_after_factory_day(keys, verdicts, vouched):
            name = " of this camera" if photos[key].camera.model else ""
            found[key] = with_doubt(
                found[key],
                f"{day_words(factory_day)} is what the clock{name} shows when never set, and nothing bears it out",
            )
    return found


def _by_device(verdicts: Verdicts, photos: Mapping[str, PhotoSaid]) -> dict[Device | None, list[str]]:
    """The photos that each device's clock dated and nothing corrected, in the order of time."""
    found: defaultdict[Device | None, list[str]] = defaultdict(list)
    for key, photo in photos.items():
        verdict = verdicts[key]
        if verdict.source in _SOURCES and has_clock(verdict.taken) and verdict.taken == _own(photo, verdict.chosen):
            found[next(devices_of(_file(photo)), None)].append(key)
    for keys in found.values():
        keys.sort(key=lambda key: (verdicts[key].taken or "", key))
    return found


def _file(photo: PhotoSaid) -> FilePlace:
    return next((file for file in photo.files if file.camera == photo.camera), photo.files[0])


def _own(photo: PhotoSaid, chosen: int | None) -> str | None:
    return None if chosen is None else photo.said[chosen].claim.when


def _soon_after_factory_day(keys: list[str], verdicts: Verdicts, vouched: Collection[str]) -> Iterator[tuple[str, str]]:
    """(key, factory day) of each photo of one device that a clock never set may have dated."""
    since: tuple[datetime, str] | None = None
    before = datetime.min  # noqa: DTZ901 - a wall clock
    for key in keys:
        taken = verdicts[key].taken or ""
        moment = span(taken)[0]
        if key in vouched:
            since = None
        elif taken[4:10] == FACTORY_DAY and moment - before > _GOING_ON:
            since = (moment, taken[:10])
        if since and moment - since[0] <= SOON:
            yield key, since[1]
        before = moment
