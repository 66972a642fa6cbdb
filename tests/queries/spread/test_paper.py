"""Drawing in inches."""

import pytest
from PIL import Image

from queries.sleeves.values import Box
from queries.spread.paper import TABLE, Paper, colour_of


def test_inches_are_measured_from_the_corner_given() -> None:
    """A box on a page that begins elsewhere, to the pixel."""
    paper = Paper(4, 3, 10)
    paper.at(1, 0.5).fill(Box(0.5, 0.5, 1, 1), "red")
    red = [
        place
        for place in ((14, 10), (15, 10), (24, 19), (25, 19), (24, 20))
        if paper.image.getpixel(place) == (255, 0, 0)
    ]
    assert red == [(15, 10), (24, 19)]
    assert paper.image.size == (40, 30)


def test_tiny_boxes_and_large_corners_are_drawn() -> None:
    """Nothing is too small: a pixel, a dashed frame and a label in it, a corner beyond the half."""
    paper = Paper(1, 1, 10)
    paper.fill(Box(0.5, 0.5, 0.001, 0.001), "red", corner=3)
    paper.paste(Box(0.1, 0.1, 0.2, 0.2), Image.new("RGB", (1, 1), "blue"), corner=0.2)
    paper.dashed(Box(0.5, 0.5, 0, 0))
    paper.tag(Box(0.9, 0.9, 0.1, 0.1), "L1")
    assert paper.image.size == (10, 10)


@pytest.mark.parametrize(("said", "taken"), [("#fff8e8", "#fff8e8"), ("navy", "navy"), ("no colour", "white")])
def test_colours(said: str, taken: str) -> None:
    """As CSS writes them; white for anything else."""
    assert colour_of(said) == taken
    assert TABLE.startswith("#")
