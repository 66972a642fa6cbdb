"""The occasions of a day: photos parted where the pause between two is long. Pure.

The local rule is that of Platt, Czerwinski and Field (PhotoTOC: automatic clustering for browsing personal
photographs, 2003), the constants from memory: a pause parts when it is long beside those around it. On a day of few
photos there is nothing to hold it against, so that two absolute limits stand beside it; they are our own.
"""

from collections.abc import Sequence
from datetime import date, datetime
from itertools import groupby, pairwise
from math import log

from queries.shortlist.values import Candidate, Occasion

#: A pause parts when it is this many times the geometric mean of those around it, itself among them.
FACTOR = 17
#: How many pauses on either side are looked at.
REACH = 10
#: In seconds: a pause that always parts, and one that never does.
ALWAYS = 2 * 3600
NEVER = 5 * 60


def occasions_of(candidates: Sequence[Candidate]) -> list[Occasion]:
    """The occasion of each candidate; they come in order: by day, by clock time, those without one last.

    A day's end always parts. Photos of a day that have no clock time are an occasion of their own: nothing says that
    they belong to one of the others, and what was sent by others or scanned is seldom more of the same.
    """
    found = []
    for day, photos in groupby(candidates, key=lambda candidate: candidate.day):
        found += _of_day(day, [photo.taken for photo in photos])
    return found


def _of_day(day: date, times: Sequence[datetime | None]) -> list[Occasion]:
    known = [moment for moment in times if moment is not None]
    places = _places(known) + [0] * (len(times) - len(known))
    of = max(places) + (len(times) > len(known))
    starts = dict(zip(reversed(places), reversed(times), strict=True))  # the first one stays
    return [Occasion(day, place or of, of, starts[place]) for place in places]


def _places(moments: Sequence[datetime]) -> list[int]:
    """For moments in order, which occasion of the day each is in, from 1."""
    gaps = [(later - earlier).total_seconds() for earlier, later in pairwise(moments)]
    places = [1] if moments else []
    for gap, parts in zip(gaps, parts_locally(gaps), strict=True):
        places.append(places[-1] + (gap >= ALWAYS or (parts and gap > NEVER)))
    return places


def parts_locally(gaps: Sequence[float]) -> list[bool]:
    """Which pauses (seconds, in order) part by the local rule alone; none is counted as less than a second."""
    logs = [log(max(gap, 1)) for gap in gaps]
    around = (logs[max(0, place - REACH) : place + REACH + 1] for place in range(len(logs)))
    return [value >= log(FACTOR) + sum(near) / len(near) for value, near in zip(logs, around, strict=True)]
