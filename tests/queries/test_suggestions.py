"""Likely corrections of clocks, and what each would do."""

import sqlite3
from datetime import date, time

import pytest

from indexer.errors import WordError
from indexer.store.opening import transaction
from indexer.store.week_log import tell_week
from queries.evidence import count_suggestions
from queries.suggestions import LikelyCorrection, likely_corrections, suggestion_numbered
from queries.week_log import latest_words
from queries.weeks import WeekRule
from tests.queries.made_rows import put_claim, put_photo

ISO = WeekRule()
CAMERA = "Lanternfish P4"
A, B, C, D, E, F = (letter * 32 for letter in "abcdef")
DAY = 86_400


def suggest(connection: sqlite3.Connection, shift: int, since: str | None = None, until: str | None = None) -> None:
    """A row as judging writes it."""
    connection.execute(
        "INSERT INTO clock_suggestion (make, model, serial, shift_seconds, since, until, grounds)"
        " VALUES ('', ?, '', ?, ?, ?, '4 scenes say so')",
        (CAMERA, shift, since, until),
    )


def likely(connection: sqlite3.Connection) -> list[LikelyCorrection]:
    return likely_corrections(connection, latest_words(connection, ISO), ISO, time(0))


@pytest.fixture
def archive(index: sqlite3.Connection) -> sqlite3.Connection:
    """The camera took a on Monday, b on Sunday, c a week before; d is a copy of b, e is of another camera."""
    for key, own in ((A, "2026-03-30T10:00:00"), (B, "2026-04-05T22:00:00"), (C, "2026-03-25T10:00:00")):
        put_photo(index, key, own)
        put_claim(index, key, "exif original", own)
    put_photo(index, D, "2026-04-05T22:00:00", camera="")
    index.execute("UPDATE picture SET twin_key = ? WHERE key = ?", (B, D))
    put_photo(index, E, "2026-04-05T22:00:00", camera="TW-100")
    put_claim(index, E, "exif original", "2026-04-05T22:00:00")
    return index


def test_photos_and_their_copies_that_would_change_their_weeks(archive: sqlite3.Connection) -> None:
    """All of the camera and what is dated by it count as photos, those over the edge of a week as changed."""
    suggest(archive, 3 * 3600)
    (found,) = likely(archive)
    assert (found.number, found.camera.name, found.grounds, found.shift_seconds) == (
        1,
        CAMERA,
        "4 scenes say so",
        10800,
    )
    assert (found.photos, found.moves.keys, found.moves.done) == (4, {B, D}, ())
    assert count_suggestions(archive) == 1


def test_only_the_span_counts(archive: sqlite3.Connection) -> None:
    """It is half open, in the camera's own times."""
    suggest(archive, 14 * DAY, "2026-03-25T10:00:00", "2026-03-30T10:00:00")
    (found,) = likely(archive)
    assert (found.photos, found.moves.keys) == (1, {C})


def test_done_weeks_are_named(archive: sqlite3.Connection) -> None:
    """Whether they lose a photo or gain one."""
    with transaction(archive):
        tell_week(archive, date(2026, 4, 6), "done")
        tell_week(archive, date(2026, 4, 20), "done")
    suggest(archive, 3 * 3600)
    (found,) = likely(archive)
    assert [week.name for week in found.moves.done] == ["2026-W15"]


def test_what_was_told_by_hand_stays(archive: sqlite3.Connection) -> None:
    """A photo whose week or time the person told does not move, nor do its copies."""
    archive.execute("INSERT INTO assignment VALUES ('u', '2026-04-20T09:00:00.000000Z', ?, 'week', '2026-03-30')", (B,))
    suggest(archive, 3 * 3600)
    (found,) = likely(archive)
    assert (found.photos, found.moves.keys) == (2, frozenset())


def test_several_stand_by_themselves(archive: sqlite3.Connection) -> None:
    """Each is reckoned as if it alone were applied; a number that none has is refused."""
    suggest(archive, 7 * DAY, None, "2026-03-28T00:00:00")
    suggest(archive, 7 * DAY, "2026-03-28T00:00:00", None)
    assert [(item.number, item.photos, len(item.moves.keys)) for item in likely(archive)] == [(1, 1, 1), (2, 3, 3)]
    assert suggestion_numbered(archive, 2).since == "2026-03-28T00:00:00"
    with pytest.raises(WordError, match="there is no suggestion 3; weeksheaf clock suggest lists those that stand"):
        suggestion_numbered(archive, 3)


def test_without_suggestions_nothing_is_reckoned(archive: sqlite3.Connection) -> None:
    """No suggestion, no list."""
    assert likely(archive) == []
    assert count_suggestions(archive) == 0
