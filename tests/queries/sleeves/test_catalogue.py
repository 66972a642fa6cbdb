"""What can be named, and what is at home."""

import sqlite3

import pytest

from indexer.errors import WordError
from indexer.store.sleeves import take_back_drawing, tell_drawing, tell_owned
from queries.sleeves.by_rule import TICKED, sleeves_by_rule
from queries.sleeves.catalogue import catalogue, nearest
from queries.sleeves.sizes import Size


def at_home(index: sqlite3.Connection) -> list[str]:
    return [sleeve.name for sleeve in catalogue(index).at_home()]


def test_without_an_index_there_is_what_comes_with_the_tool() -> None:
    """Two of them at home."""
    found = catalogue(None)
    assert [item.sleeve for item in found.known] == list(sleeves_by_rule())
    assert {sleeve.name for sleeve in found.at_home()} == TICKED


def test_drawn_sleeves_stand_first_and_are_at_home(index: sqlite3.Connection) -> None:
    """In the order they were told, until it is told that they are not."""
    tell_drawing(index, "second hand", "3x4in", "AB")
    tell_drawing(index, "album half", "1x1in", "AA\nBB")
    assert at_home(index)[:2] == ["second hand", "album half"]
    tell_owned(index, ["second hand"], owned=False)
    assert at_home(index)[0] == "album half"
    first = catalogue(index).known[0]
    assert (first.name, first.at_home, first.cell, first.drawing) == ("second hand", False, Size(3, 4, "in"), "AB")
    assert first.sleeve.width == 6


def test_those_made_by_rule_are_ticked_by_name(index: sqlite3.Connection) -> None:
    """The two of the start can be taken back; a name that is known no more does no harm."""
    tell_owned(index, ["6 wide", "of an earlier version"], owned=True)
    tell_owned(index, sorted(TICKED), owned=False)
    assert at_home(index) == ["6 wide"]


def test_a_drawing_taken_back_is_gone(index: sqlite3.Connection) -> None:
    """Whatever was told of its being at home."""
    tell_drawing(index, "narrow", "1x1in", "AB")
    tell_owned(index, ["narrow"], owned=True)
    take_back_drawing(index, "narrow")
    assert len(catalogue(index).known) == len(sleeves_by_rule())


def test_a_drawing_of_mine_outranks_a_name_made_by_rule(index: sqlite3.Connection) -> None:
    """A later version may come with a name that a drawing has already."""
    tell_drawing(index, "6 wide", "6x4in", "A")
    found = [item for item in catalogue(index).known if item.name == "6 wide"]
    assert [item.sleeve.made for item in found] == ["drawn"]


def test_a_drawing_that_cannot_be_read_stops_nothing(index: sqlite3.Connection) -> None:
    """It is named with what is wrong, and can be taken back."""
    tell_drawing(index, "odd", "1x1in", "ABA")
    tell_drawing(index, "odd cell", "big", "AB")
    found = catalogue(index)
    assert [name for name, _ in found.broken] == ["odd", "odd cell"]
    assert "row 1, column 3" in dict(found.broken)["odd"]
    assert found.drawn_name("odd") == "odd"


def test_a_name_is_found_whatever_its_capitals_and_spaces(index: sqlite3.Connection) -> None:
    """The exact one first, where two differ in capitals alone."""
    tell_drawing(index, "Harbour", "1x1in", "AB")
    tell_drawing(index, "harbour", "1x1in", "BA")
    found = catalogue(index)
    assert found.named("harbour").name == "harbour"
    assert found.named(" HARBOUR ").name == "Harbour"
    assert found.named("3 WIDE + 6 tall,  stepping").name == "3 wide + 6 tall, stepping"


def test_a_name_that_does_not_exist_shows_the_nearest() -> None:
    """Quoted, the likest first; where nothing is like it, where the names are."""
    with pytest.raises(WordError, match=r'^there is no sleeve "6wide"; the nearest: "6 wide", '):
        catalogue(None).named("6wide")
    with pytest.raises(WordError, match=r'^there is no sleeve "zzz"; weeksheaf sleeves --all lists them$'):
        catalogue(None).named("zzz")
    assert nearest("harbor", ["lantern", "Harbour half", "HARBOUR"])[0] == "HARBOUR"


def test_one_made_by_rule_can_be_neither_forgotten_nor_drawn_anew() -> None:
    """The line says what to do instead."""
    with pytest.raises(WordError, match=r'made by rule and stays.*own --not "6 wide"'):
        catalogue(None).drawn_name("6 Wide")
    with pytest.raises(WordError, match='made by rule is named "6  Wide"; give your drawing another name'):
        catalogue(None).refuse_names_by_rule(["mine", "6  Wide"])
    catalogue(None).refuse_names_by_rule(["mine"])
