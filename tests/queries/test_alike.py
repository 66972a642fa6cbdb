"""The sets of photos alike, and what could not be compared."""

import sqlite3
from datetime import time

import pytest

from queries.alike import alike_report, sets_of
from queries.photos import photos_of_week
from queries.weeks import WeekRule
from tests.queries.made_rows import put_choice, put_look, put_photo, put_set

W14 = WeekRule().week_named(2026, 14)
MIDNIGHT = time(0)
#: Key letter and capture time: a to d in week 14, e and f in week 15, g of a month.
TAKEN = {
    "a": "2026-04-01T10:00:00",
    "b": "2026-04-01T10:00:02",
    "c": "2026-04-03T08:00:00",
    "d": "2026-03-31",
    "e": "2026-04-06T00:00:00",
    "f": "2026-04-07T12:00:00",
    "g": "2026-04",
}


def key(letter: str) -> str:
    return letter * 32


@pytest.fixture
def photos(index: sqlite3.Connection) -> sqlite3.Connection:
    """Seven photos that were looked at, in a burst of the first week, a burst of both, and copies of the second."""
    for letter, taken in TAKEN.items():
        put_photo(index, key(letter), taken)
        put_look(index, key(letter))
    put_set(index, 1, "burst", [key("b"), key("a")])
    put_set(index, 2, "burst", [key("e"), key("c")])
    put_set(index, 3, "copy", [key("f"), key("g")], reason="the camera's own file")
    return index


def letters(connection: sqlite3.Connection, *asked: str) -> list[tuple[str, str, str]]:
    sets = sets_of(connection, [key(letter) for letter in asked] if asked else None)
    return [
        (found.kind, *("".join(photo.key[0] for photo in part) for part in (found.keepers, found.others)))  # type: ignore[misc]
        for found in sets
    ]


def test_sets_come_copies_first_in_the_order_they_were_taken(photos: sqlite3.Connection) -> None:
    """Copies come before bursts, each by its earliest photo; a keeper comes before those that are left out."""
    assert letters(photos) == [("copy", "f", "g"), ("burst", "b", "a"), ("burst", "e", "c")]


def test_sets_of_some_photos_are_whole(photos: sqlite3.Connection) -> None:
    """A set with one of the photos is given with all of its members."""
    assert letters(photos, "c", "d") == [("burst", "e", "c")]
    assert sets_of(photos, []) == []


def test_several_may_be_kept_and_none(photos: sqlite3.Connection) -> None:
    """A set has the keepers that the person gave it."""
    put_set(photos, 4, "burst", [key("d"), key("g")], keepers=2, reason="kept by you")
    put_set(photos, 5, "burst", [key("f"), key("e")], keepers=0)
    assert letters(photos, "d") == [("burst", "dg", "")]
    assert ("burst", "", "fe") in letters(photos, "f")


def test_the_report_of_a_week(photos: sqlite3.Connection) -> None:
    """A week's report holds the sets with a photo in the week, and only them."""
    report = alike_report(photos, W14, MIDNIGHT)
    assert [found.keepers[0].key[0] for found in report.sets] == ["b", "e"]
    assert alike_report(photos, None, MIDNIGHT).sets[0].reason == "the camera's own file"


def test_what_takes_no_part_is_told_apart(photos: sqlite3.Connection) -> None:
    """Photos without pixels come with the reason, files of several pictures with their number, new ones counted;
    what is missing takes no part in any of it."""
    put_photo(photos, key("h"), "2026-04-02T10:00:00")
    put_look(photos, key("h"), problem="cut off")
    put_photo(photos, key("i"), "2026-05-02T10:00:00")
    put_look(photos, key("i"), pictures=4)
    put_photo(photos, key("j"), "2026-04-02T10:00:00", missing=True)
    put_look(photos, key("j"), problem="cut off")
    put_photo(photos, key("k"), "2026-04-02T10:00:00")
    put_photo(photos, key("m"), "2026-04-02T10:00:00", missing=True)
    report = alike_report(photos, None, MIDNIGHT)
    assert [(photo.key[0], reason) for photo, reason in report.not_compared] == [("h", "cut off")]
    assert [(photo.key[0], count) for photo, count in report.several] == [("i", 4)]
    assert report.not_looked_at == 1
    assert alike_report(photos, W14, MIDNIGHT).several == ()


def test_photos_tell_choice_keeper_and_set(photos: sqlite3.Connection) -> None:
    """What a week's photos say of themselves: the last choice holds, null goes back to the tool's own."""
    for choice in ("keep", "leave"):
        put_choice(photos, key("d"), choice)
    put_choice(photos, key("a"), "leave")
    put_choice(photos, key("a"), None)
    found = {photo.key[0]: photo for photo in photos_of_week(photos, W14, MIDNIGHT)}
    assert {letter: (photo.choice, photo.keeper) for letter, photo in found.items()} == {
        "a": (None, False),
        "b": (None, True),
        "c": (None, False),
        "d": ("leave", False),
    }
    assert found["d"].alike is None
    assert found["c"].alike
    assert found["c"].alike.keeper_code == "eeeee"
