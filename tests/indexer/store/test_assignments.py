"""Weeks and times told by hand."""

import sqlite3
from datetime import date
from pathlib import Path

import pytest

from indexer.store.alikes import renew_sets
from indexer.store.assignments import Assignment, assignments, forget, tell_taken, tell_week
from indexer.store.backup import all_words, restore
from indexer.store.clocks import tell_correction
from indexer.store.opening import open_for_writing, transaction
from indexer.store.pictures import judge_all
from indexer.store.successions import tell_succession
from tests.indexer.seen_photos import CAMERA, TODAY, A, B, C, look, put, taken

pytestmark = pytest.mark.usefixtures("likeness")

W14, W15 = date(2026, 3, 30), date(2026, 4, 6)


def in_week(connection: sqlite3.Connection, key: str, first_day: date | None) -> None:
    with transaction(connection):
        tell_week(connection, [key], first_day, TODAY)


def at(connection: sqlite3.Connection, key: str, time: str | None) -> None:
    with transaction(connection):
        tell_taken(connection, [key], time, TODAY)


def photo(connection: sqlite3.Connection, key: str = A) -> tuple[str, str, int]:
    """Its time, what puts it into a week, and whether it is doubtful."""
    row = connection.execute("SELECT taken, placed, doubtful FROM photo WHERE key = ?", (key,)).fetchone()
    return tuple(row)


@pytest.fixture
def shot(connection: sqlite3.Connection) -> sqlite3.Connection:
    """A photo of the Monday of week 14."""
    put(connection, A, taken("2026-03-30T10:00:00"), name="x.jpg")
    return connection


def test_a_week_told_by_hand_holds_by_its_fourth_day(shot: sqlite3.Connection) -> None:
    """The photo keeps its time; the latest word holds, and None goes back."""
    in_week(shot, A, W15)
    assert photo(shot) == ("2026-03-30T10:00:00", "2026-04-09", 0)
    assert assignments(shot) == {A: Assignment(week="2026-04-06")}
    in_week(shot, A, W14)
    assert photo(shot) == ("2026-03-30T10:00:00", "2026-04-02", 0)
    in_week(shot, A, None)
    assert photo(shot) == ("2026-03-30T10:00:00", "2026-03-30T10:00:00", 0)
    assert assignments(shot) == {}
    assert [word["value"] for word in all_words(shot)["assignment"]] == ["2026-04-06", "2026-03-30", None]


@pytest.mark.parametrize("time", ["2026-04-08T09:15:20", "2026-04-08T09:15", "2026-04-08", "1996-08", "1996"])
def test_a_time_told_by_hand_outranks_all_else(shot: sqlite3.Connection, time: str) -> None:
    """As exact as it is told; a clock correction does not change it."""
    at(shot, A, time)
    with transaction(shot):
        tell_correction(shot, CAMERA, 86_400, None, None, TODAY)
    assert photo(shot)[:2] == (time, time)
    at(shot, A, None)
    assert photo(shot)[0] == "2026-03-31T10:00:00"


def test_week_and_time_are_words_of_their_own(shot: sqlite3.Connection) -> None:
    """Each holds besides the other, and both are taken back at once."""
    in_week(shot, A, W15)
    at(shot, A, "2026-04-01T12:00")
    assert photo(shot)[:2] == ("2026-04-01T12:00", "2026-04-09")
    assert assignments(shot) == {A: Assignment("2026-04-06", "2026-04-01T12:00")}
    for words in (4, 4):
        with transaction(shot):
            forget(shot, [A], TODAY)
        assert photo(shot)[:2] == ("2026-03-30T10:00:00", "2026-03-30T10:00:00")
        assert len(all_words(shot)["assignment"]) == words


def test_words_outlive_a_photo_that_is_gone_and_a_retagged_one(shot: sqlite3.Connection) -> None:
    """They hang on the picture: another name or other tags change nothing."""
    in_week(shot, A, W15)
    put(shot, A, taken("2020-01-01T10:00:00"), name="elsewhere.jpg")
    put(shot, A, taken("2020-01-01T10:00:00"), name="x.jpg")
    assert photo(shot)[:2] == ("2020-01-01T10:00:00", "2026-04-09")


def edit(connection: sqlite3.Connection, old: str, new: str, picture: int) -> None:
    """The file of the old picture is saved over; it is looked at, and all is judged anew."""
    put(connection, new, taken("2026-03-30T10:00:00"), name="x.jpg")
    look(connection, new, picture)
    with transaction(connection):
        tell_succession(connection, old, new)
        renew_sets(connection)
        judge_all(connection, TODAY)


def test_a_word_follows_a_picture_that_was_edited_in_place(shot: sqlite3.Connection) -> None:
    """Week and time each, through several edits, as long as they show the same; a later word on the edit holds."""
    look(shot, A, 1)
    in_week(shot, A, W15)
    at(shot, A, "2026-04-01T12:00")
    edit(shot, A, B, picture=1)
    edit(shot, B, C, picture=1)
    assert photo(shot, C)[:2] == ("2026-04-01T12:00", "2026-04-09")
    assert assignments(shot)[C] == Assignment("2026-04-06", "2026-04-01T12:00")
    with transaction(shot):
        forget(shot, [C], TODAY)
    assert photo(shot, C)[:2] == ("2026-03-30T10:00:00", "2026-03-30T10:00:00")
    in_week(shot, A, W15)  # told of the old picture, and later
    assert photo(shot, C)[1] == "2026-04-09"


def test_a_word_waits_where_another_picture_was_saved_over(shot: sqlite3.Connection) -> None:
    """It is kept, and does not hold."""
    look(shot, A, 1)
    in_week(shot, A, W15)
    edit(shot, A, B, picture=2)
    assert photo(shot, B)[1] == "2026-03-30T10:00:00"
    assert B not in assignments(shot)


def test_restored_words_hold_at_once(shot: sqlite3.Connection, tmp_path: Path) -> None:
    """Into an index that lived on too, however often; the latest of both sides holds."""
    in_week(shot, A, W15)
    other = open_for_writing(tmp_path / "other.db", create=True)
    put(other, A, taken("2026-03-30T10:00:00"))
    at(other, A, "2026-05-05")
    in_week(other, A, date(2026, 4, 13))
    for _ in range(2):
        restore(other, all_words(shot), TODAY)
        restore(shot, all_words(other), TODAY)
    assert all_words(other) == all_words(shot)
    assert photo(other)[:2] == photo(shot)[:2] == ("2026-05-05", "2026-04-16")
    other.close()
