"""The identity of what is told."""

import sqlite3
from datetime import UTC, date, datetime, timedelta, timezone, tzinfo
from pathlib import Path
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.store import words
from indexer.store.settings import tell_setting
from indexer.store.successions import tell_succession
from indexer.store.week_log import tell_week
from indexer.store.words import STATES, WAITS, WORD_TABLES, new_stamp, written

MONDAY = date(2026, 3, 30)
EARLIEST, LATEST = date(1000, 1, 1).toordinal(), date(9999, 12, 30).toordinal()
DAYS = st.integers(EARLIEST, LATEST).map(lambda day: datetime.fromordinal(day).replace(tzinfo=UTC))
MOMENTS = st.builds(lambda day, past: day + timedelta(microseconds=past), DAYS, st.integers(0, 86_399_999_999))


def set_clock(monkeypatch: pytest.MonkeyPatch, moment: datetime) -> None:
    class Clock(datetime):
        @classmethod
        def now(cls, tz: tzinfo | None = None) -> "Clock":
            return cls.fromtimestamp(moment.timestamp(), tz)

    monkeypatch.setattr(words, "datetime", Clock)


def told_at(connection: sqlite3.Connection) -> list[str]:
    """When each word was told, in the order of telling."""
    union = " UNION ALL ".join(f"SELECT told_at, rowid FROM {table}" for table in WORD_TABLES)
    return [moment for moment, _ in connection.execute(f"{union} ORDER BY 1")]


def test_a_word_has_an_identity_and_the_present_moment(connection: sqlite3.Connection) -> None:
    """A UUID of its own and universal time to the microsecond."""
    before = written(datetime.now(UTC))
    one, other = new_stamp(connection), new_stamp(connection)
    assert UUID(one.uuid) != UUID(other.uuid)
    assert before <= one.told_at <= written(datetime.now(UTC))


def test_later_words_sort_later_though_the_clock_was_set_back(
    connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The latest word holds, so each one's moment is beyond all before it, of whichever kind."""
    set_clock(monkeypatch, datetime(2026, 6, 1, 12, tzinfo=UTC))
    tell_week(connection, MONDAY, "open")
    set_clock(monkeypatch, datetime(2020, 1, 1, tzinfo=UTC))
    tell_setting(connection, "week.min_days", "1", MONDAY)
    tell_succession(connection, "old", "new")
    tell_week(connection, MONDAY, "done")
    moments = told_at(connection)
    assert moments == sorted(set(moments))
    assert moments[0] == "2026-06-01T12:00:00.000000Z"
    assert moments[-1] == "2026-06-01T12:00:00.000003Z"
    assert connection.execute("SELECT state FROM week_state").fetchone()[0] == "done"


def test_words_of_one_moment_keep_their_order(connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch) -> None:
    """A clock that stands still makes no two words alike, at the turn of a year too."""
    set_clock(monkeypatch, datetime(2026, 12, 31, 23, 59, 59, 999_998, tzinfo=UTC))
    for state in STATES:
        tell_week(connection, MONDAY, state, waiting_for=["words"])
    moments = told_at(connection)
    assert moments == sorted(set(moments))
    assert len(moments) == len(STATES)
    assert connection.execute("SELECT state FROM week_state").fetchone()[0] == STATES[-1]


@given(MOMENTS, MOMENTS, st.integers(-14 * 60, 14 * 60))
def test_written_moments_sort_as_moments_do(one: datetime, other: datetime, minutes: int) -> None:
    """Texts compare like the moments they stand for, and the zone they are given in does not matter."""
    assert (written(one) < written(other)) == (one < other)
    assert datetime.fromisoformat(written(one)) == one
    if datetime(1000, 1, 3, tzinfo=UTC) < one < datetime(9999, 12, 29, tzinfo=UTC):
        assert written(one.astimezone(timezone(timedelta(minutes=minutes)))) == written(one)


def test_the_tables_of_words_are_those_that_are_told(connection: sqlite3.Connection) -> None:
    """Every table with a told_at is among those that a backup holds, with all its columns."""
    tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")]
    told = {}
    for table in tables:
        columns = tuple(row["name"] for row in connection.execute(f"PRAGMA table_info({table})"))
        if "told_at" in columns:
            told[table] = columns
    assert told == WORD_TABLES


def test_the_schema_knows_the_same_states(connection: sqlite3.Connection, index: Path) -> None:
    """Every state can be kept and nothing else."""
    for state in STATES:
        tell_week(connection, MONDAY, state, waiting_for=list(WAITS))
    with pytest.raises(sqlite3.IntegrityError):
        tell_week(connection, MONDAY, "finished")
    assert index.exists()
