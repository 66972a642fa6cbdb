"""What was told for weeks' journaling cards"""

import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from indexer.errors import WordError
from indexer.store.backup import read_backup, write_backup
from indexer.store.notes import take_back, tell_note
from indexer.store.opening import migrations, open_for_writing

MONDAY, WEDNESDAY = date(2026, 3, 30), date(2026, 4, 1)
UUID = "6f1f8a44-5f0d-4c57-9d1c-0c1b54a9b7a0"


def held(connection: sqlite3.Connection) -> list[tuple[str, str | None, str]]:
    rows = connection.execute("SELECT first_day, day, text FROM week_note ORDER BY told_at, uuid")
    return [tuple(row) for row in rows]


def test_notes_add_up_and_one_can_be_taken_back(connection: sqlite3.Connection) -> None:
    """A later note stands beside an earlier one, of the same day too; what is taken back stays in the log."""
    tell_note(connection, MONDAY, None, "One.")
    second = tell_note(connection, MONDAY, WEDNESDAY, "Two.\n\nאחת 🐟")
    tell_note(connection, MONDAY, WEDNESDAY, "Two.\n\nאחת 🐟")
    take_back(connection, second)
    assert held(connection) == [("2026-03-30", None, "One."), ("2026-03-30", "2026-04-01", "Two.\n\nאחת 🐟")]
    log = connection.execute("SELECT text, day, takes_back FROM note_log ORDER BY told_at").fetchall()
    assert [tuple(row) for row in log][1:] == [
        ("Two.\n\nאחת 🐟", "2026-04-01", None), ("Two.\n\nאחת 🐟", "2026-04-01", None), (None, "2026-04-01", second)
    ]  # fmt: skip


def test_a_note_taken_back_twice_is_refused(connection: sqlite3.Connection) -> None:
    """Another run may have been first: nothing is told then, and the line says where to look."""
    note = tell_note(connection, MONDAY, None, "One.")
    take_back(connection, note)
    with pytest.raises(WordError, match="taken back already; weeksheaf note WEEK"):
        take_back(connection, note)
    assert connection.execute("SELECT count(*) FROM note_log").fetchone()[0] == 2


def test_an_index_of_the_shape_before_takes_notes(tmp_path: Path) -> None:
    """Opened by this version it keeps all that was told, and more can be told and backed up."""
    index, file = tmp_path / "index.db", tmp_path / "words.json"
    with closing(sqlite3.connect(index, isolation_level=None)) as before:
        for number, script in migrations():
            if number < 5:
                before.executescript(script)
        before.execute("INSERT INTO plan_log VALUES (?, ?, '2026-03-30', '{}')", (UUID, "2026-01-01T00:00:00.000000Z"))
    with closing(open_for_writing(index)) as opened:
        tell_note(opened, MONDAY, None, "One.")
        write_backup(opened, file)
    words = read_backup(file)
    assert [row["uuid"] for row in words["plan_log"]] == [UUID]
    assert [row["text"] for row in words["note_log"]] == ["One."]
    assert words["order_log"] == []


@pytest.mark.parametrize("text", ["", "half a pair \ud83d"])
def test_a_text_that_cannot_be_kept_is_refused(connection: sqlite3.Connection, text: str) -> None:
    """No backup could carry it."""
    with pytest.raises(WordError, match="type it anew"):
        tell_note(connection, MONDAY, None, text)
    assert held(connection) == []
