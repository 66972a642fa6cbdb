"""Stretches of votes -> the photos for which each shift holds, those without a vote included. Pure.

The clock changed somewhere between the last vote for one shift and the first for the next: at a change of daylight
saving if the shift steps by that hour, else where the clock fell back or the camera rested longest.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from indexer.dating.clock.rolls import Roll
from indexer.dating.clock.seconds import HOUR
from indexer.dating.clock.voting import WINDOW, Stretch, is_step
from indexer.dating.clock.zone import Change, HomeZone


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch and the places of its photos.

    `since`, `until`: the changes of daylight saving that bound it. `is_daylight`: an hour off from a change on which
    the camera did not follow, or until one. `right_beside`: occasions beside it that say that the clock was right.
    """

    stretch: Stretch
    places: tuple[int, ...]
    since: Change | None = None
    until: Change | None = None
    is_daylight: bool = False
    right_beside: int = 0

    @property
    def marks(self) -> tuple[int, ...]:
        """The camera's own times at those changes."""
        own = []
        if self.since:
            own.append(self.since.own(self.hour - self.since.step))
        if self.until:
            own.append(self.until.own(self.hour))
        return tuple(own)

    @property
    def hour(self) -> int:
        """The shift, a whole hour if it nearly is one."""
        hour = round(self.stretch.shift / HOUR) * HOUR
        return hour if abs(self.stretch.shift - hour) <= WINDOW else self.stretch.shift


@dataclass(frozen=True, slots=True)
class _Border:
    """Between two stretches: the place behind it, and the change of daylight saving that it is."""

    place: int
    change: Change | None


def parts(roll: Roll, places: Sequence[int], found: Sequence[Stretch], zone: HomeZone) -> list[Part]:
    """Each stretch with its part of `places` (rising), in order."""
    borders = [_border(roll, places, one, other, zone) for one, other in pairwise(found)]
    ends = [0, *(bisect_left(places, border.place) for border in borders), len(places)]
    return [_part(roll, tuple(places[ends[i] : ends[i + 1]]), found, borders, i, zone) for i in range(len(found))]


def _border(roll: Roll, places: Sequence[int], one: Stretch, other: Stretch, zone: HomeZone) -> _Border:
    last = (one.speaking or one.votes)[-1].place
    first = (other.speaking or other.votes)[0].place
    between = places[bisect_left(places, last) : bisect_right(places, first)]
    step = other.shift - one.shift
    for change in zone.daylight:
        at = change.own(one.shift)
        if roll.own[last] < at <= roll.own[first] and is_step(step, change.step):
            return _Border(next(p for p in between[1:] if roll.own[p] >= at), change)
    jumps = [(roll.own[q] - roll.own[p], q) for p, q in pairwise(between)]
    back = [(gap, q) for gap, q in jumps if gap < -WINDOW]
    return _Border(min(back)[1] if back else max(jumps)[1], None)


def _part(
    roll: Roll, places: tuple[int, ...], found: Sequence[Stretch], borders: Sequence[_Border], i: int, zone: HomeZone
) -> Part:
    since = borders[i - 1].change if i else None
    until = borders[i].change if i < len(borders) else None
    beside = sum(found[k].occasions for k in (i - 1, i + 1) if 0 <= k < len(found) and not found[k].shift)
    part = Part(found[i], places, since, until, right_beside=beside)
    if abs(part.hour) != HOUR or (i and not since):
        return part
    return _within_season(roll, part, zone, is_first=not i, is_last=i == len(borders))


def _within_season(roll: Roll, part: Part, zone: HomeZone, *, is_first: bool, is_last: bool) -> Part:
    """The part cut down to the summer, or winter, whose clock change the camera did not follow; the part itself if its
    votes reach beyond."""
    own = [vote.own for vote in part.stretch.speaking]
    before = [c for c in zone.daylight if c.own(part.hour - c.step) <= min(own)]
    behind = [c for c in zone.daylight if c.own(part.hour) > max(own)]
    if (
        not before
        or before[-1].step != part.hour
        or [c for c in zone.daylight if c.own(part.hour) <= max(own)] != before
    ):
        return part
    since = part.since or (before[-1] if is_first else None)
    until = part.until or (behind[0] if is_last and behind else None)
    cut = replace(part, since=since, until=until, is_daylight=True)
    low = since.own(part.hour - since.step) if since else None
    high = until.own(part.hour) if until else None
    inside = (p for p in part.places if (low is None or roll.own[p] >= low) and (high is None or roll.own[p] < high))
    return replace(cut, places=tuple(inside))
