"""The pockets of a spread."""

from queries.fitting.values import openings_of
from tests.queries.fitting.made_spreads import sleeve


def test_pockets_are_named_by_page_and_number() -> None:
    """Left page first; each number is the pocket's place in its page's reading order, as the face is seen."""
    stepping = sleeve("3 wide", (6, 3, 3))
    found = openings_of(stepping.back(), stepping)
    assert [each.name for each in found] == ["L1", "L2", "L3", "R1", "R2", "R3"]
    assert [each.box.width for each in found] == [3, 3, 6, 6, 3, 3]
    assert [each.side for each in found] == ["left"] * 3 + ["right"] * 3


def test_page_without_a_sleeve() -> None:
    """A page may have none."""
    assert [each.name for each in openings_of(None, sleeve("1", (6,)))] == ["R1"]
