"""Few cuts, and waste where it is one piece."""

from queries.cutting.arranging import arranged
from queries.cutting.cuts import waste_of
from queries.cutting.laying import lay_out
from queries.cutting.spaces import Space
from queries.cutting.trees import Form
from tests.queries.cutting.made_orders import INCH, SIX_BY_FOUR, pieces_of


def test_waste_lies_at_the_right_and_below() -> None:
    """Five 2x2 leave the lower right corner; a 3x4 and a 3x3 the strip below the smaller one, which stands second."""
    (printed,) = lay_out(pieces_of(*[(2, 2)] * 5), SIX_BY_FOUR).prints
    (waste,) = waste_of(printed)
    assert (waste.right, waste.bottom) == (6 * INCH, 4 * INCH)
    (printed,) = lay_out(pieces_of((3, 3), (3, 4)), SIX_BY_FOUR).prints
    (waste,) = waste_of(printed)
    assert (waste.x, waste.y) == (3 * INCH, 3 * INCH)


def test_what_does_not_fit_is_not_arranged() -> None:
    """Four 3x4 in 7x7."""
    forms = (Form(0, 3, 4, 3, 4), Form(0, 4, 3, 4, 3))
    assert arranged(forms, (3,), Space(7, 7, exempts=True)) is not None
    assert arranged(forms, (4,), Space(7, 7, exempts=True)) is None


def test_too_many_are_left_as_they_are() -> None:
    """Seven pieces that are all different are not tried in every way."""
    forms = tuple(Form(number, 1, 1, 1, 1) for number in range(7))
    assert arranged(forms, (1,) * 7, Space(7, 7, exempts=True)) is None
