"""Cameras and phones, and which of them has probably not been copied yet."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from queries.devices import FEWEST, RETIRED_AFTER, SILENT_AFTER, Device, uncopied

patient = settings(deadline=None)
NEWEST = date(2026, 4, 12)


def device(camera: str | None, last: date | None, photos: int = 50) -> Device:
    moment = f"{last}T12:00:00" if last else None
    return Device(camera, None, photos, moment, moment)


PHONE = device("Lanternfish P4", NEWEST)


@pytest.mark.parametrize(
    ("days", "is_named"),
    [(0, False), (13, False), (14, True), (15, True), (364, True), (365, False), (4000, False)],
)
def test_a_device_that_ends_weeks_before_the_newest(days: int, is_named: bool) -> None:
    """Two weeks of silence name a device; after a year it is no longer in use."""
    compact = device("Tidewell TW-100", NEWEST - timedelta(days=days))
    assert uncopied([PHONE, compact]) == ([compact] if is_named else [])


def test_few_photos_are_somebody_elses() -> None:
    """A device with four photos was borrowed; with five it is one of the household's."""
    early = NEWEST - timedelta(days=30)
    assert uncopied([PHONE, device("Borrowed", early, FEWEST - 1)]) == []
    assert len(uncopied([PHONE, device("Own", early, FEWEST)])) == 1


def test_what_names_no_camera_is_no_device() -> None:
    """Photos without a camera, and cameras without a settled time, are never said to be uncopied."""
    early = NEWEST - timedelta(days=30)
    assert uncopied([PHONE, device(None, early), device("No time", None)]) == []
    assert uncopied([]) == []


def test_scans_without_a_camera_do_not_make_a_phone_late() -> None:
    """What names no camera does not count as the newest photo either."""
    assert uncopied([device(None, NEWEST), device("Lanternfish P4", NEWEST - timedelta(days=30))]) == []


@pytest.mark.parametrize("last", ["2026-03-01", "2026-03-01T10:15", "2026-03-01T10:15:20"])
def test_last_photos_of_any_precision(last: str) -> None:
    """The last photo may be known by day, by minute or by second."""
    compact = Device("Tidewell TW-100", "0042", 9, last, last)
    assert uncopied([PHONE, compact]) == [compact]


@patient
@given(st.lists(st.builds(device, st.sampled_from(["a", "b", "c"]), st.dates(date(2024, 1, 1), NEWEST)), max_size=6))
def test_the_newest_device_is_never_named(found: list[Device]) -> None:
    """Whichever device ends last has been copied; only devices that were given are named."""
    named = uncopied(found)
    newest = max((item.last or "" for item in found), default="")
    assert all(item.last != newest and item in found for item in named)
    for item in named:
        silence = date.fromisoformat(newest[:10]) - date.fromisoformat((item.last or "")[:10])
        assert SILENT_AFTER <= silence < RETIRED_AFTER
