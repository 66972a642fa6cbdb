"""Clocks that fell back to their factory date."""

import random
from datetime import datetime, timedelta

import pytest

from indexer.dating.clock.factory import reset_runs
from indexer.dating.clock.rolls import Roll, rolls_of
from indexer.dating.clock.seconds import DAY, HOUR, seconds_of
from tests.indexer.dating.clock.households import COMPACT, Household, at, days

FACTORY = at("2015-01-01")
LATEST = seconds_of("2027-01-01T00:00:00")


def household(*resets: tuple[str, str], count: int = 40) -> Household:
    """A photo every two days from 1 March 2026; between the moments of a reset the clock runs from the factory date."""
    home = Household()
    for moment in days("2026-03-01", count, every=2):
        since = next((at(first) for first, last in resets if at(first) <= moment < at(last)), None)
        home.shoot(COMPACT, moment, lambda true, since=since: true if since is None else FACTORY + (true - since))  # type: ignore[misc]
    return home


def roll_of(home: Household) -> Roll:
    (roll,) = rolls_of(home.shots, [])
    return roll


def test_a_run_and_its_bounds() -> None:
    """The true shift of a run lies between the bounds that its neighbours give, which are as far apart as they are."""
    roll = roll_of(household(("2026-03-20", "2026-03-28")))
    (run,) = reset_runs(roll, roll.own, LATEST)
    true = seconds_of("2026-03-20T00:00:00") - seconds_of("2015-01-01T00:00:00")
    assert len(run.places) == 4
    assert run.low <= true <= run.high
    assert run.width < 4 * DAY + HOUR


def test_a_run_at_the_end_is_bounded_by_today() -> None:
    """A clock that was not set again leaves today as the upper bound."""
    roll = roll_of(household(("2026-05-10", "2027-01-01")))
    (run,) = reset_runs(roll, roll.own, LATEST)
    assert run.after is None
    assert max(roll.own[place] for place in run.places) + run.high == LATEST


@pytest.mark.parametrize("seed", range(100))
def test_true_shifts_lie_within_the_bounds(seed: int) -> None:
    """However often the batteries fail, one after another or apart, the truth lies within the bounds of every run."""
    random_ = random.Random(seed)
    moments = sorted(random_.sample(range(6, 75), 2 * random_.randint(1, 3)))
    if random_.random() < 0.5 and len(moments) > 2:
        moments[2] = moments[1]  # again before the clock was set
    resets = [(_day(a), _day(b)) for a, b in zip(moments[::2], moments[1::2], strict=True)]
    home = household(*resets)
    roll = roll_of(home)
    for run in reset_runs(roll, roll.own, LATEST):
        for place in run.places:
            true = home.truth[roll.shots[place].key]
            shift = seconds_of(true.isoformat()) - roll.own[place]
            assert run.low <= shift <= run.high


@pytest.mark.parametrize("seed", range(30))
def test_a_suggested_week_is_the_true_one(seed: int) -> None:
    """Whatever is suggested on such bounds alone puts the photos into their true weeks."""
    random_ = random.Random(seed)
    first = random_.randint(6, 70)
    home = household((_day(first), _day(first + random_.randint(1, 6))))
    moved = {key: one.shift_seconds for one in home.ask() for key in one.photos}
    for shot in home.shots:
        if shot.key in moved:
            there = datetime.fromisoformat(shot.own) + timedelta(seconds=moved[shot.key])
            assert there.isocalendar()[:2] == home.truth[shot.key].isocalendar()[:2]


def test_some_weeks_can_be_suggested() -> None:
    """The test before this one is not empty: some runs do lie within one week."""
    assert any(household((_day(day), _day(day + 2))).ask() for day in range(6, 30))


def test_a_fall_to_another_date_is_no_factory_date() -> None:
    """A clock that falls back to some day in summer may be set wrong, but is not fresh from the factory."""
    home = Household()
    for moment in days("2026-03-01", 9):
        home.shoot(COMPACT, moment, lambda true: true - timedelta(days=300 if true > at("2026-03-05") else 0))
    roll = roll_of(home)
    assert reset_runs(roll, roll.own, LATEST) == []


def _day(day: int) -> str:
    return (at("2026-03-01") + timedelta(days=day)).isoformat()
