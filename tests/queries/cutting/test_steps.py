"""Cuts in words."""

import pytest

from queries.cutting.laying import lay_out
from queries.cutting.steps import Unit, in_words, steps_of
from tests.queries.cutting.made_orders import INCH, SIX_BY_FOUR, TRIMMED, pieces_of


def told(*sizes: tuple[float, float], weeks: str = "") -> tuple[str, ...]:
    (printed,) = lay_out(pieces_of(*sizes), SIX_BY_FOUR).prints
    names = {f"p{at}": f"L{at + 1}" + (f"\nweek {weeks[at]}" if weeks else "") for at in range(len(sizes))}
    return steps_of(printed, names, "in")


def test_a_pair_is_told_left_and_right() -> None:
    """Where to cut, measured from where, and which piece goes to which pocket."""
    assert told((3, 4), (3, 4)) == (
        "Cut down, 3 in from the left edge of the print. Left piece: to L1. Right piece: to L2.",
    )


def test_a_part_is_told_by_the_cut_it_came_from() -> None:
    """What is cut on at once, what is kept for later, and what is thrown away."""
    assert told((2, 2), (2, 2), (2, 2), (2, 2), (2, 2)) == (
        "Cut across, 2 in from the top edge of the print. Upper part: go on with cut 2. Lower part: keep for cut 4.",
        "The upper part of cut 1: cut down, 2 in from its left edge. Left piece: to L1. Right part: go on with cut 3.",
        "The right part of cut 2: cut down, 2 in from its left edge. Left piece: to L2. Right piece: to L3.",
        "The lower part of cut 1: cut down, 4 in from its left edge. Left part: go on with cut 5. Right part: waste.",
        "The left part of cut 4: cut down, 2 in from its left edge. Left piece: to L4. Right piece: to L5.",
    )


def test_weeks_are_told_where_a_print_holds_two() -> None:
    """On a print of one week the pocket is enough."""
    assert "Left piece: to L1 (week 1). Right piece: to L2 (week 2)." in told((3, 4), (3, 4), weeks="12")[0]
    assert "Left piece: to L1. Right piece: to L2." in told((3, 4), (3, 4), weeks="11")[0]


def test_nothing_to_cut_is_told() -> None:
    """A piece as large as the print."""
    assert told((6, 4), weeks="1") == ("No cut: the whole print goes to L1.",)


def test_every_piece_is_freed_once() -> None:
    """Whatever is on a print, each pocket is told once in its steps."""
    (printed,) = lay_out(pieces_of((3, 4), (3, 3)), TRIMMED).prints
    words = " ".join(steps_of(printed, {"p0": "L1", "p1": "R7"}, "mm"))
    assert words.count("to L1.") == words.count("to R7.") == 1
    strips = words.lower().count("trim ")
    assert strips == 2
    assert words.count("waste") + strips == len(printed.cuts) + 1 - 2


def test_what_the_lab_has_taken_is_not_cut_off_again() -> None:
    """The strip before a piece may be gone from the print in hand: it is cut at the marks, not by measure."""
    (printed,) = lay_out(pieces_of((3, 3)), TRIMMED).prints
    first, second, *_ = steps_of(printed, {"p0": "L1"}, "in")
    assert first == (
        "Trim the top edge of the print at the marks: 1/16 in, or what the lab left of it."
        " Lower part: go on with cut 2."
    )
    assert second.startswith("The lower part of cut 1: cut across, 3 in from its top edge. Upper part: go on with")


@pytest.mark.parametrize(
    ("length", "unit", "words"),
    [
        (3 * INCH, "in", "3 in"),
        (round(2.9375 * INCH), "in", "2 15/16 in"),
        (round(INCH / 16), "in", "1/16 in"),
        (INCH // 2, "in", "1/2 in"),
        (round(2.91 * INCH), "in", "2.91 in (about 2 15/16)"),
        (round(INCH / 32), "in", "1/32 in"),
        (1_000, "in", "0.04 in (about 1/32)"),
        (1_500, "in", "0.06 in (about 1/16)"),
        (500, "in", "0.02 in (about 1/32)"),
        (300, "in", "0.01 in"),
        (76_200, "mm", "76.2 mm"),
        (76_000, "mm", "76 mm"),
    ],
)
def test_lengths_are_told_as_a_ruler_shows_them(length: int, unit: Unit, words: str) -> None:
    """Sixteenths where they are exact, else decimals with the nearest, below 1/8 by halves of them."""
    assert in_words(length, unit) == words
