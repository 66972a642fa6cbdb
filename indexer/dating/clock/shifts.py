"""From the votes for a shift to a round one. Pure."""

from collections.abc import Sequence
from statistics import median_low, quantiles

from indexer.dating.clock.seconds import HOUR, MINUTE

#: A clock is set by the minute or by the hour, so a shift so near to a whole hour is one.
_NEAR_HOUR = 2 * MINUTE
#: Votes whose middle half lies within so many seconds know the second.
_AGREEING = 4
_ENOUGH = 4


def round_shift(shifts: Sequence[int]) -> int:
    """The median of the winning votes: a whole hour if near one, to the second if they agree on it, else the minute."""
    middle = median_low(shifts)
    hour = _nearest(middle, HOUR)
    if hour and abs(middle - hour) <= _NEAR_HOUR:
        return hour
    if len(shifts) >= _ENOUGH:
        lower, _, upper = quantiles(shifts, n=4)
        if upper - lower <= _AGREEING:
            return middle
    return _nearest(middle, MINUTE)


def _nearest(value: int, step: int) -> int:
    return (value + step // 2) // step * step
