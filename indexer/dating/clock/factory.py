"""Clocks that fell back to the date they left the factory with, as file numbers show. Pure.

After a battery change a clock may begin again at 1 January of some year, 00:00 or 12:00 (common practice). A picture
taken at New Year is no sign of it; that the time falls back by months to a first of January while the file numbers run
on is one. How far to move such a run is bounded by its neighbours in number order, and the shift is suggested only for
photos whose week is the same at both bounds.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from indexer.dating.album_weeks import AlbumWeeks
from indexer.dating.clock.findings import Finding
from indexer.dating.clock.rolls import Roll
from indexer.dating.clock.seconds import DAY, HOUR, moment_of, seconds_of, start_of_day
from indexer.dating.clock.wording import counted, duration, time_text

#: The clock falls back by at least so much: less may be a clock set right.
_FALL = 180 * DAY
#: The first photo after the battery change is taken so soon after it.
_SOON = 7 * DAY
#: Within a run, a fall of this much to the factory date is another battery change.
_AGAIN = HOUR
#: A shift bounded within more can leave no week certain.
_WIDEST = 7 * DAY
_MORNING, _NIGHT = 7 * HOUR, 23 * HOUR


@dataclass(frozen=True, slots=True)
class Run:
    """Photos taken between a fall to the factory date and the next setting of the clock.

    `numbered`: their places in number order, `places`: with those whose number is not known. `low`, `high`: the least
    and the greatest shift that their neighbours allow; `before`, `after`: the places of those, None for today.
    """

    numbered: tuple[int, ...]
    places: frozenset[int]
    low: int
    high: int
    before: int
    after: int | None

    @property
    def width(self) -> int:
        return self.high - self.low


def reset_runs(roll: Roll, believed: Sequence[int | None], latest: int) -> list[Run]:
    """The runs of a camera; `believed`: when its photos were taken as far as known, `latest`: none was taken after."""
    numbered = {place for chain in roll.chains for place in chain}
    loose = sorted(set(range(len(roll.own))) - numbered)
    return [run for chain in roll.chains for run in _runs(roll, chain, loose, believed, latest)]


def factory_finding(roll: Roll, run: Run, weeks: AlbumWeeks) -> Finding | None:
    """The shift of a run that no other ground explains, for the photos whose week it settles; None for none."""
    if not 0 <= run.width < _WIDEST:
        return None
    certain = frozenset(
        place
        for place in run.places & roll.uncorrected
        if weeks.is_within_one(moment_of(roll.own[place] + run.low), moment_of(roll.own[place] + run.high))
    )
    shift = _likeliest([roll.own[place] for place in run.places], run.low, run.high)
    return Finding(certain, shift, "factory date", _grounds(roll, run), is_tight=True) if certain else None


def fall_text(roll: Roll, run: Run) -> str:
    """How the file numbers show that the clock fell back."""
    first = run.numbered[0]
    return (
        f"the file numbers run on from {_number(roll, run.before)} to {_number(roll, first)} while the clock falls back"
        f" to {time_text(roll.own[first])}"
    )


def _runs(
    roll: Roll, chain: Sequence[int], loose: Sequence[int], believed: Sequence[int | None], latest: int
) -> Iterator[Run]:
    own = roll.own
    at = 1
    while at < len(chain):
        if not _is_fall(own[chain[at - 1]], own[chain[at]], _FALL):
            at += 1
            continue
        start, last = at, own[chain[at - 1]]
        while (
            at < len(chain) and own[chain[at]] < last and (at == start or own[chain[at]] - own[chain[at - 1]] < _FALL)
        ):
            at += 1
        low, high = believed[chain[start - 1]], believed[chain[at]] if at < len(chain) else latest
        if low is not None and high is not None:
            after = chain[at] if at < len(chain) else None
            yield from _bounded(roll, chain[start:at], loose, (low, high), (chain[start - 1], after))


def _bounded(
    roll: Roll, run: Sequence[int], loose: Sequence[int], bounds: tuple[int, int], beside: tuple[int, int | None]
) -> Iterator[Run]:
    """The run cut where the clock fell back again; each part leaves time for the ones before and behind it.

    The batteries were changed after the photo before, and the clock has run since: so long, at least, as from noon of
    the factory date.
    """
    own = roll.own
    cuts = [0, *(k for k in range(1, len(run)) if _is_fall(own[run[k - 1]], own[run[k]], _AGAIN)), len(run)]
    pieces = [run[start:end] for start, end in pairwise(cuts)]
    lasting = [max(own[p] for p in piece) - own[piece[0]] for piece in pieces]
    ran = [max(0, own[piece[0]] - _new_year(own[piece[0]]) - DAY // 2) for piece in pieces]
    for k, piece in enumerate(pieces):
        first, last = own[piece[0]], own[piece[0]] + lasting[k]
        guests = (p for p in loose if first <= own[p] <= last)
        low = bounds[0] + sum(lasting[:k]) + sum(ran[: k + 1]) - first
        high = bounds[1] - sum(lasting[k + 1 :]) - sum(ran[k + 1 :]) - last
        yield Run(tuple(piece), frozenset((*piece, *guests)), low, high, *beside)


def _is_fall(before: int, own: int, least: int) -> bool:
    """Whether the clock falls back by so much, to the first days of a year."""
    return before - own >= least and own - _new_year(own) <= _SOON


def _new_year(own: int) -> int:
    return seconds_of(f"{moment_of(own).year:04}-01-01")


def _likeliest(own: Sequence[int], low: int, high: int) -> int:
    """The shift, in whole hours if bounds allow, that puts the fewest photos into the night; then the middle one."""
    middle = (low + high) // 2
    hours = range(-(-low // HOUR) * HOUR, high + 1, HOUR) or [middle]
    return min(hours, key=lambda shift: (sum(_is_night(time + shift) for time in own), abs(shift - middle)))


def _is_night(time: int) -> bool:
    return not _MORNING <= time - start_of_day(time) < _NIGHT


def _grounds(roll: Roll, run: Run) -> str:
    behind = f"before {_number(roll, run.after)}" if run.after is not None else "before today"
    return (
        f"{fall_text(roll, run)}; taken after {_number(roll, run.before)} and {behind},"
        f" {counted(len(run.places), 'photo')} can be dated to within {duration(run.width)}, so their week is certain"
        " and their hour is a guess"
    )


def _number(roll: Roll, place: int) -> str:
    number = roll.shots[place].number
    return f"{number[1]}{number[2]:04}" if number else roll.shots[place].key
