"""weeksheaf devices"""

from collections.abc import Callable

import pytest

from tests.queries.cli.conftest import COMPACT, EARLY_END, Person, put


def test_each_device_with_its_first_and_last_photo(person: Person) -> None:
    """Cameras and phones come with their count and span; what names none comes last, doubtful times do not count."""
    devices = person.json("devices")["devices"]
    fields = ("camera", "serial", "photos", "first", "last", "not_copied_yet")
    assert [tuple(device[field] for field in fields) for device in devices] == [
        ("Lanternfish P4", None, 15, "2026-03-16T08:00:00", "2026-04-12T21:00:00", False),
        ("Tidewell TW-100", "0042", 6, "2026-03-09T10:00:00", "2026-03-13T17:45:10", True),
        (None, None, 4, "2026-04-02", "2026-04-02", False),
    ]


@pytest.mark.parametrize("columns", ["80", "200"])
def test_the_table_as_a_person_reads_it(person: Person, columns: str) -> None:
    """The table fits on the terminal; a sentence names the device that has probably not been copied yet."""
    person.env = {"COLUMNS": columns}
    lines = person.says("devices").splitlines()
    assert lines == [
        "camera or phone    serial  photos  first        last",
        "Lanternfish P4                 15  16 Mar 2026  12 Apr 2026",
        "Tidewell TW-100    0042         6  9 Mar 2026   13 Mar 2026",
        "(no camera named)               4  2 Apr 2026   2 Apr 2026",
        EARLY_END,
    ]


def test_a_device_that_was_copied_is_not_named(owner: Person, picture: Callable[..., bytes]) -> None:
    """Once the newer photos of a device are there, the sentence is gone."""
    put(owner.folder / "compact" / "DSC00016.jpg", picture("new", "2026:04:10 10:00:00", COMPACT))
    owner.says("index")
    assert "probably" not in owner.says("devices")


def test_an_index_without_photos_has_no_devices(newcomer: Person) -> None:
    """Before anything is indexed there is nothing to list, and that is said."""
    newcomer.says("settings", "week.min_days", "4")
    assert newcomer.json("devices") == {"devices": []}
    assert newcomer.says("devices") == "No photos yet.\n"
