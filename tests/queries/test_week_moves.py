"""Which photos a word moves to another week."""

import sqlite3
from datetime import time

from queries.week_log import Word
from queries.week_moves import WeekMoves, placed_by_key, week_moves
from queries.weeks import Week, WeekRule
from tests.queries.made_rows import put_photo

ISO = WeekRule()
W13, W14, W15 = (ISO.week_named(2026, number) for number in (13, 14, 15))
DONE, OPEN = Word("", "", "done", (), ""), Word("", "", "open", (), "")


def moves(
    before: dict[str, str | None],
    after: dict[str, str | None],
    words: dict[Week, Word] | None = None,
    starts_at: time = time(0),
) -> WeekMoves:
    return week_moves(before, after, words or {}, ISO, starts_at)


def test_only_those_that_change_their_week_count() -> None:
    """Another hour of the same week is no move; a week lost or found is one."""
    before = {"a": "2026-03-30T10:00:00", "b": "2026-04-05T23:30:00", "c": None, "d": "2026-04-01", "e": "2026-04-01"}
    after = {
        "a": "2026-03-30T11:00:00",
        "b": "2026-04-06T00:30:00",
        "c": "2026-04-01",
        "d": "2026-04",
        "e": "2026-04-01",
    }
    assert moves(before, after).keys == {"b", "c", "d"}


def test_the_small_hours_belong_to_the_day_before() -> None:
    """The week is that of the album day."""
    before, after = {"a": "2026-04-05T23:30:00"}, {"a": "2026-04-06T00:30:00"}
    assert moves(before, after, starts_at=time(4)).keys == frozenset()


def test_a_done_week_that_loses_or_gains_is_named() -> None:
    """Weeks that are not done, or not touched, are not."""
    words = {W13: DONE, W14: DONE, W15: OPEN}
    assert moves({"a": "2026-04-01"}, {"a": "2026-04-08"}, words).done == (W14,)
    assert moves({"a": "2026-04-08"}, {"a": "2026-04-01"}, words).done == (W14,)
    assert moves({"a": "2026-03-24"}, {"a": "2026-04-01"}, words).done == (W13, W14)
    assert moves({"a": "2026-04-01"}, {"a": "2026-04-02"}, words).done == ()


def test_photos_that_are_gone_are_not_counted(index: sqlite3.Connection) -> None:
    """Only what is there has a place."""
    put_photo(index, "a" * 32, "2026-04-01T10:00:00", placed="2026-04-09")
    put_photo(index, "b" * 32, "2026-04-01", missing=True)
    assert placed_by_key(index) == {"a" * 32: "2026-04-09"}
