"""Cuts from edge to edge, fewest and in order."""

import pytest

from queries.cutting.cuts import cuts_of, sheet_of, waste_of
from queries.cutting.laying import lay_out
from queries.cutting.values import Cut, Rect
from tests.queries.cutting.made_orders import INCH, SIX_BY_FOUR, parts_cut, pieces_of, random_order

SHEET = Rect(0, 0, 6, 4)


def test_a_pair_takes_one_cut() -> None:
    """Two halves: down the middle."""
    assert cuts_of(SHEET, [Rect(0, 0, 3, 4), Rect(3, 0, 3, 4)]) == (Cut(1, "down", 3, SHEET),)


def test_waste_comes_off_in_one_strip_first() -> None:
    """Two 3x3: the strip below both, then the middle; not a strip below each."""
    cuts = cuts_of(SHEET, [Rect(0, 0, 3, 3), Rect(3, 0, 3, 3)])
    assert cuts == (Cut(1, "across", 3, SHEET), Cut(2, "down", 3, Rect(0, 0, 6, 3)))


def test_upper_part_is_finished_first() -> None:
    """Six squares: the two strips parted, then the upper one cut up, then the lower one."""
    cuts = cuts_of(SHEET, [Rect(x, y, 2, 2) for y in (0, 2) for x in (0, 2, 4)])
    assert [(cut.way, cut.at, cut.part.y) for cut in cuts] == [
        ("across", 2, 0), ("down", 2, 0), ("down", 4, 0), ("down", 2, 2), ("down", 4, 2)
    ]  # fmt: skip


def test_the_papers_own_edge_is_not_cut() -> None:
    """A piece that is the whole paper takes no cut."""
    assert cuts_of(SHEET, [SHEET]) == ()


def test_a_pinwheel_is_refused() -> None:
    """Four pieces around a hole cannot be cut edge to edge."""
    wheel = [Rect(0, 0, 4, 3), Rect(4, 0, 3, 4), Rect(3, 4, 4, 3), Rect(0, 3, 3, 4)]
    with pytest.raises(ValueError, match="edge to edge"):
        cuts_of(Rect(0, 0, 7, 7), wheel)


def test_waste_is_what_holds_no_piece() -> None:
    """Pieces and waste are all of the print, and nothing twice."""
    for seed in range(20):
        for printed in lay_out(random_order(seed, most=20), SIX_BY_FOUR).prints:
            waste = waste_of(printed)
            sheet = sheet_of(printed)
            assert (sheet.width, sheet.height) == (6 * INCH, 4 * INCH)
            parts = parts_cut(printed, sheet)
            assert sorted([*waste, *(laid.box for laid in printed.laid)], key=lambda box: (box.y, box.x)) == parts


def test_no_more_parts_than_needed() -> None:
    """A 3x3 alone on 6x4 takes two cuts, three 2x2 and a 4x2 take four, five 2x2 take five."""
    for sizes, count in ((((3, 3),), 2), (((2, 2), (2, 2), (2, 2), (4, 2)), 4), (((2, 2),) * 5, 5)):
        (printed,) = lay_out(pieces_of(*sizes), SIX_BY_FOUR).prints
        assert len(printed.cuts) == count
