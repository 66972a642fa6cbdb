"""Votes on a camera's clock -> the stretches of its photos over which they agree on one shift. Pure.

A vote is one comparison with a better clock. A few are always wrong (a scene seen twice on different days), so what
counts is how many *occasions* speak for one shift, within a window of a few minutes: clocks are off by seconds, and the
second device shoots a minute later. A clock may be right until some day and wrong after, so the occasions in the order
they were lived are cut into stretches: the cheapest account of them (dynamic programming), where an occasion that is
not explained costs 1 and a change of the clock `CHANGE`.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from indexer.dating.clock.journeys import Journey
from indexer.dating.clock.seconds import HOUR, MINUTE
from indexer.dating.clock.zone import Change

#: Votes within one window say the same.
WINDOW = 5 * MINUTE
#: A clock that is off by no more is right: it decides no week but at midnight.
NEAR_ZERO = 5 * MINUTE
#: Photos of one occasion follow each other within so many seconds.
OCCASION_GAP = 30 * MINUTE
#: What a change of the clock costs. A stretch between two others must explain 3 occasions that they do not; 2 where the
#: clock was right before and behind, or between two changes of daylight saving; 1 where a journey explains it.
CHANGE, DAYLIGHT_CHANGE, RIGHT_CHANGE, ZONE_CHANGE = 1.4, 0.9, 0.9, 0.4
_MOST_CANDIDATES = 8


@dataclass(frozen=True, slots=True)
class Vote:
    """`place`: of the photo on its roll; `shift`: what would have to be added to its own time; `witness`: who says so,
    `day`: by the better clock; `journey`: the one that the witness was on."""

    place: int
    own: int
    shift: int
    witness: str
    day: int
    journey: Journey | None = None

    @property
    def is_abroad(self) -> bool:
        """Whether it says what a camera on home time shows abroad."""
        return self.journey is not None and abs(self.shift - self.journey.east) <= NEAR_ZERO


@dataclass(frozen=True, slots=True)
class Stretch:
    """Occasions in a row that one shift explains best: `votes` are all of them, `speaking` those for `shift`.

    `shift` is the middle of a window, 0 for a clock that is right. `occasions`: how many speak for it, `other`: how
    many for the strongest other shift.
    """

    shift: int
    votes: tuple[Vote, ...]
    speaking: tuple[Vote, ...]
    occasions: int
    other: int

    @property
    def days(self) -> int:
        return len({vote.day for vote in self.speaking})


def agrees(vote: Vote, shift: int) -> bool:
    """Whether a vote speaks for a shift."""
    return abs(vote.shift - shift) <= (WINDOW / 2 if shift else NEAR_ZERO)


def occasions_of(votes: Iterable[Vote]) -> list[list[Vote]]:
    """The votes, in the order of their photos, cut where the camera rested."""
    groups: list[list[Vote]] = []
    for vote in sorted(votes, key=lambda vote: (vote.place, vote.shift, vote.witness)):
        if groups and abs(vote.own - groups[-1][-1].own) <= OCCASION_GAP:
            groups[-1].append(vote)
        else:
            groups.append([vote])
    return groups


def stretches(votes: Iterable[Vote], changes: Sequence[Change] = ()) -> list[Stretch]:
    """The occasions cut into stretches of one shift each; `changes`: of the home zone's daylight saving."""
    occasions = occasions_of(votes)
    if not occasions:
        return []
    found = _candidates(occasions)
    abroad = [[vote for vote in occasion if vote.is_abroad] for occasion in occasions]
    states = [0, *found, *_candidates(abroad, least=1, apart_from=found)]
    speaks = [[any(agrees(vote, shift) for vote in occasion) for shift in states] for occasion in occasions]
    eased = [_eased(one, other, changes) for one, other in pairwise(occasions)]
    path = _cheapest(states, speaks, eased)
    cuts = [0, *(k for k in range(1, len(path)) if path[k] != path[k - 1]), len(path)]
    return [_stretch(states[path[start]], occasions[start:end]) for start, end in pairwise(cuts)]


def one_stretch(votes: Iterable[Vote]) -> Stretch | None:
    """The shift that most occasions speak for, where the clock ran on unchanged; None without votes."""
    occasions = occasions_of(votes)
    if not occasions:
        return None
    found = [_stretch(shift, occasions) for shift in [0, *_candidates(occasions, least=1)]]
    return max(found, key=lambda stretch: stretch.occasions)


def densest(marks: Sequence[tuple[int, int]]) -> tuple[int, int]:
    """(middle of the window, occasions in it) of the window that holds most; `marks`: (shift, occasion), sorted."""
    inside: Counter[int] = Counter()
    best, start, middle = 0, 0, 0
    for shift, occasion in marks:
        inside[occasion] += 1
        while shift - marks[start][0] > WINDOW:
            gone = marks[start][1]
            inside[gone] -= 1
            if not inside[gone]:
                del inside[gone]
            start += 1
        if len(inside) > best:
            best, middle = len(inside), (shift + marks[start][0]) // 2
    return middle, best


def _candidates(occasions: Sequence[Sequence[Vote]], least: int = 2, apart_from: Sequence[int] = ()) -> list[int]:
    """Shifts that at least so many occasions speak for, the strongest first."""
    marks = _marks(occasions, [0, *apart_from])
    found: list[int] = []
    while marks and len(found) < _MOST_CANDIDATES:
        middle, count = densest(marks)
        if count < least:
            break
        found.append(middle)
        marks = [mark for mark in marks if abs(mark[0] - middle) > WINDOW]
    return found


def _marks(occasions: Sequence[Sequence[Vote]], apart_from: Sequence[int]) -> list[tuple[int, int]]:
    """(shift, occasion) of the votes that are clearly for another shift than the given ones."""
    return sorted(
        (vote.shift, number)
        for number, occasion in enumerate(occasions)
        for vote in occasion
        if all(abs(vote.shift - shift) > WINDOW for shift in apart_from)
    )


def _stretch(shift: int, occasions: Sequence[Sequence[Vote]]) -> Stretch:
    speaking = [[vote for vote in occasion if agrees(vote, shift)] for occasion in occasions]
    right = sum(any(agrees(vote, 0) for vote in occasion) for occasion in occasions) if shift else 0
    return Stretch(
        shift,
        tuple(vote for occasion in occasions for vote in occasion),
        tuple(vote for some in speaking for vote in some),
        sum(map(bool, speaking)),
        max(right, densest(_marks(occasions, [0, shift]))[1]),
    )


def _eased(one: Sequence[Vote], other: Sequence[Vote], changes: Sequence[Change]) -> list[tuple[int, float]]:
    """(step of the needed shift, cost) of what may have happened between two occasions: daylight saving, a journey."""
    last, first = one[-1].own, other[0].own
    hours = {change.step: DAYLIGHT_CHANGE for change in changes if last < change.at and change.at - HOUR <= first}
    out = {vote.journey.east for vote in other if vote.journey and vote.is_abroad}
    home = {-vote.journey.east for vote in one if vote.journey and vote.is_abroad}
    return [*hours.items(), *((step, ZONE_CHANGE) for step in sorted(out | home))]


def _cheapest(
    states: Sequence[int], speaks: Sequence[Sequence[bool]], eased: Sequence[Sequence[tuple[int, float]]]
) -> list[int]:
    """The state of each occasion on the cheapest path; of equally cheap ones the one with the first state."""
    costs = [float(not said) for said in speaks[0]]
    back: list[list[int]] = []
    for said, steps in zip(speaks[1:], eased, strict=True):
        came = _arrivals(states, costs, steps)
        back.append([other for _, other in came])
        costs = [cost + (not heard) for (cost, _), heard in zip(came, said, strict=True)]
    path = [min(range(len(states)), key=costs.__getitem__)]
    for row in reversed(back):
        path.append(row[path[-1]])
    return path[::-1]


def _arrivals(
    states: Sequence[int], costs: Sequence[float], steps: Sequence[tuple[int, float]]
) -> list[tuple[float, int]]:
    """(cost, state before) of the cheapest way into each state; state 0 is that of a clock that is right."""
    easiest = min(range(len(states)), key=costs.__getitem__)
    came = []
    for state, shift in enumerate(states):
        change = CHANGE if state and easiest else RIGHT_CHANGE
        best = min((costs[state], state), (costs[easiest] + change, easiest), (costs[0] + RIGHT_CHANGE, 0))
        for step, cost in steps:
            for other, before in enumerate(states):
                if is_step(shift - before, step):
                    best = min(best, (costs[other] + cost, other))
        came.append(best)
    return came


def is_step(step: int, wanted: int) -> bool:
    """Whether the step is that one, as exactly as windows tell."""
    return abs(step - wanted) <= WINDOW
