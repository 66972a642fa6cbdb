"""What is told of weeks."""

import json
import sqlite3
from datetime import date
from typing import Any

import pytest

from indexer.errors import WordError
from indexer.store.week_log import tell_week

MONDAY, NEXT_MONDAY = date(2026, 3, 30), date(2026, 4, 6)


def test_the_log_keeps_every_word_and_the_latest_holds(connection: sqlite3.Connection) -> None:
    """Nothing is written over: undoing is a word too."""
    for state in ("started", "waiting", "started"):
        tell_week(connection, MONDAY, state, waiting_for=["prints"] if state == "waiting" else ())
    log = [state for (state,) in connection.execute("SELECT state FROM week_log ORDER BY told_at")]
    assert log == ["started", "waiting", "started"]
    holds = connection.execute("SELECT first_day, state, waiting_for FROM week_state").fetchall()
    assert [tuple(row) for row in holds] == [("2026-03-30", "started", "[]")]


def test_each_week_has_a_state_of_its_own(connection: sqlite3.Connection) -> None:
    """A word about one week says nothing of the next, and a week without photos can be told of."""
    tell_week(connection, MONDAY, "done")
    tell_week(connection, NEXT_MONDAY, "skipped", note="on the train")
    rows = connection.execute("SELECT first_day, state, note FROM week_state ORDER BY first_day")
    assert [tuple(row) for row in rows] == [("2026-03-30", "done", ""), ("2026-04-06", "skipped", "on the train")]


def test_waits_are_kept_in_their_order_and_letters(connection: sqlite3.Connection) -> None:
    """As a JSON list that any tool can read; quotes, line breaks and emojis come back as they were."""
    waits = ['supplies:"slate-blue" cards', "photos:Ærø\n😀", "words"]
    tell_week(connection, MONDAY, "waiting", waiting_for=waits)
    assert json.loads(connection.execute("SELECT waiting_for FROM week_state").fetchone()[0]) == waits


def test_a_done_week_keeps_what_it_holds(connection: sqlite3.Connection) -> None:
    """The list hangs on the word: a later word has its own, and the earlier stays."""
    tell_week(connection, MONDAY, "done", holding={"b", "a"})
    tell_week(connection, MONDAY, "open")
    tell_week(connection, MONDAY, "done", holding=["c"])
    rows = connection.execute(
        "SELECT week_log.state, photo_key FROM week_log LEFT JOIN week_holding ON log_uuid = uuid ORDER BY told_at, 2"
    )
    assert [tuple(row) for row in rows] == [("done", "a"), ("done", "b"), ("open", None), ("done", "c")]


def test_photos_that_the_index_does_not_know_can_be_held(connection: sqlite3.Connection) -> None:
    """Words hang on keys and not on rows: a key without a photo is kept as it is."""
    tell_week(connection, MONDAY, "done", holding=["0" * 32])
    assert connection.execute("SELECT photo_key FROM week_holding").fetchone()[0] == "0" * 32


@pytest.mark.parametrize("words", [{"note": "\udcff"}, {"waiting_for": ["supplies:\udcff"]}])
def test_text_that_no_backup_could_carry_is_refused(connection: sqlite3.Connection, words: dict[str, Any]) -> None:
    """Half a surrogate pair stands for a byte that is no text: kept, it would make every later backup unusable."""
    with pytest.raises(WordError, match="no text"):
        tell_week(connection, date(2026, 3, 30), "waiting", **words)
