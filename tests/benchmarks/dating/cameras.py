"""Faults of numbered files: dates that were lost, between neighbours that have theirs. Pure.

Only of the camera whose clock is right, and not around a journey, where it shows the time at home.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import timedelta

from tests.benchmarks.dating.household import TRIPS
from tests.benchmarks.dating.ledger import Ledger
from tests.benchmarks.dating.plain import copied, exif_of, path_of
from tests.benchmarks.dating.values import Mark, Photo
from tests.benchmarks.dating.world import Frame

#: An unknown date as Exif writes it (Exif 2.32, CIPA DC-008), and as some cameras write it (memory).
_BLANK, _ZEROS = "    :  :     :  :  ", "0000:00:00 00:00:00"
_NEAR_TRIP = timedelta(days=12)


def blank_same_week(ledger: Ledger, count: int) -> list[Photo]:
    """Both neighbours in the run of numbers are of one week: settled."""
    return _blank(ledger, count, lambda one, other: one.week == other.week, "blank date, same week", "settled")


def blank_other_weeks(ledger: Ledger, count: int) -> list[Photo]:
    """The neighbours are of two weeks, and nothing else tells which: open."""
    return _blank(ledger, count, lambda one, other: one.week != other.week, "blank date, different weeks", "open")


def blank_two(ledger: Ledger, count: int) -> list[Photo]:
    """Two in a row, and the neighbours on either side of one week: settled."""
    photos: list[Photo] = []
    for _ in range(count):
        for first in ledger.take(1, lambda frame: _begins_two(frame, ledger)):
            before, second = _neighbours(first, ledger)
            ledger.take(1, second.__eq__)
            ledger.keep([before, _neighbours(second, ledger)[1]])
            photos += [_undated(frame, ledger, "two blank dates, same week", "settled") for frame in (first, second)]
    return photos


def _begins_two(frame: Frame, ledger: Ledger) -> bool:
    """Whether it and the next are free, and those around the two are of their week."""
    if not _is_between(frame, ledger, lambda one, other: one.week == other.week):
        return False
    second = _neighbours(frame, ledger)[1]
    return ledger.is_free(second) and _is_between(second, ledger, lambda _, after: after.week == frame.week)


def _blank(ledger: Ledger, count: int, fits: Callable[[Frame, Frame], bool], fault: str, mark: Mark) -> list[Photo]:
    photos: list[Photo] = []
    for _ in range(count):
        for frame in ledger.take(1, lambda frame: _is_between(frame, ledger, fits) and ledger.may_be(frame, mark)):
            ledger.keep(_neighbours(frame, ledger))
            photos.append(_undated(frame, ledger, fault, mark))
    return photos


def _undated(frame: Frame, ledger: Ledger, fault: str, mark: Mark) -> Photo:
    blank = _BLANK if frame.number % 2 else _ZEROS
    exif = replace(exif_of(frame, ledger), original=blank, digitized=blank, modified=blank)
    return Photo(path_of(frame), frame.view, fault, mark, frame.local, copied(frame.view.scene), exif)


def _is_between(frame: Frame, ledger: Ledger, fits: Callable[[Frame, Frame], bool]) -> bool:
    """Whether the photos before and after it lie in the library with their dates, and fit."""
    if frame.device.name != "tarn" or _is_near_trip(frame):
        return False
    neighbours = _neighbours(frame, ledger)
    return len(neighbours) == 2 and set(ledger.left()).issuperset(neighbours) and fits(*neighbours)


def _neighbours(frame: Frame, ledger: Ledger) -> Sequence[Frame]:
    """The photos with the next lower and the next higher number."""
    run = ledger.own_run(frame)
    place = run.index(frame)
    return [*run[max(0, place - 1) : place], *run[place + 1 : place + 2]]


def _is_near_trip(frame: Frame) -> bool:
    day = frame.local.date()
    return any(trip.first - _NEAR_TRIP <= day <= trip.last + _NEAR_TRIP for trip in TRIPS)
