"""Patterns chosen."""

from queries.cutting.choosing import Chosen, Pattern, fewest, least_bother, relaxed, whole_bound
from queries.cutting.trees import Form

TREE = Form(0, 1, 1, 1, 1)
PATTERNS = (Pattern((2, 0), TREE), Pattern((0, 2), TREE), Pattern((1, 1), TREE))


def test_fewest_prints_cover_the_demand() -> None:
    """Three and three of two kinds, two on a print: three prints, and no fewer."""
    chosen = fewest(PATTERNS, (3, 3), 5)
    assert (chosen.prints, chosen.lower_bound) == (3, 3)


def test_the_same_pattern_is_printed_again_rather_than_others() -> None:
    """Three times one of each, instead of three different patterns."""
    assert least_bother(PATTERNS, (3, 3), Chosen((1, 1, 1), 3), 5).uses == (0, 0, 3)


def test_shrunk_patterns_are_used_least() -> None:
    """The pattern that shrinks stands back, whatever it would save in different patterns."""
    patterns = (*PATTERNS[:2], Pattern((1, 1), TREE, shrunk=True))
    assert least_bother(patterns, (4, 4), Chosen((0, 0, 4), 4), 5).uses == (2, 2, 0)


def test_prices_add_up_to_the_value() -> None:
    """What the pieces cost together is what the prints cost (duality of linear programmes)."""
    now = relaxed(PATTERNS, (3, 4))
    assert now.value == 3.5
    assert now.prices @ [3, 4] == now.value


def test_bound_forgives_a_hair_only() -> None:
    """A bound in floating point just above a whole number proves that number."""
    assert (whole_bound(3.0000000001), whole_bound(3.01), whole_bound(2.9999999)) == (3, 4, 3)
