"""Clock corrections laid over a camera's own times. Pure."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from indexer.dating.moments import moved
from indexer.dating.values import Correction
from indexer.facts.records import Camera

#: The claims that a camera's own clock makes, or that a program took over from it.
CLOCK_SOURCES = frozenset({"exif original", "exif digitized", "xmp original", "iptc", "iptc newer", "iptc digitized"})

_MIDNIGHT = "T00:00:00"

Corrections = Mapping[Camera, Sequence[Correction]]


def by_camera(corrections: Iterable[Correction]) -> Corrections:
    """The corrections of each camera, the latest word first."""
    found: defaultdict[Camera, list[Correction]] = defaultdict(list)
    for correction in sorted(corrections, key=lambda item: (item.told_at, item.uuid), reverse=True):
        found[correction.camera].append(correction)
    return found


def correction_of(own: str | None, camera: Camera, corrections: Corrections) -> Correction | None:
    """The correction that holds for a camera's own time, if any: of two, the one told last.

    A time without a clock time is in a span when its day is.
    """
    if own is None or camera not in corrections:
        return None
    return next((item for item in corrections[camera] if covers(item, own)), None)


def covers(correction: Correction, own: str) -> bool:
    """Whether a camera's own time lies in the span of a correction."""
    is_after = correction.since is None or own >= correction.since[: len(own)]
    first_moment = own + _MIDNIGHT[max(len(own) - 10, 0) :]
    return is_after and (correction.until is None or first_moment < correction.until)


def corrected(own: str, correction: Correction | None) -> str | None:
    """The time as it really was; None outside the calendar. A month or a year is not corrected."""
    if correction is None:
        return own
    return moved(own, correction.shift_seconds)
