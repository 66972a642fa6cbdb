"""The zone that a device was in."""

# ruff: noqa: DTZ001 - universal times are naive here

from datetime import datetime

import pytest

from indexer.dating.offsets import devices_of, known_offsets, own_offset, step_between
from tests.indexer.dating.said import COMPACT, PHONE, claim, file, photo


@pytest.mark.parametrize(
    ("utc", "local", "minutes"),
    [
        ("2026-01-05T02:00:00", "2026-01-04T21:00:00", -300),
        ("2026-01-05T02:00:00", "2026-01-05T07:45:01", 345),  # Nepal's +05:45
        ("2026-01-05T02:00:00", "2026-01-05T16:00:00", 840),
        ("2026-01-05T02:00:00", "2026-01-05T17:00:00", None),  # no zone is so far east
        ("2026-01-05T02:00:00", "2026-01-05T07:50:00", None),  # none lies between the quarters
    ],
)
def test_a_wall_clock_and_universal_time_tell_a_zone(utc: str, local: str, minutes: int | None) -> None:
    """Quarters of an hour, from UTC-14 to UTC+14."""
    assert step_between(utc, local) == minutes


def test_a_photo_tells_its_zone_by_its_offset_or_by_two_ways_of_writing_its_moment() -> None:
    """An offset in a UTC claim is no zone."""
    original, named = claim("exif original", "2026-01-04T21:00:01"), claim("file name", "2026-01-05T02:00:00", utc=True)
    assert own_offset(photo("a", original, named).said) == -300
    assert own_offset(photo("a", claim("exif original", "2026-01-04T21:00:01", 60), named).said) == 60
    assert own_offset(photo("a", original).said) is None
    assert own_offset(photo("a", claim("iptc", "2026-01-04T21:00:01", 0)).said) is None
    assert own_offset(photo("a", claim("iptc", "2026-01-04T21:00:01", 60)).said) == 60
    assert own_offset(photo("a", claim("xmp original", "2026-01-05T02:00:00", 0, utc=True)).said) is None


def test_the_zone_of_an_edit_is_not_that_of_the_photo() -> None:
    """Taken without a zone and edited at home in summer; a modified date of the same moment is the camera's own."""
    original = claim("exif original", "2026-01-04T21:00:01")
    for source in ("exif modified", "xmp modified", "sidecar modified"):
        assert own_offset(photo("a", original, claim(source, "2026-07-01T10:00:00", 120)).said) is None
        assert own_offset(photo("a", original, claim(source, original.when, -300)).said) == -300


def test_the_nearest_photo_of_the_same_device_tells_the_zone_that_day() -> None:
    """Not the day before, not another camera; a file without a camera asks those named alike in its folder."""
    west = photo("w", claim("exif original", "2026-01-04T21:00:00", -300), camera=PHONE, name="PXL_1.jpg")
    east = photo("e", claim("exif original", "2026-01-05T09:00:00", 60), camera=PHONE, name="PXL_2.jpg")
    found = known_offsets([west, east])
    named, stripped = list(devices_of(file(1, "PXL_9.jpg", PHONE))), list(devices_of(file(1, "PXL_9.jpg")))
    assert found.near(named, datetime(2026, 1, 5, 3)) == -300
    assert found.near(stripped, datetime(2026, 1, 5, 7)) == 60
    assert found.near(named, datetime(2026, 1, 6, 7)) is None
    assert found.near(devices_of(file(1, "HRBR0001.JPG", COMPACT)), datetime(2026, 1, 5, 3)) is None
    assert found.near(devices_of(file(1, "PXL_9.jpg", folder="2/elsewhere")), datetime(2026, 1, 5, 3)) is None
