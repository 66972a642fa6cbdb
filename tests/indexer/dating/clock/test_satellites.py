"""The satellites' time against a camera's own."""

import random
from datetime import datetime, timedelta

import pytest

from indexer.dating.values import Suggestion
from tests.indexer.dating.clock.households import COMPACT, PHONE, Clock, Household, behind, days, home_offset, right


def utc(true: datetime) -> str:
    """The satellites' time of a fresh fix in Lisbon."""
    return (true - timedelta(minutes=home_offset(true))).isoformat(timespec="seconds")


def asked(
    clock: Clock, count: int = 8, first: str = "2026-02-01", **said: object
) -> tuple[Household, list[Suggestion]]:
    home = Household()
    for moment in days(first, count):
        home.shoot(COMPACT, moment, clock, gps=utc(moment), **said)
    return home, home.ask()


@pytest.mark.parametrize(
    ("by", "shift"),
    [
        ({"minutes": 67}, 4_020),
        ({"minutes": -37}, -2_220),
        ({"days": 366}, 31_622_400),
        ({"days": -2, "hours": 3}, -162_000),
    ],
)
def test_a_clock_that_the_satellites_contradict(by: dict[str, float], shift: int) -> None:
    """A clock off by what is no zone is moved to the satellites' time."""
    home, found = asked(behind(**by))
    assert [(item.shift_seconds, item.since, item.until, item.ground) for item in found] == [(shift, None, None, "gps")]
    assert not home.still_wrong(found)


def test_the_grounds_read_well() -> None:
    """The sentence says how many photos on how many days, and which way."""
    _, (found,) = asked(behind(minutes=67))
    assert found.grounds == (
        "8 photos carry the satellites' time, on 8 days, and this camera's clock is 1 h 7 min behind it"
    )


def test_a_written_zone_is_believed() -> None:
    """With its zone written, a clock is held against the satellites in that zone."""
    assert asked(right, offset_minutes=0)[1] == []
    assert [item.shift_seconds for item in asked(behind(minutes=67), offset_minutes=0)[1]] == [4_020]


@pytest.mark.parametrize("minutes", [-840, -345, -330, -60, 60, 480])
def test_another_zone_is_no_fault(minutes: int) -> None:
    """A clock that shows the time of some zone, in the whole world, may have been set for a journey."""
    assert asked(behind(minutes=minutes))[1] == []


def test_no_zone_of_the_world_is_a_quarter_past() -> None:
    """A clock that would be in a zone that nobody keeps is wrong."""
    assert [item.shift_seconds for item in asked(behind(minutes=435))[1]] == [26_100]


def test_two_days_are_needed() -> None:
    """Fixes of one day only are no ground."""
    home = Household()
    for minute in range(0, 400, 40):
        moment = days("2026-02-01", 1)[0] + timedelta(minutes=minute)
        home.shoot(COMPACT, moment, behind(minutes=67), gps=utc(moment))
    assert home.ask() == []


@pytest.mark.parametrize("seed", range(100))
def test_old_fixes_are_no_fault(seed: int) -> None:
    """Fixes that are up to hours old, and none of them fresh, are no ground."""
    random_ = random.Random(seed)
    home = Household()
    for moment in days("2026-02-01", 40):
        home.shoot(COMPACT, moment, gps=utc(moment - timedelta(seconds=random_.uniform(0, 20_000))))
    assert home.ask() == []


def test_a_receiver_that_counts_its_weeks_from_the_start() -> None:
    """A date that is 1,024 weeks too early is the receiver's mistake, not the clock's (IS-GPS-200: memory)."""
    home = Household()
    for moment in days("2026-02-01", 8):
        home.shoot(COMPACT, moment, gps=utc(moment - timedelta(weeks=1_024)))
    assert home.ask() == []


def test_a_fix_from_the_future_is_none() -> None:
    """Satellites that claim next year prove nothing."""
    home = Household()
    for moment in days("2026-02-01", 8):
        home.shoot(COMPACT, moment, gps=utc(moment + timedelta(days=800)))
    assert home.ask() == []


def test_daylight_saving_by_satellite() -> None:
    """A clock that agrees with the satellites until the change and is an hour off ever after did not follow."""
    home = Household()
    for moment in days("2026-03-01", 60, every=2):
        home.shoot(COMPACT, moment, lambda true: true - timedelta(minutes=home_offset(true)), gps=utc(moment))
    (found,) = home.ask()
    assert (found.shift_seconds, found.since, found.ground) == (3_600, "2026-03-29T01:00:00", "daylight saving")
    assert found.grounds.endswith("1 h behind it: it did not follow daylight saving")


def test_a_phone_that_travels() -> None:
    """A phone that writes the zones it goes through agrees with the satellites everywhere."""
    home = Household()
    for number, moment in enumerate(days("2026-02-01", 20)):
        offset = 0 if number < 8 else -300
        there = moment - timedelta(minutes=offset)
        home.shoot(PHONE, moment, offset_minutes=offset, gps=there.isoformat())
    assert home.ask() == []
