"""Pieces onto prints, the first ones first."""

from queries.cutting.sharing import shared_out


def test_first_pieces_go_on_the_first_prints() -> None:
    """Within a kind in order, and the print that is complete earliest comes first."""
    assert shared_out([0, 0, 1, 0, 0], [(2, 0), (1, 1)], [1, 2]) == [(0, [0, 1]), (1, [2, 3]), (1, [4])]


def test_a_print_that_nothing_is_left_for_is_not_made() -> None:
    """Two prints suffice of the three."""
    assert shared_out([0, 0, 0], [(2,)], [3]) == [(0, [0, 1]), (0, [2])]
