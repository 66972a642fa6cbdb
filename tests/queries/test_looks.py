"""What looking at photos gave."""

import sqlite3
from datetime import time

import pytest

from queries.looks import Look, looks_of, scenes_by_photo, set_aside, sets_by_photo
from queries.photos import photos_of_week
from queries.weeks import WeekRule
from tests.queries.made_rows import put_look, put_photo, put_set

W14 = WeekRule().week_named(2026, 14)
A, B, C = (letter * 32 for letter in "abc")


def test_looks_come_by_key(index: sqlite3.Connection) -> None:
    """A photo has what was seen, one without pixels the reason alone, one that was not looked at nothing."""
    put_look(index, A)
    put_look(index, B, problem="cut off")
    assert looks_of(index, [A, B, C]) == {
        A: Look(None, bytes(8), bytes(192), 40, 200, 0, 0, "photograph"),
        B: Look("cut off", None, None, None, None, None, None, None),
    }


def test_a_photo_may_be_in_two_sets(index: sqlite3.Connection) -> None:
    """A keeper of copies in a burst has both sets; a photo alike to none has no entry."""
    put_set(index, 1, "copy", [A, B])
    put_set(index, 2, "burst", [A, "d" * 32])
    assert sets_by_photo(index, [A, B, C]) == {A: {1, 2}, B: {1}}


def test_a_scene_is_shared_with_all_that_are_alike(index: sqlite3.Connection) -> None:
    """What one of a burst shares with another camera's photo its keeper shares too; a photo outside of the week has no
    part in it."""
    put_set(index, 1, "burst", [A, "d" * 32])
    index.execute("INSERT INTO same_scene VALUES (?, ?, 8.0)", (B, "d" * 32))
    index.execute("INSERT INTO same_scene VALUES (?, ?, 8.0)", (C, "e" * 32))
    found = scenes_by_photo(index, [A, B, C])
    assert found.keys() == {A, B}
    assert found[A] == found[B]


@pytest.mark.parametrize(
    ("name", "look", "reason"),
    [
        ("ferry.jpg", {}, None),
        ("Screenshot_20260401-100000.png", {}, "screenshot"),
        ("ferry.jpg", {"subject": "text"}, "picture of text"),
        ("ferry.jpg", {"subject": "blank"}, "picture of nothing"),
        ("ferry.jpg", {"problem": "cut off"}, "pixels unreadable"),
        ("ferry.jpg", None, None),
        ("Screenshot_20260401-100000.png", None, "screenshot"),
    ],
)
def test_what_is_set_aside(
    index: sqlite3.Connection, name: str, look: dict[str, str] | None, reason: str | None
) -> None:
    """Screens, pictures of text or of nothing, and photos without pixels are set aside with the reason."""
    put_photo(index, A, name=name)
    if look is not None:
        put_look(index, A, **look)  # type: ignore[arg-type]
    (photo,) = photos_of_week(index, W14, time(0))
    assert set_aside(photo, looks_of(index, [A]).get(A)) == reason
