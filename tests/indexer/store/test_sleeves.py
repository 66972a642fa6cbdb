"""What is told of sleeves."""

import sqlite3

import pytest

from indexer.store.sleeves import take_back_drawing, tell_drawing, tell_owned


def drawings(connection: sqlite3.Connection) -> list[tuple[str, str, str]]:
    """The drawings that hold."""
    rows = connection.execute("SELECT name, cell, drawing FROM sleeve_drawing ORDER BY name")
    return [tuple(row) for row in rows]


def test_the_latest_drawing_of_a_name_holds_and_all_are_kept(connection: sqlite3.Connection) -> None:
    """Taking back is a word too, and a drawing may come after it."""
    tell_drawing(connection, "narrow", "1x1in", "AB")
    tell_drawing(connection, "wide", "3x4in", "A")
    tell_drawing(connection, "narrow", "10x10mm", "A\nB")
    assert drawings(connection) == [("narrow", "10x10mm", "A\nB"), ("wide", "3x4in", "A")]
    take_back_drawing(connection, "narrow")
    assert drawings(connection) == [("wide", "3x4in", "A")]
    tell_drawing(connection, "narrow", "1x1in", "AB")
    assert drawings(connection) == [("narrow", "1x1in", "AB"), ("wide", "3x4in", "A")]
    log = [row["drawing"] for row in connection.execute("SELECT drawing FROM sleeve_log ORDER BY told_at")]
    assert log == ["AB", "A", "A\nB", None, "AB"]


def test_the_latest_word_about_being_at_home_holds(connection: sqlite3.Connection) -> None:
    """For each name by itself, and a word of no is a row of its own."""
    tell_owned(connection, ["6 wide", "narrow"], owned=True)
    tell_owned(connection, ["6 wide"], owned=False)
    rows = connection.execute("SELECT name, owned FROM sleeve_owned ORDER BY name")
    assert [tuple(row) for row in rows] == [("6 wide", 0), ("narrow", 1)]


def test_a_drawing_without_its_cell_cannot_be_kept(connection: sqlite3.Connection) -> None:
    """The schema refuses half a word."""
    with pytest.raises(sqlite3.IntegrityError):
        tell_drawing(connection, "narrow", None, "AB")  # type: ignore[arg-type]
