"""What a camera's file numbers tell: they rise with time, so a time that does not is doubtful. Pure.

Names by DCF (CIPA DC-009: four characters and 0001 to 9999, wrapping) carry no date, but an order.
"""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from indexer.dating.corrected import CLOCK_SOURCES
from indexer.dating.moments import has_clock, span
from indexer.dating.own import with_doubt
from indexer.dating.twins import Verdicts
from indexer.dating.values import PhotoSaid, World
from indexer.dating.words import moment_words
from indexer.facts.file_numbers import file_number
from indexer.facts.records import Camera

#: A clock may be set to another zone on a journey: nothing closer contradicts.
SLACK = timedelta(hours=26)
_LATEST = datetime.max - SLACK  # noqa: DTZ901 - a wall clock
#: Fewer dated photos make no order, nor do numbers that jump about: one step back in so many.
_FEWEST, _STEPS_BACK = 5, 8
#: A neighbour whose number is further off may be another camera's, and was not taken on the same outing.
FURTHEST = 50
#: What vouches for a clock outweighs so many photos for which nothing does.
_VOUCHED = 100
#: DCF numbers wrap from 9999 to 0001: the ends between which a step back is no contradiction.
_LOW, _HIGH = 1000, 9000


@dataclass(frozen=True, slots=True)
class Numbered:
    """One photo in a run of numbers."""

    number: int
    key: str
    name: str


Photos = Mapping[str, PhotoSaid]
#: The photos of one folder whose names differ by their numbers alone, by number.
Run = Sequence[Numbered]


def runs(photos: Iterable[PhotoSaid]) -> list[Run]:
    """All runs of numbered files."""
    found: defaultdict[tuple[str, str], list[Numbered]] = defaultdict(list)
    for photo in photos:
        for file in photo.files:
            if number := file_number(file.name):
                found[file.folder, number[0]].append(Numbered(number[1], photo.key, file.name))
    return [sorted(run, key=lambda item: (item.number, item.name)) for _, run in sorted(found.items()) if len(run) > 1]


def with_contradictions(
    verdicts: Verdicts, numbered: Sequence[Run], photos: Photos, vouched: Collection[str], world: World
) -> Verdicts:
    """The verdicts, those flagged whose time their number contradicts."""
    found = dict(verdicts)
    for run in numbered:
        for key, doubt in _contradicted(run, verdicts, photos, vouched, world):
            found[key] = with_doubt(found[key], doubt)
    return found


def _contradicted(
    run: Run, verdicts: Verdicts, photos: Photos, vouched: Collection[str], world: World
) -> Iterator[tuple[str, str]]:
    """(key, doubt) of each photo whose time lies outside what the numbers around it allow."""
    for dated in _by_camera(run, verdicts, photos):
        if len(dated) < _FEWEST or _is_wrap(dated, verdicts):
            continue
        part = dict(zip(dated, _parts(dated), strict=True))
        standing = _in_order(dated, verdicts, vouched)
        odd = sorted(set(range(len(dated))).difference(standing))
        groups = sum(place - 1 != other for place, other in zip(odd, [-2, *odd], strict=False))
        if groups > len(dated) // _STEPS_BACK:
            continue
        for place in odd:
            item, follower = dated[place], bisect_left(standing, place)
            before = dated[standing[follower - 1]] if follower else None
            after = dated[standing[follower]] if follower < len(standing) else None
            before, after = (near if near and part[near] == part[item] else None for near in (before, after))
            if item.key not in vouched and not _is_within(item, before, after, verdicts, world):
                yield item.key, _number_words(before, after, verdicts)


def _parts(dated: Run) -> Iterator[int]:
    """The part of the run that each photo is in: where numbers were left out, another camera of the model, or the same
    one set anew, may have begun."""
    part = 0
    for before, item in zip([dated[0], *dated], dated, strict=False):
        part += item.number - before.number > FURTHEST
        yield part


def _by_camera(run: Run, verdicts: Verdicts, photos: Photos) -> Iterator[list[Numbered]]:
    """The photos of a run that a camera's clock dated, one list a camera."""
    found: defaultdict[Camera, list[Numbered]] = defaultdict(list)
    for item in run:
        verdict = verdicts[item.key]
        if verdict.source in CLOCK_SOURCES and has_clock(verdict.taken):
            found[photos[item.key].camera].append(item)
    yield from found.values()


def _is_wrap(dated: Run, verdicts: Verdicts) -> bool:
    """Whether the numbers only began anew at 0001: what has low numbers then follows what has high ones."""
    times = [at(item, verdicts)[0] for item in dated]
    back = [place for place in range(1, len(dated)) if times[place - 1] - times[place] > SLACK]
    if dated[0].number >= _LOW or dated[-1].number <= _HIGH or len(back) != 1:
        return False
    return times[-1] - times[0] <= SLACK


def _in_order(dated: Run, verdicts: Verdicts, vouched: Collection[str]) -> list[int]:
    """The places of the photos that stand: the most that rise in time with their numbers, vouched ones above all."""
    times = [at(item, verdicts)[0] for item in dated]
    ranks = sorted(set(times))
    best: list[tuple[int, int]] = [(0, -1)] * (len(ranks) + 1)  # (weight, place) of the best chain that ends so early
    came_from = []
    for place, item in enumerate(dated):
        weight, previous = _best_until(best, bisect_right(ranks, min(times[place], _LATEST) + SLACK))
        came_from.append(previous)
        weight += _VOUCHED if item.key in vouched else 1
        _note(best, bisect_right(ranks, times[place]), (weight, place))
    chain, place = [], _best_until(best, len(ranks))[1]
    while place >= 0:
        chain.append(place)
        place = came_from[place]
    return chain[::-1]


def _best_until(best: Sequence[tuple[int, int]], rank: int) -> tuple[int, int]:
    """The best of the first `rank` entries of a binary indexed tree of maxima (Fenwick 1994: memory)."""
    found = (0, -1)
    while rank > 0:
        found = max(found, best[rank])
        rank -= rank & -rank
    return found


def _note(best: list[tuple[int, int]], rank: int, value: tuple[int, int]) -> None:
    while rank < len(best):
        best[rank] = max(best[rank], value)
        rank += rank & -rank


def _is_within(
    item: Numbered, before: Numbered | None, after: Numbered | None, verdicts: Verdicts, world: World
) -> bool:
    """Whether a photo's week is one that its neighbours allow."""
    week = world.weeks.week_of(verdicts[item.key].taken) or 0
    first = world.weeks.week_of(verdicts[before.key].taken) if before else None
    last = world.weeks.week_of(verdicts[after.key].taken) if after else None
    return (first is None or first <= week) and (last is None or week <= last)


def _number_words(before: Numbered | None, after: Numbered | None, verdicts: Verdicts) -> str:
    near, side = (before, "after") if before else (after, "before")
    name, when = (near.name, moment_words(verdicts[near.key].taken or "")) if near else ("", "")
    return f"its number contradicts its time: by that it was taken {side} {name} ({when})"


def at(item: Numbered, verdicts: Verdicts) -> tuple[datetime, datetime]:
    """[first, last) moment of a dated photo."""
    return span(verdicts[item.key].taken or "")
