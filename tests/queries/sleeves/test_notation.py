"""Drawings read as rectangles."""

import random

import pytest

from queries.sleeves.notation import MARKS, Area, DrawingError, drawing_of, read_grid, sleeve_of
from queries.sleeves.sizes import Size
from queries.sleeves.values import Box
from tests.queries.sleeves.made_sleeves import many, random_drawing

INCH = Size(1, 1, "in")


def refusal(drawing: str) -> DrawingError:
    with pytest.raises(DrawingError) as caught:
        read_grid(drawing)
    assert "\n" not in str(caught.value)
    return caught.value


def test_equal_letters_make_one_rectangle() -> None:
    """In the order of their top left corners; letters mean nothing, capitals are other letters, a dot is a hole."""
    grid = read_grid("bbA\nbbA\n..a")
    assert (grid.columns, grid.rows) == (3, 3)
    assert grid.areas == (Area(0, 0, 2, 2), Area(2, 0, 3, 2), Area(2, 2, 3, 3))


def test_blank_lines_and_outer_spaces_do_not_count() -> None:
    """Nor does the end of the lines: the drawing may be indented as its file is."""
    assert read_grid("\n\n   AAB \n\n\t AAB\r\n   \n") == read_grid("AAB\nAAB")


def test_a_sleeve_is_as_large_as_its_cells() -> None:
    """Width and height of the cell each for itself; half-width pages and inserts are sleeves too."""
    half = sleeve_of("half", Size(3, 4, "in"), "AA\nBC\n.C")
    assert (half.width, half.height, half.made) == (6, 12, "drawn")
    assert half.pockets == (Box(0, 0, 6, 4), Box(0, 4, 3, 4), Box(3, 4, 3, 8))
    metric = sleeve_of("metric", Size(102, 152, "mm"), "AB")
    assert metric.width == pytest.approx(204 / 25.4, abs=1e-9)
    assert metric.pockets[1].x == pytest.approx(102 / 25.4, abs=1e-9)


@pytest.mark.parametrize(
    ("drawing", "row", "column", "says"),
    [
        ("AAB\nABB", 2, 1, "A is not one rectangle, it began in row 1, column 1"),
        ("ABA", 1, 3, "A is not one rectangle"),
        ("AAB\nAAA", 2, 3, "A is not one rectangle"),
        ("AAA\nABA\nAAA", 2, 1, "A is not one rectangle"),
        ("BAA\nAAA", 2, 1, "A is not one rectangle, it began in row 1, column 2"),
        ("AAB\n\n\nAA", 2, 3, "this row has 2 cells and row 1 has 3"),
        ("AAB\nAABB", 2, 4, "this row has 4 cells and row 1 has 3"),
        ("AAB\nA B", 2, 2, "' ' marks nothing"),
        ("AAB\nA\tB", 2, 2, "'\\t' marks nothing"),
        ("AA-", 1, 3, "'-' marks nothing"),
        ("A\u0301B", 1, 2, "'\u0301' marks nothing"),
        ("AA\nA\u2026", 2, 2, "'\u2026' marks nothing"),
    ],
)
def test_a_refused_drawing_says_row_and_column(drawing: str, row: int, column: int, says: str) -> None:
    """Both from 1, blank lines not counted, and what is wrong there."""
    error = refusal(drawing)
    assert (error.row, error.column) == (row, column)
    assert str(error).startswith(f"row {row}, column {column}: {says}")


@pytest.mark.parametrize(("drawing", "says"), [("", "empty"), (" \n\n", "empty"), ("...\n...", "no pocket")])
def test_a_drawing_without_a_pocket_is_refused(drawing: str, says: str) -> None:
    """There is no place to name."""
    error = refusal(drawing)
    assert error.row is error.column is None
    assert says in str(error)


def test_the_refusal_names_the_sleeve() -> None:
    """With row and column where there are such."""
    with pytest.raises(DrawingError, match=r'^sleeve "steps", row 2, column 1: A is not one rectangle'):
        sleeve_of("steps", INCH, "AAB\nABB")
    with pytest.raises(DrawingError, match=r'^sleeve "steps": the drawing is empty'):
        sleeve_of("steps", INCH, "")


@pytest.mark.parametrize(
    ("cell", "drawing", "says"),
    [
        (Size(1, 1, "in"), "A" * 14, "the page would be 14x1in (14 x 1 cells of 1x1in)"),
        (Size(1, 14, "in"), "A", "the page would be 1x14in"),
        (Size(0.5, 1, "in"), "A", "the page would be 0.5x1in"),
        (Size(200, 200, "mm"), "AB", "the page would be 400x200mm"),
        (Size(0, 1, "in"), "AB", "a cell of 0x1in is too small"),
        (Size(0.5, 0.5, "mm"), "AB", "a cell of 0.5x0.5mm is too small"),
    ],
)
def test_a_page_that_no_album_holds_is_refused(cell: Size, drawing: str, says: str) -> None:
    """A page has 1 to 13 inches each way, a cell 1 mm or more."""
    with pytest.raises(DrawingError) as caught:
        sleeve_of("x", cell, drawing)
    assert says in str(caught.value)


@pytest.mark.parametrize(("cell", "cells"), [(INCH, 13), (INCH, 1), (Size(1, 1, "mm"), 330), (Size(1, 1, "mm"), 26)])
def test_the_largest_and_smallest_pages_are_taken(cell: Size, cells: int) -> None:
    """13 inches, 1 inch; 330 mm and 26 mm lie just within."""
    assert len(sleeve_of("x", cell, "\n".join(["A" * cells] * cells)).pockets) == 1


def test_pockets_cover_the_page_without_its_holes() -> None:
    """Every letter of the drawing is counted once in square inches."""
    for sleeve, cell, drawing in many(seed=1):
        across, down = cell.inches()
        covered = sum(box.width * box.height for box in sleeve.pockets)
        letters = sum(mark not in ".\n" for mark in drawing)
        assert covered == pytest.approx(letters * across * down, abs=1e-6)


def test_a_sleeve_drawn_and_read_again_is_the_same() -> None:
    """Whichever letters it was drawn with, and its back too."""
    for sleeve, cell, _ in many(seed=2):
        assert sleeve_of("harbour", cell, drawing_of(sleeve, cell.inches())) == sleeve
        back = sleeve_of("harbour", cell, drawing_of(sleeve.back(), cell.inches()))
        assert [round(edge, 6) for box in back.pockets for edge in (box.x, box.y, box.width, box.height)] == [
            round(edge, 6) for box in sleeve.back().pockets for edge in (box.x, box.y, box.width, box.height)
        ]


def test_a_broken_drawing_is_refused_with_row_and_column() -> None:
    """One letter of a sound drawing changed: the place named is on the page, and a letter that lies apart is named
    itself."""
    dice = random.Random(3)
    for _ in range(500):
        rows = random_drawing(dice).split("\n")
        y, x = dice.randrange(len(rows)), dice.randrange(len(rows[0]))
        new = dice.choice("?# *")
        broken = [row[:x] + new + row[x + 1 :] if number == y else row for number, row in enumerate(rows)]
        if new == " " and x in (0, len(rows[0]) - 1):
            continue  # an outer space makes the row shorter, which is the next check
        error = refusal("\n".join(broken))
        assert (error.row, error.column) == (y + 1, x + 1)


def test_a_row_too_short_or_too_long_is_refused_where_it_ends() -> None:
    """The column is the first that is missing or too much; of the first row, that of the second tells."""
    dice = random.Random(4)
    for _ in range(300):
        rows = random_drawing(dice).split("\n")
        y, length = dice.randrange(1, len(rows)), len(rows[0])
        rows[y] = dice.choice([rows[y][:-1], rows[y] + rows[y][-1]])
        error = refusal("\n".join(rows))
        assert (error.row, error.column) == (y + 1, min(len(rows[y]), length) + 1)


def test_a_corner_given_to_a_neighbour_is_refused() -> None:
    """A rectangle of two rows and columns or more that lost a corner is none, nor is who took it."""
    dice = random.Random(6)
    for _ in range(300):
        rows = random_drawing(dice).split("\n")
        large = [
            area for area in read_grid("\n".join(rows)).areas if min(area.right - area.left, area.bottom - area.top) > 1
        ]
        if not large:
            continue
        area = dice.choice(large)
        y, x = dice.choice([area.top, area.bottom - 1]), dice.choice([area.left, area.right - 1])
        other = dice.choice([mark for mark in MARKS if mark not in "".join(rows)] + ["."])
        rows[y] = rows[y][:x] + other + rows[y][x + 1 :]
        error = refusal("\n".join(rows))
        assert error.row is not None
        assert error.column is not None
        assert area.holds(error.column - 1, error.row - 1)
