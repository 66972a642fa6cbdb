"""The order in which the photos of one day were lived, across zones. Pure."""

from collections.abc import Sequence
from datetime import datetime, timedelta


def in_lived_order(times: Sequence[tuple[str | None, int | None]]) -> list[int]:
    """The places of photos in the order they were lived; given are the time and the zone (minutes east) of each, in the
    order of their clocks, those without a clock time last.

    Two photos whose zones are known stand in the order of universal time, whatever their clocks said. A photo whose
    zone is not known goes with its neighbour: it has the zone of the one before it, else of the first that has one.
    """
    zones = [zone for when, zone in times if zone is not None and _has_clock(when)]
    if len(set(zones)) < 2:
        return list(range(len(times)))
    zone, lived = zones[0], []
    for place, (when, own) in enumerate(times):
        zone = own if own is not None and _has_clock(when) else zone
        minutes = timedelta(minutes=zone)
        lived.append(
            (datetime.fromisoformat(when or "") - _EPOCH - minutes if _has_clock(when) else timedelta.max, place)
        )
    return [place for _, place in sorted(lived)]


def _has_clock(when: str | None) -> bool:
    return when is not None and len(when) > 10


_EPOCH = datetime(1970, 1, 1)  # noqa: DTZ001 - wall clocks
