"""Sets of pieces that fit on one print."""

import pytest

from queries.cutting.knapsack import grids_of, worthiest
from queries.cutting.patterns import fitting_sets, largest_sets
from queries.cutting.trees import Form, area_of, placed

#: Side lengths in inches: the most area that 3x4 and 4x6 pieces cover by guillotine cuts (facts page).
COVERED = {(5, 7): 24, (8, 10): 72, (12, 12): 144, (6, 7): 36, (11, 9): 96}
KINDS = ((3, 4), (4, 6))


def forms(*kinds: tuple[int, int]) -> list[Form]:
    both = [(number, sides) for number, (a, b) in enumerate(kinds) for sides in dict.fromkeys(((a, b), (b, a)))]
    return [Form(number, width, height, width, height) for number, (width, height) in both]


@pytest.mark.parametrize("paper", COVERED, ids=str)
def test_most_area_is_covered(paper: tuple[int, int]) -> None:
    """Listing all sets and the knapsack both find the known best."""
    found = fitting_sets(forms(*KINDS), (12, 6), *paper)
    assert found is not None
    assert max(area_of(KINDS, counts) for counts in found) == COVERED[paper]
    worth, tree = worthiest(grids_of(forms(*KINDS), *paper)[0], [12, 24])
    assert worth == COVERED[paper]
    assert tree is not None
    assert sum(form.width * form.height for form, _, _ in placed(tree)) == COVERED[paper]
    assert (tree.width, tree.height) <= paper


def test_pinwheel_is_no_guillotine_cutting() -> None:
    """Of 3x4 pieces three fit 7x7 and not four."""
    found = fitting_sets(forms((3, 4)), (9,), 7, 7)
    assert found is not None
    assert set(found) == {(1,), (2,), (3,)}
    assert worthiest(grids_of(forms((3, 4)), 7, 7)[0], [1])[0] == 3


def test_only_sets_that_cannot_grow_are_largest() -> None:
    """On 6x4: one 6x4, or two 3x4, or a 3x4 with two 2x2; the demand limits them too."""
    found = fitting_sets(forms((6, 4), (3, 4), (2, 2)), (1, 2, 3), 6, 4)
    assert found is not None
    assert sorted(largest_sets(found, (1, 2, 3))) == [(0, 0, 3), (0, 1, 2), (0, 2, 0), (1, 0, 0)]


def test_listing_is_given_up() -> None:
    """More pairs than allowed are not tried."""
    assert fitting_sets(forms(*KINDS), (12, 6), 24, 24, most=100) is None


def test_coarse_grid_bounds_from_both_sides() -> None:
    """Where the places of cuts are too many, one grid is too narrow and one too wide, never the other way."""
    odd = forms((1009, 1013), (1301, 1511), (757, 2003), (1103, 1717), (911, 1933), (1237, 1459))
    paper, worth = (9001, 7919), [a * b / 1e6 for a, b in ((1009, 1013), (1301, 1511), (757, 2003))]
    worth += [a * b / 1e6 for a, b in ((1103, 1717), (911, 1933), (1237, 1459))]
    fitting, bounding = grids_of(odd, *paper)
    assert fitting is not bounding
    least, tree = worthiest(fitting, worth)
    most, _ = worthiest(bounding, worth)
    assert tree is not None
    assert tree.width <= paper[0]
    assert tree.height <= paper[1]
    assert sum(worth[form.kind] for form, _, _ in placed(tree)) == pytest.approx(least)
    assert least <= paper[0] * paper[1] / 1e6 <= most * 1.2
    assert least <= most
