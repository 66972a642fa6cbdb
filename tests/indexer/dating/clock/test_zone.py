"""The home zone, and the clock changes in it."""

from datetime import date, datetime, timedelta

import pytest

from indexer.dating.clock.seconds import HOUR, seconds_of, text_of
from indexer.dating.clock.zone import Change, home_zone
from tests.indexer.dating.clock.households import TODAY, at, home_offset

ZONE = home_zone(home_offset, [seconds_of("2025-01-01T00:00:00")], TODAY)


def test_the_changes_of_lisbon() -> None:
    """Daylight saving in Lisbon begins and ends on the last Sundays of March and October (EU Directive 2000/84/EC)."""
    days = [text_of(change.at)[:10] for change in ZONE.daylight]
    assert days[-4:] == ["2026-03-29", "2026-10-25", "2027-03-28", "2027-10-31"]
    assert [change.step for change in ZONE.daylight[-2:]] == [HOUR, -HOUR]


@pytest.mark.parametrize("day", range(0, 700, 3))
def test_offsets_are_those_of_the_zone(day: int) -> None:
    """The offset on any day is the one that the zone database gives."""
    moment = at("2025-01-02T12:00") + timedelta(days=day)
    own = seconds_of(moment.isoformat())
    assert ZONE.offset(own) == home_offset(moment) * 60
    assert ZONE.offset_at_utc(own - home_offset(moment) * 60) == home_offset(moment) * 60


def test_what_a_clock_reads_at_a_change() -> None:
    """A clock on winter time reads 1:00 when Lisbon goes from 1:00 to 2:00, and again 1:00 when it goes back."""
    spring, autumn = (
        Change(seconds_of(f"2026-{day}T02:00:00"), step) for day, step in (("03-29", HOUR), ("10-25", -HOUR))
    )
    assert text_of(spring.own(0)) == "2026-03-29T01:00:00"
    assert text_of(autumn.own(HOUR)) == "2026-10-25T01:00:00"


def test_a_zone_without_changes() -> None:
    """A zone that never changes has no changes, and archives of any age can be asked."""
    zone = home_zone(lambda _: 330, [seconds_of("0001-01-01T00:00:00"), seconds_of("9999-12-31T23:59:59")], TODAY)
    assert zone.changes == ()
    assert zone.offset(0) == 330 * 60


def test_an_archive_of_the_future() -> None:
    """Times in the far future do not make the zone be asked for ever."""
    asked = 0

    def counting(local: datetime) -> int:
        nonlocal asked
        asked += 1
        return home_offset(local)

    home_zone(counting, [seconds_of("9999-01-01T00:00:00")], date(2026, 1, 1))
    assert asked < 3_000
