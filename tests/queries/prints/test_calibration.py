"""The ruler print, measured in pixels: its lines lie where their numbers say, at all four edges."""

from fractions import Fraction

import numpy as np
import pytest
from PIL import Image

from queries.lengths import UM_PER_INCH, in_pixels
from queries.print_settings import check_trim
from queries.prints.calibration import EDGES, Edge, Unit, ruler_print, scale_boxes, scale_line, stairs_of

PRINTS = [
    (1800, 1200, 300),
    (1200, 1800, 300),
    (1795, 1205, 300),
    (1051, 1500, 300),
    (600, 600, 300),
    (3600, 2400, 600),
]

#: How an edge is turned to the left.
TURN: dict[Edge, Image.Transpose | None] = {
    "left": None,
    "top": Image.Transpose.TRANSPOSE,
    "right": Image.Transpose.FLIP_LEFT_RIGHT,
    "bottom": Image.Transpose.TRANSVERSE,
}


def seen_from_the_left(image: Image.Image, edge: Edge) -> np.ndarray:
    turn = TURN[edge]
    return np.asarray(image.convert("L") if turn is None else image.convert("L").transpose(turn))


def black_columns(pixels: np.ndarray, least: int) -> set[int]:
    """The columns, counted from the left edge, in which a black line of at least so many pixels stands."""
    found = set()
    for column in range(pixels.shape[1] // 4):
        edges = np.flatnonzero(np.diff(np.concatenate(([False], pixels[:, column] == 0, [False]))))
        if (edges[1::2] - edges[::2]).max(initial=0) >= least:
            found.add(column)
    return {column for column in found if column - 1 not in found}


@pytest.mark.parametrize(("width", "height", "dpi"), PRINTS)
@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("edge", EDGES)
def test_lines_start_where_their_numbers_say(width: int, height: int, dpi: int, unit: Unit, edge: Edge) -> None:
    """Read off the picture: from the edge of the file inward each 1/32 in or half millimetre, the first at the edge."""
    numbers = [Fraction(stair.number) for stair in stairs_of(width, height, dpi, unit) if stair.edge == edge]
    assert numbers == [Fraction(n, 32 if unit == "in" else 2) for n in range(len(numbers))]
    assert len(numbers) >= 5
    columns = black_columns(seen_from_the_left(ruler_print(width, height, dpi, unit), edge), in_pixels(2_500, dpi))
    in_dots = Fraction(dpi) if unit == "in" else Fraction(dpi * 10, 254)
    for number in numbers:
        assert min(abs(column - number * in_dots) for column in columns) <= Fraction(1, 2)


@pytest.mark.parametrize("edge", EDGES)
def test_what_is_cut_away_is_read_off(edge: Edge) -> None:
    """A lab that takes 2 mm leaves the line of 2 mm whole and none before it."""
    pixels = seen_from_the_left(ruler_print(1800, 1200, 300, "mm"), edge)[:, in_pixels(2_000, 300) :]
    columns = black_columns(pixels, in_pixels(2_500, 300))
    assert min(columns) == 0
    assert sorted(columns)[1] == pytest.approx(in_pixels(500, 300), abs=1)


@pytest.mark.parametrize(
    ("width", "height", "dpi", "unit", "told"),
    [(1800, 1200, 300, "in", "5 in"), (1200, 1800, 300, "in", "3 in"), (1795, 1205, 300, "mm", "100 mm")],
)
def test_the_line_has_its_length(width: int, height: int, dpi: int, unit: Unit, told: str) -> None:
    """In pixels between the left sides of its end marks, on the picture."""
    length, said = scale_line(width * UM_PER_INCH // dpi, unit)
    assert said == told
    line, first, second = scale_boxes(width, height, dpi, length)
    number, name = told.split()
    assert second[0] - first[0] == round(int(number) * dpi / (1 if name == "in" else 25.4))
    pixels = np.asarray(ruler_print(width, height, dpi, unit).convert("L"))
    assert (pixels[line[1], line[0] : second[2]] == 0).all()
    assert (pixels[line[1], :][[line[0] - 1, second[2]]] == 255).all()


@pytest.mark.parametrize(("width", "height", "dpi"), PRINTS)
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_nothing_covers_a_line(width: int, height: int, dpi: int, unit: Unit) -> None:
    """Each line is black from end to end and has white on its outer side, or the edge."""
    pixels = np.asarray(ruler_print(width, height, dpi, unit).convert("L"))
    for stair in stairs_of(width, height, dpi, unit):
        left, top, right, bottom = stair.box
        assert (pixels[top:bottom, left:right] == 0).all()
        outside = {
            "left": pixels[top:bottom, max(0, left - 3) : left],
            "right": pixels[top:bottom, right : right + 3],
            "top": pixels[max(0, top - 3) : top, left:right],
            "bottom": pixels[bottom : bottom + 3, left:right],
        }[stair.edge]
        assert (outside == 255).all()


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_every_number_can_be_typed_as_it_stands(unit: Unit) -> None:
    """The setting takes each of them."""
    for stair in stairs_of(1800, 1200, 300, unit):
        assert check_trim(f"{stair.number}{unit}")
