"""Round corners cover what a circle covers."""

from math import pi

import numpy as np
import pytest

from queries.prints.corners import covered


@pytest.mark.parametrize("radius", [0.0, 0.4, 1.0, 7.0, 7.5, 30.0])
def test_the_area_is_that_of_the_rounded_box(radius: float) -> None:
    """Four corners lack (4 - pi) r² between them (geometry)."""
    mask = np.asarray(covered(100, 80, radius)) / 255
    assert mask.shape == (80, 100)
    assert 100 * 80 - mask.sum() == pytest.approx((4 - pi) * radius**2, abs=0.15 + 0.005 * radius)


def test_all_corners_are_alike_and_edges_are_soft() -> None:
    """The mask is its own mirror image; between nothing and all there are steps; the sides are whole."""
    mask = np.asarray(covered(60, 40, 12))
    assert np.array_equal(mask, mask[::-1])
    assert np.array_equal(mask, mask[:, ::-1])
    assert mask[0, 0] == 0
    assert len(set(mask[:12, :12].ravel().tolist())) > 10
    assert (mask[12:-12] == 255).all()
    assert (mask[:, 12:-12] == 255).all()


def test_a_radius_beyond_half_of_a_side_makes_a_round_end() -> None:
    """No corner reaches over the next one."""
    mask = np.asarray(covered(20, 20, 50)) / 255
    assert mask.sum() == pytest.approx(pi * 100, rel=0.01)
