"""Notes below a print in the cutting guide."""

from queries.cutting.laying import lay_out
from queries.cutting.values import Paper, Trim
from queries.prints.guide_notes import listed, notes_of
from tests.queries.cutting.made_orders import INCH, SIX_BY_FOUR, pieces_of


def test_equal_edges_are_told_once() -> None:
    """One length for all four edges."""
    eighth = INCH // 8
    (printed,) = lay_out(pieces_of((6, 4)), Paper(6 * INCH, 4 * INCH, Trim(eighth, eighth, eighth, eighth))).prints
    assert notes_of(printed, {"p0": "R2\nweek 14"}, "in") == (
        "R2: the lab may take up to 1/8 in at the left, top, right and bottom.",
    )


def test_nothing_to_know_is_not_told() -> None:
    """No trim, no notes."""
    (printed,) = lay_out(pieces_of((6, 4)), SIX_BY_FOUR).prints
    assert notes_of(printed, {"p0": "R2"}, "in") == ()


def test_words_are_listed() -> None:
    """With an and before the last."""
    assert [listed(list(words)) for words in ("a", "ab", "abc")] == ["a", "a and b", "a, b and c"]
