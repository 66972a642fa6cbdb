"""Votes cut into stretches."""

import random

import pytest

from indexer.dating.clock.seconds import DAY, HOUR, seconds_of
from indexer.dating.clock.voting import WINDOW, Vote, densest, occasions_of, one_stretch, stretches
from indexer.dating.clock.zone import Change

SPRING = Change(seconds_of("2026-03-29T02:00:00"), HOUR)
START = seconds_of("2026-03-01T10:00:00")


def votes(*shifts: int) -> list[Vote]:
    """One vote a day."""
    return [Vote(k, START + k * DAY, shift, "the Quay 3", k) for k, shift in enumerate(shifts)]


def test_occasions_are_parted_by_rest() -> None:
    """Votes within half an hour of each other are one occasion, the next day's another."""
    near = [Vote(k, START + 60 * k, 0, "", 0) for k in range(5)]
    assert [len(group) for group in occasions_of([*near, Vote(9, START + DAY, 0, "", 1)])] == [5, 1]


def test_one_wrong_vote_cuts_nothing() -> None:
    """A vote for another shift amid the others is a scene seen twice, no change of the clock."""
    (found,) = stretches(votes(0, 0, 0, 90_000, 0, 0))
    assert (found.shift, found.occasions, found.other) == (0, 5, 1)


def test_a_change_of_the_clock_cuts() -> None:
    """Four votes for one shift and then four for another are two stretches."""
    assert [found.shift for found in stretches(votes(0, 0, 0, 0, 9_000, 9_000, 9_000, 9_000))] == [0, 9_000]


def test_two_votes_amid_others_cut_only_at_daylight_saving() -> None:
    """Two votes an hour off amid others are a stretch where daylight saving began and ended around them."""
    wrong = 5 * HOUR + 1_000
    some = votes(*[wrong] * 28, wrong + HOUR, wrong + HOUR, *[wrong] * 28)
    ended = Change(START + 30 * DAY + HOUR, -HOUR)
    assert [found.shift for found in stretches(some)] == [wrong]
    assert [found.shift for found in stretches(some, [SPRING, ended])] == [wrong, wrong + HOUR, wrong]


def test_a_second_device_shoots_a_minute_later() -> None:
    """Votes within a few minutes of each other agree."""
    (found,) = stretches(votes(7_000, 7_060, 7_120, 7_200, 7_010))
    assert found.occasions == 5


def test_no_votes() -> None:
    """Nobody asked, nothing said."""
    assert stretches([]) == []
    assert one_stretch([]) is None


def test_one_vote_of_a_run() -> None:
    """Where the clock ran on, one vote says how far it is off."""
    found = one_stretch(votes(352_972_800))
    assert found is not None
    assert (found.shift, found.occasions, found.other) == (352_972_800, 1, 0)


@pytest.mark.parametrize("seed", range(300))
def test_the_densest_window(seed: int) -> None:
    """The densest window holds as many occasions as the best of all windows, tried one by one."""
    random_ = random.Random(seed)
    marks = sorted((random_.randrange(20 * WINDOW), random_.randrange(12)) for _ in range(random_.randint(1, 60)))
    best = max(len({o for shift, o in marks if low <= shift <= low + WINDOW}) for low, _ in marks)
    middle, count = densest(marks)
    assert count == best
    assert len({o for shift, o in marks if abs(shift - middle) <= WINDOW / 2 + 1}) >= best


@pytest.mark.parametrize("seed", range(200))
def test_stretches_hold_every_vote_once(seed: int) -> None:
    """Whatever is voted, the stretches hold every vote once, in order."""
    random_ = random.Random(seed)
    some = votes(*(random_.choice([0, 0, HOUR, 9_000, random_.randrange(-DAY, DAY)]) for _ in range(40)))
    held = [vote for found in stretches(some, [SPRING]) for vote in found.votes]
    assert held == some
