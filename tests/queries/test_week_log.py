"""What was told of each week."""

import json
import sqlite3
from contextlib import closing
from datetime import date, datetime, timedelta
from uuid import uuid4

from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.store.opening import transaction
from indexer.store.week_log import tell_week
from queries.week_log import latest_words, log_of
from queries.weeks import WeekRule

ISO = WeekRule()
W14 = ISO.week_named(2026, 14)

rules = st.builds(WeekRule, st.integers(0, 6), st.integers(1, 7))


def tell(connection: sqlite3.Connection, first_day: date, state: str) -> None:
    with transaction(connection):
        tell_week(connection, first_day, state)


def test_the_word_told_last_holds(index: sqlite3.Connection) -> None:
    """The latest word is the state; the log has them all, oldest first."""
    for state in ("started", "done", "open"):
        tell(index, date(2026, 3, 30), state)
    assert [word.state for word in log_of(index, W14, ISO)] == ["started", "done", "open"]
    assert latest_words(index, ISO)[W14].state == "open"


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(0, 8), st.integers(0, 6)), min_size=1, max_size=8), rules)
def test_words_show_in_the_week_that_holds_the_fourth_day(told: list[tuple[int, int]], rule: WeekRule) -> None:
    """Whatever rules words were told under, each shows in the one week that holds its fourth day, the latest on top,
    and the state is that of the log's last word."""
    firsts = [date(2026, 1, 5) + timedelta(weeks=weeks, days=shift) for weeks, shift in told]
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.row_factory = sqlite3.Row
        connection.execute("CREATE TABLE week_log (uuid, told_at, first_day, state, waiting_for, note)")
        connection.execute(_STATE_VIEW)
        for place, first in enumerate(firsts):
            row = (str(uuid4()), f"2026-04-20T09:00:{place:02}.000000Z", first.isoformat(), "done", "[]", str(place))
            connection.execute("INSERT INTO week_log VALUES (?, ?, ?, ?, ?, ?)", row)
        latest = latest_words(connection, rule)
        logs = {found: log_of(connection, found, rule) for found in latest}
    assert sorted(int(word.note) for log in logs.values() for word in log) == list(range(len(firsts)))
    for found, log in logs.items():
        assert all(firsts[int(word.note)] + timedelta(days=3) in found for word in log)
        assert latest[found] == log[-1]


#: As the first migration has it, without the index around it.
_STATE_VIEW = """
CREATE VIEW week_state AS SELECT * FROM week_log
WHERE NOT EXISTS (SELECT 1 FROM week_log AS later WHERE later.first_day = week_log.first_day
                  AND (later.told_at, later.uuid) > (week_log.told_at, week_log.uuid))
"""


def test_the_view_here_is_the_view_of_the_index(index: sqlite3.Connection) -> None:
    """The test above reads the same view as the tool does."""
    (sql,) = index.execute("SELECT sql FROM sqlite_schema WHERE name = 'week_state'").fetchone()
    rest = " ".join(sql.split()).partition("WHERE NOT EXISTS")[2]
    assert rest == " ".join(_STATE_VIEW.split()).partition("WHERE NOT EXISTS")[2]


def test_waits_come_back_as_they_were_told(index: sqlite3.Connection) -> None:
    """A word's waits are kept in order."""
    with transaction(index):
        tell_week(index, date(2026, 3, 30), "waiting", waiting_for=["words", "supplies:blue"], note="n")
    (word,) = log_of(index, W14, ISO)
    assert (word.waiting_for, word.note) == (("words", "supplies:blue"), "n")
    assert datetime.fromisoformat(word.told_at).tzinfo
    assert json.dumps(word.waiting_for)
