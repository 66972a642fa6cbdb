"""Patterns generated where they are too many to be listed."""

from queries.cutting.choosing import Pattern, fewest
from queries.cutting.columns import found_patterns
from queries.cutting.patterns import fitting_sets, largest_sets
from tests.queries.cutting.test_patterns import forms


def test_as_good_as_all_patterns_together() -> None:
    """On papers whose patterns can all be listed, as few prints are found, with the same bound."""
    kinds = ((3, 4), (4, 6), (3, 3), (2, 5))
    for width, height, demand in ((8, 10, (9, 4, 7, 5)), (9, 7, (5, 6, 4, 9)), (6, 8, (8, 3, 6, 2))):
        both = forms(*kinds)
        listed = fitting_sets(both, demand, width, height)
        assert listed is not None
        best = fewest([Pattern(counts, listed[counts][0]) for counts in largest_sets(listed, demand)], demand, 10)
        found = found_patterns(both, demand, (width, height), lambda: 10.0)
        assert found.chosen.prints == best.prints
        assert found.chosen.lower_bound <= best.prints


def test_without_time_every_piece_still_has_a_place() -> None:
    """Rows filled largest first, and a bound by area."""
    found = found_patterns(forms((3, 4), (2, 2)), (7, 5), (6, 4), lambda: 0.0)
    got = [sum(p.counts[k] * n for p, n in zip(found.patterns, found.chosen.uses, strict=True)) for k in (0, 1)]
    assert got[0] >= 7
    assert got[1] >= 5
    assert found.chosen.lower_bound == 5
