"""Sharpness against check values reckoned by hand."""

import numpy as np
import pytest
from PIL import Image, ImageFilter

from indexer.facts.sharpness import SIDES, laplacian_variance, sharpness_of
from tests.indexer.facts.scenes import scene


def picture(values):
    return Image.fromarray(np.asarray(values, np.uint8))


#: Its interior, over which the variance is taken, is 11 x 11.
IMPULSE = np.zeros((13, 13))
IMPULSE[6, 6] = 1
ROWS, COLUMNS = np.indices((90, 130))


@pytest.mark.parametrize(
    ("values", "expected"),
    [
        (np.full((50, 70), 93), 0),
        (COLUMNS, 0),
        (ROWS + COLUMNS, 0),
        ((ROWS + COLUMNS) % 2 * 255, 1_040_400),  # every value is +-4 * 255
        (IMPULSE, 20 / 121),
        (np.zeros((2, 9)), 0),
        (np.zeros((9, 1)), 0),
    ],
)
def test_the_variance_of_the_laplacian(values, expected):
    """Constants and ramps have none, a checkerboard the most; the impulse has 4 * 4 + 4 over 121 values."""
    assert laplacian_variance(picture(values)) == pytest.approx(expected, rel=1e-5, abs=1e-9)


def test_it_is_that_of_a_plain_reckoning():
    """Pictures of any size, whole blocks of rows or not, agree with the sum written out in floats."""
    random = np.random.default_rng(5)
    for height, width in ((3, 3), (33, 40), (34, 9), (35, 60), (66, 5), (97, 31)):
        v = random.integers(0, 256, (height, width)).astype(float)
        expected = (v[:-2, 1:-1] + v[2:, 1:-1] + v[1:-1, :-2] + v[1:-1, 2:] - 4 * v[1:-1, 1:-1]).var()
        assert laplacian_variance(picture(v)) == pytest.approx(expected, rel=1e-5)


@pytest.mark.parametrize(
    ("size", "known"),
    [
        ((960, 720), (True, True, True)),
        ((700, 1400), (True, True, True)),
        ((959, 900), (False, True, True)),
        ((240, 10), (False, False, True)),
        ((239, 239), (False, False, False)),
        ((2000, 1), (True, True, True)),
    ],
)
def test_a_picture_is_never_enlarged(size, known):
    """At a side that the picture has not got, its sharpness is not known."""
    found = sharpness_of(Image.new("L", size))
    assert len(found) == len(SIDES)
    assert tuple(value is not None for value in found) == known


def test_blur_is_seen_at_every_side_and_size_does_not_matter():
    """A blurred picture has less at each side; one and the same scaled from twice the size has about as much."""
    sharp = Image.fromarray(np.random.default_rng(3).integers(0, 255, (750, 1000)).astype(np.uint8))
    blurred = sharp.filter(ImageFilter.GaussianBlur(3))
    assert all(b < 0.7 * s for b, s in zip(sharpness_of(blurred), sharpness_of(sharp), strict=True))
    once, twice = scene(960, 720).convert("L"), scene(1920, 1440).convert("L")
    assert sharpness_of(twice) == pytest.approx(sharpness_of(once), rel=0.15)
