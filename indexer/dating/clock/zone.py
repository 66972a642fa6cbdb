"""The home zone: its offset on a day, and the moments at which daylight saving begins and ends. Pure."""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from indexer.dating.clock.seconds import DAY, HOUR, MINUTE, moment_of, seconds_of_day

#: Minutes east of Greenwich at a naive local time.
OffsetOf = Callable[[datetime], int]

#: Zones are asked once in so many seconds: none changes and changes back within it.
_STEP = 7 * DAY
_FIRST_YEAR = 1990


@dataclass(frozen=True, slots=True)
class Change:
    """`at`: the wall clock from which on the new offset holds; `step`: what is added to the clock there, in seconds."""

    at: int
    step: int

    def own(self, shift: int) -> int:
        """What a camera reads at that moment if `shift` had to be added to its time until then."""
        return self.at - max(self.step, 0) - shift


@dataclass(frozen=True, slots=True)
class HomeZone:
    """The changes in order; `offsets`: seconds east of Greenwich before the first of them and after each."""

    changes: tuple[Change, ...]
    offsets: tuple[int, ...]

    @property
    def daylight(self) -> tuple[Change, ...]:
        """The changes by exactly one hour."""
        return tuple(change for change in self.changes if abs(change.step) == HOUR)

    def offset(self, local: int) -> int:
        """Seconds east of Greenwich at a wall clock; before 1990 and in the future as nearest to it."""
        return self.offsets[bisect_right(self.changes, local, key=_at)]

    def offset_at_utc(self, utc: int) -> int:
        """Seconds east of Greenwich at a universal time, right but for the hour around a change."""
        return self.offset(utc + self.offset(utc + self.offsets[0]))


def home_zone(offset_of: OffsetOf, own: Sequence[int], today: date) -> HomeZone:
    """The zone as the photos' times may need it: from the year before the first of them, 1990 at the earliest."""
    last = seconds_of_day(today) + 366 * DAY
    earliest = seconds_of_day(date(_FIRST_YEAR, 1, 1))
    start = min(max(min(own, default=last) - 366 * DAY, earliest), last)
    offsets = [_offset(offset_of, start)]
    changes = []
    for moment in range(start, last, _STEP):
        after = _offset(offset_of, moment + _STEP)
        if after != offsets[-1]:
            changes.append(Change(_change_between(offset_of, moment, moment + _STEP), after - offsets[-1]))
            offsets.append(after)
    return HomeZone(tuple(changes), tuple(offsets))


def _at(change: Change) -> int:
    return change.at


def _change_between(offset_of: OffsetOf, low: int, high: int) -> int:
    """The first minute at which the offset is that at `high`."""
    wanted = _offset(offset_of, high)
    while high - low > MINUTE:
        middle = (low + high) // 2
        low, high = (low, middle) if _offset(offset_of, middle) == wanted else (middle, high)
    return high - high % MINUTE


def _offset(offset_of: OffsetOf, local: int) -> int:
    return offset_of(moment_of(local)) * MINUTE
