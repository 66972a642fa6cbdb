"""Journeys, as the zones tell that a phone writes: when it was abroad, by the clock at home. Pure."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from indexer.dating.clock.rolls import Roll
from indexer.dating.clock.seconds import MINUTE
from indexer.dating.clock.zone import HomeZone


@dataclass(frozen=True, slots=True)
class Journey:
    """From `since` until `until`, by the clock at home, a device was `east` of home, in seconds of its zone."""

    since: int
    until: int
    east: int


def journeys_of(roll: Roll, zone: HomeZone) -> list[Journey]:
    """A device's journeys in order; each begins and ends halfway between the photos that tell of it."""
    told = sorted(
        (own - shot.offset_minutes * MINUTE, shot.offset_minutes * MINUTE)
        for shot, own, shift in zip(roll.shots, roll.own, roll.shifts, strict=True)
        if shot.offset_minutes is not None and not shift
    )
    at_home = [(utc + zone.offset_at_utc(utc), offset - zone.offset_at_utc(utc)) for utc, offset in told]
    cuts = [0, *(k for k in range(1, len(at_home)) if at_home[k][1] != at_home[k - 1][1]), len(at_home)]
    return [
        Journey(_between(at_home, start), _between(at_home, end), at_home[start][1])
        for start, end in pairwise(cuts)
        if start < end and at_home[start][1]
    ]


def journey_at(journeys: Sequence[Journey], time: int) -> Journey | None:
    """The one that the clock at home falls into."""
    at = bisect_right(journeys, time, key=lambda journey: journey.since)
    return journeys[at - 1] if at and time < journeys[at - 1].until else None


def _between(at_home: Sequence[tuple[int, int]], k: int) -> int:
    """The middle between two photos, or the outer one at the ends."""
    if not 0 < k < len(at_home):
        return at_home[0][0] if not k else at_home[-1][0] + 1
    return (at_home[k - 1][0] + at_home[k][0]) // 2
