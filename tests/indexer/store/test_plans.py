"""What was told of a week's spread"""

import sqlite3
from datetime import date
from pathlib import Path

from indexer import open_for_writing
from indexer.store.plans import tell_plan


def rows(connection: sqlite3.Connection) -> list[tuple[str, str]]:
    return [tuple(row) for row in connection.execute("SELECT first_day, plan FROM spread_plan ORDER BY first_day")]


def test_a_plan_is_a_word_and_so_is_its_end(tmp_path: Path) -> None:
    """The view shows the latest plan of each week; the log keeps all of them."""
    connection = open_for_writing(tmp_path / "index.db", create=True)
    for day, plan in ((6, "{}"), (13, '{"a":1}'), (6, '{"b":2}'), (13, None)):
        tell_plan(connection, date(2026, 4, day), plan)
    assert rows(connection) == [("2026-04-06", '{"b":2}')]
    assert connection.execute("SELECT count(*), count(DISTINCT uuid) FROM plan_log").fetchone()[:] == (4, 4)
    connection.close()
