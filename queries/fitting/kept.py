"""How much of a picture a cell shows: arithmetic of sides. Pure.

The window has the cell's aspect and is as large as the picture allows, so that one side is kept whole.
"""

from queries.fitting import weights
from queries.fitting.values import Picture
from queries.sleeves.values import Box


def kept_share(picture: Picture, cell: Box) -> float:
    """The share of the picture's area that the cell shows, above 0 and up to 1; a zoom of z leaves 1 / z squared."""
    ratio = picture.aspect * cell.height / cell.width
    return min(ratio, 1 / ratio) / picture.zoom**2


def cut_at_the_sides(picture: Picture, cell: Box) -> bool:
    """Whether the picture is wider than the cell, so that left and right are cut; else top and bottom are."""
    return picture.aspect * cell.height > cell.width


def is_turned(picture: Picture, cell: Box) -> bool:
    """Whether an upright picture stands in a wide cell or a wide one in an upright cell; a square one never does."""
    return shape_of(picture.width, picture.height) * shape_of(cell.width, cell.height) < 0


def shape_of(width: float, height: float) -> int:
    """1 for wide, -1 for upright, 0 for square."""
    if max(width, height) <= weights.SQUARE * min(width, height):
        return 0
    return 1 if width > height else -1
