"""Journeys that phones tell of, and cameras that stay on home time."""

from datetime import timedelta

from indexer.dating.clock.journeys import Journey, journey_at, journeys_of
from indexer.dating.clock.rolls import rolls_of
from indexer.dating.clock.seconds import HOUR, seconds_of
from indexer.dating.clock.zone import home_zone
from indexer.dating.values import SameScene
from tests.indexer.dating.clock.households import COMPACT, PHONE, TODAY, Household, at, behind, days, home_offset, right


def travels(home: Household, east: int = 9) -> None:
    """A phone a day at noon by the clock at home: four days at home, five abroad, four at home, in winter."""
    for number, moment in enumerate(days("2026-01-01", 13, hour=12)):
        offset = 60 * east if 4 <= number < 9 else 0
        home.shoot(PHONE, moment + timedelta(minutes=offset), offset_minutes=offset)


def test_a_journey_lies_between_photos() -> None:
    """A journey begins and ends halfway between the photos that tell of it, by the clock at home."""
    home = Household()
    travels(home)
    (roll,) = rolls_of(home.shots, [])
    zone = home_zone(home_offset, list(roll.own), TODAY)
    (journey,) = journeys_of(roll, zone)
    assert journey.east == 9 * HOUR
    assert seconds_of("2026-01-04T23:00:00") < journey.since < seconds_of("2026-01-05T02:00:00")
    assert seconds_of("2026-01-09T23:00:00") < journey.until < seconds_of("2026-01-10T02:00:00")
    assert journey_at([journey], journey.since) == journey
    assert journey_at([journey], journey.until) is None
    assert journey_at([journey], journey.since - 1) is None


def test_daylight_saving_is_no_journey() -> None:
    """A phone that follows daylight saving at home has been nowhere."""
    home = Household()
    for moment in days("2026-01-01", 300):
        home.shoot(PHONE, moment)
    (roll,) = rolls_of(home.shots, [])
    assert journeys_of(roll, home_zone(home_offset, list(roll.own), TODAY)) == []


def test_two_journeys_in_a_row() -> None:
    """From one zone straight to the next there are two journeys, one behind the other."""
    home = Household()
    for offset in (0, 120, 540, 0):
        for moment in days(f"2026-01-{3 + offset // 60:02}" if offset else f"2026-0{1 + len(home.shots) // 6}-20", 2):
            home.shoot(PHONE, moment, offset_minutes=offset)
    (roll,) = rolls_of(home.shots, [])
    journeys = journeys_of(roll, home_zone(home_offset, list(roll.own), TODAY))
    assert [journey.east for journey in journeys] == [2 * HOUR, 9 * HOUR]
    assert journeys[0].until <= journeys[1].since
    assert isinstance(journeys[0], Journey)


def test_one_scene_abroad_tells_of_home_time() -> None:
    """One scene that a phone abroad saw, off by the zones between, moves the photos of the journey and no other."""
    home = Household()
    travels(home)
    for number, moment in enumerate(days("2026-01-01", 13, hour=14)):
        true = moment + timedelta(hours=9 if 4 <= number < 9 else 0)
        key = home.shoot(COMPACT, true, behind(hours=9) if 4 <= number < 9 else right)
        if number == 6:
            home.scenes.append(SameScene(key, home.shoot(PHONE, true, offset_minutes=540), 5.0))
    (found,) = home.ask()
    assert (found.shift_seconds, len(found.photos)) == (32_400, 5)
    assert found.grounds == (
        "1 scene that the Quay 3 also shows, on 1 day, is 9 h earlier by this camera's clock,"
        " as on a journey: it stayed on home time"
    )
    assert not home.still_wrong([found])


def test_one_scene_at_home_tells_nothing() -> None:
    """The same difference while the phone is at home is chance."""
    home = Household()
    travels(home)
    key = home.shoot(COMPACT, at("2026-01-02T20:00"), behind(hours=9))
    home.scenes.append(SameScene(key, home.shoot(PHONE, at("2026-01-02T20:00")), 5.0))
    assert home.ask() == []
