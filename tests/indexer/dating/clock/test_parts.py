"""The photos for which a shift holds."""

from indexer.dating.clock.parts import parts
from indexer.dating.clock.rolls import Roll, rolls_of
from indexer.dating.clock.seconds import DAY, HOUR, seconds_of, text_of
from indexer.dating.clock.voting import Vote, stretches
from indexer.dating.clock.zone import HomeZone, home_zone
from indexer.dating.values import Shot
from tests.indexer.dating.clock.households import COMPACT, TODAY, home_offset


def roll_of(*own: str) -> tuple[Roll, HomeZone]:
    (roll,) = rolls_of([Shot(f"{k:03}", COMPACT, time) for k, time in enumerate(own)], [])
    return roll, home_zone(home_offset, list(roll.own), TODAY)


def vote(roll: Roll, place: int, shift: int) -> Vote:
    return Vote(place, roll.own[place], shift, "the Quay 3", roll.own[place] // DAY)


def test_the_clock_changed_in_the_longest_rest() -> None:
    """Photos between the last vote for one shift and the first for the next part where the camera rested longest."""
    roll, zone = roll_of(*(f"2026-02-{day:02}T10:00:00" for day in (1, 2, 3, 4, 5, 9, 10, 11, 12)))
    votes = [vote(roll, place, 0 if place < 4 else 9_000) for place in (0, 1, 2, 6, 7, 8)]
    assert [part.places for part in parts(roll, range(9), stretches(votes), zone)] == [(0, 1, 2, 3, 4), (5, 6, 7, 8)]


def test_daylight_saving_parts_at_its_moment() -> None:
    """A step of an hour around the change of clocks parts at that moment, whenever the camera rested."""
    roll, zone = roll_of(*(f"2026-03-{day:02}T10:00:00" for day in (10, 11, 12, 27, 28, 29, 30, 31)))
    votes = [vote(roll, place, 0 if place < 4 else HOUR) for place in (0, 1, 2, 5, 6, 7)]
    right, late = parts(roll, range(8), stretches(votes, zone.daylight), zone)
    assert (right.places, late.places) == ((0, 1, 2, 3, 4), (5, 6, 7))
    assert [text_of(mark) for mark in late.marks] == ["2026-03-29T01:00:00", "2026-10-25T01:00:00"]
    assert (late.is_daylight, late.right_beside) == (True, 3)


def test_an_hour_all_year_is_no_daylight_saving() -> None:
    """An hour that is missing in winter and in summer is not that of daylight saving."""
    roll, zone = roll_of(*(f"2026-{month:02}-10T10:00:00" for month in range(1, 8)))
    (part,) = parts(roll, range(7), stretches([vote(roll, place, HOUR) for place in range(7)], zone.daylight), zone)
    assert not part.is_daylight
    assert part.places == tuple(range(7))


def test_an_hour_seen_in_summer_only_is_that_of_the_summer() -> None:
    """Where all scenes are of one summer, an hour is that of its daylight saving, and winter photos stay."""
    roll, zone = roll_of(*(f"2026-{month:02}-10T10:00:00" for month in range(1, 13)))
    votes = [vote(roll, place, HOUR) for place in (4, 5, 6, 7)]
    (part,) = parts(roll, range(12), stretches(votes, zone.daylight), zone)
    assert part.is_daylight
    assert [text_of(roll.own[place])[5:7] for place in part.places] == ["04", "05", "06", "07", "08", "09", "10"]
    assert seconds_of("2026-03-29T01:00:00") in part.marks
