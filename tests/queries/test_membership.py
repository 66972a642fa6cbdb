"""What each photo is alike to."""

import sqlite3

import pytest

from queries.membership import Alike, alikes
from tests.queries.made_rows import FOLDER, put_choice, put_photo, put_set

KEYS = [letter * 32 for letter in "abcdef"]
A, B, C, D, E, F = KEYS


@pytest.fixture
def photos(index: sqlite3.Connection) -> sqlite3.Connection:
    """Six photos that are alike to none."""
    for key in KEYS:
        put_photo(index, key)
    return index


def test_a_photo_alike_to_none_is_in_no_set(photos: sqlite3.Connection) -> None:
    """Without sets nothing is said, of unknown keys neither."""
    assert alikes(photos, [A, "0" * 32]) == {}
    assert alikes(photos, []) == {}


def test_keeper_and_left_out_know_each_other(photos: sqlite3.Connection) -> None:
    """Every member tells its set's kind, size, keeper and reason, and whether it is the one that stands for it."""
    put_set(photos, 1, "burst", [B, A, C])
    found = alikes(photos, [A, B, D])
    assert found == {
        A: Alike("burst", 3, False, B, "bbbbb", f"{FOLDER}/{B}.jpg", False, "sharpest of 3"),
        B: Alike("burst", 3, True, B, "bbbbb", f"{FOLDER}/{B}.jpg", False, "sharpest of 3"),
    }


def test_of_two_sets_the_one_that_leaves_the_photo_out_is_told(photos: sqlite3.Connection) -> None:
    """A keeper of copies that a burst leaves out tells of the burst; its copy tells of it, and that it is out too."""
    put_set(photos, 1, "copy", [A, B], reason="the camera's own file")
    put_set(photos, 2, "burst", [C, A, D])
    found = alikes(photos, [A, B])
    assert (found[A].kind, found[A].keeper_key, found[A].is_keeper) == ("burst", C, False)
    assert (found[B].kind, found[B].keeper_key, found[B].keeper_is_out) == ("copy", A, True)


def test_of_two_sets_that_a_photo_stands_for_the_burst_is_told(photos: sqlite3.Connection) -> None:
    """A keeper of both tells of the burst."""
    put_set(photos, 1, "copy", [A, B])
    put_set(photos, 2, "burst", [A, C, D])
    assert (alikes(photos, [A])[A].kind, alikes(photos, [A])[A].photos) == ("burst", 3)


def test_a_set_that_is_left_out_whole_has_no_keeper(photos: sqlite3.Connection) -> None:
    """Where the person left out all, no keeper is named."""
    put_set(photos, 1, "burst", [A, B], keepers=0)
    for key in (A, B):
        put_choice(photos, key, "leave")
    found = alikes(photos, [A])[A]
    assert (found.keeper_key, found.keeper_code, found.keeper_path, found.reason) == (None, None, None, "")
