"""Turns put together, against the Exif orientation table and Pillow."""

from itertools import product

import pytest
from PIL import Image

from indexer.facts.containers.turning import Turn
from tests.orientation_table import DISPLAYED

# ISO/IEC 23008-12: irot turns by quarters anti-clockwise; imir 0 exchanges top and bottom, 1 left and right.
STEPS = {
    ("irot", 0): None,
    ("irot", 1): Image.Transpose.ROTATE_90,
    ("irot", 2): Image.Transpose.ROTATE_180,
    ("irot", 3): Image.Transpose.ROTATE_270,
    ("imir", 0): Image.Transpose.FLIP_TOP_BOTTOM,
    ("imir", 1): Image.Transpose.FLIP_LEFT_RIGHT,
}


def rows(picture: Image.Image) -> list[list[int]]:
    return [[picture.getpixel((x, y)) for x in range(picture.width)] for y in range(picture.height)]


@pytest.mark.parametrize("steps", [steps for count in range(4) for steps in product(STEPS, repeat=count)])
def test_a_sequence_of_turns_and_mirrors_comes_to_the_orientation_that_shows_the_same(steps):
    """Each step after the other gives what the Exif table shows for the orientation they come to."""
    picture = Image.new("L", (3, 2))
    picture.putdata([1, 2, 3, 4, 5, 6])
    turn = Turn()
    for step in steps:
        kind, value = step
        turn = turn.then_irot(value) if kind == "irot" else turn.then_imir(value)
        picture = picture if STEPS[step] is None else picture.transpose(STEPS[step])
    assert DISPLAYED[turn.orientation] == rows(picture)
    assert turn.swaps_sides == (picture.size == (2, 3))
