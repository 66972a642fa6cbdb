"""Universal time and the wall clock at home."""

# ruff: noqa: DTZ001, DTZ901 - universal times come in without a zone

import time
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta

import pytest

from indexer.errors import WordError
from indexer.facts.zones import THIS_COMPUTER, check_zone, is_zone, wall_clock


@pytest.fixture
def set_this_computer(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str], None]]:
    """Sets the zone of this computer for the length of a test."""
    if not hasattr(time, "tzset"):
        pytest.skip("this system has no tzset")

    def choose(zone: str) -> None:
        monkeypatch.setenv("TZ", zone)
        time.tzset()

    yield choose
    monkeypatch.undo()
    time.tzset()


@pytest.mark.parametrize(
    ("utc", "zone", "wall", "hours"),
    [
        # FACTS "File names": a phone's name at UTC-5; "Dates": local days of +02:00 and +13:00.
        (datetime(2026, 1, 5, 2), "America/New_York", "2026-01-04T21:00:00", -5),
        (datetime(2024, 5, 1, 21, 30), "Europe/Berlin", "2024-05-01T23:30:00", 2),
        (datetime(2023, 12, 31, 11, 30), "Pacific/Auckland", "2024-01-01T00:30:00", 13),
        (datetime(2026, 1, 5, 2), "Asia/Kathmandu", "2026-01-05T07:45:00", 5.75),  # +05:45 (IANA database)
    ],
)
def test_universal_time_becomes_the_wall_clock_of_a_zone(utc: datetime, zone: str, wall: str, hours: float) -> None:
    """The wall clock has the zone's offset of that day, summer time included."""
    local = wall_clock(utc, zone)
    assert local.replace(tzinfo=None).isoformat() == wall
    assert local.utcoffset() == timedelta(hours=hours)


def test_this_computer_stands_for_its_own_zone(set_this_computer: Callable[[str], None]) -> None:
    """Without a named zone the computer's own one is taken, on the day of the picture."""
    set_this_computer("America/New_York")
    assert wall_clock(datetime(2026, 1, 5, 2), THIS_COMPUTER).replace(tzinfo=None) == datetime(2026, 1, 4, 21)
    assert wall_clock(datetime(2026, 7, 5, 2), THIS_COMPUTER).replace(tzinfo=None) == datetime(2026, 7, 4, 22)


@pytest.mark.parametrize(
    ("utc", "zone"),
    [(datetime.min, "America/Chicago"), (datetime.max, "Pacific/Auckland")],
)
@pytest.mark.parametrize("named", [True, False])
def test_the_ends_of_the_calendar_overflow(
    utc: datetime, zone: str, named: bool, set_this_computer: Callable[[str], None]
) -> None:
    """A wall clock outside the years 1..9999 is an OverflowError, for a named zone and for this computer's."""
    set_this_computer(zone)
    with pytest.raises(OverflowError):
        wall_clock(utc, zone if named else THIS_COMPUTER)


@pytest.mark.parametrize(
    ("given", "name"),
    [("europe/lisbon", "Europe/Lisbon"), ("UTC", "UTC"), ("Computer", THIS_COMPUTER)],
)
def test_a_zone_is_found_whatever_the_case(given: str, name: str) -> None:
    """The name comes back as the IANA database writes it."""
    assert check_zone(given) == name
    assert is_zone(name)


@pytest.mark.parametrize("name", ["Mars/Base", "", "../etc/passwd", "/etc/localtime", "Europe", "+02:00", "a\0b"])
def test_what_is_no_zone_is_refused(name: str) -> None:
    """Anything else is a WordError in one line that repeats the name and gives an example."""
    with pytest.raises(WordError, match="Europe/Lisbon") as caught:
        check_zone(name)
    assert not is_zone(name)
    assert repr(name) in str(caught.value)
    assert "\n" not in str(caught.value)
