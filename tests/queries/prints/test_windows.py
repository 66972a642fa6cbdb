"""Windows of stored pictures, by the table of the Exif standard, and windows cut to another shape."""

from itertools import product
from random import Random

import numpy as np
import pytest
from PIL import Image

from indexer.facts.pictures import upright
from queries.cropping.values import WHOLE, Window
from queries.prints.windows import as_stored, size_as_stored, with_aspect_times
from tests.orientation_table import DISPLAYED


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_window_of_the_upright_picture_is_found_in_the_stored_one(orientation: int) -> None:
    """Each number of the displayed table is found where the stored rows [[1,2,3],[4,5,6]] have it."""
    displayed = DISPLAYED[orientation]
    down, across = len(displayed), len(displayed[0])
    stored = np.array([[1, 2, 3], [4, 5, 6]])
    for row, column in product(range(down), range(across)):
        shown = Window(column / across, row / down, (column + 1) / across, (row + 1) / down)
        window = as_stored(shown, orientation)
        assert stored[round(window.top * 2), round(window.left * 3)] == displayed[row][column]
        assert (window.width, window.height) == pytest.approx((1 / 3, 1 / 2))


@pytest.mark.parametrize("orientation", [*range(10), 60_000])
def test_sizes_swap_as_the_picture_turns(orientation: int) -> None:
    """What is stored in that size is upright in the size asked for."""
    assert upright(Image.new("L", size_as_stored(30, 20, orientation)), orientation).size == (30, 20)


def test_a_window_cut_to_another_aspect_keeps_its_middle() -> None:
    """It is the largest inside with the aspect asked for, and never leaves the window it comes from."""
    draw = Random(6)
    for _ in range(2000):
        left, top = draw.random() * 0.8, draw.random() * 0.8
        window = Window(left, top, draw.uniform(left + 0.01, 1), draw.uniform(top + 0.01, 1))
        factor = draw.uniform(0.5, 2)
        cut = with_aspect_times(window, factor)
        assert cut.width / cut.height == pytest.approx(factor * window.width / window.height)
        assert (cut.left + cut.right, cut.top + cut.bottom) == pytest.approx(
            (window.left + window.right, window.top + window.bottom)
        )
        assert WHOLE.holds(cut)
        assert max(cut.width / window.width, cut.height / window.height) == pytest.approx(1)
