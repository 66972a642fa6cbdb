"""A drawing read as rectangles, like the named areas of CSS Grid (W3C css-grid-2, `grid-template-areas`). Pure.

Each character is one cell, equal letters make one rectangle, `.` is a hole. Which letter it is means nothing. Blank
lines and the spaces around a row are ignored. Rows and columns are counted from 1, blank lines left out. The same
notation draws the cells of a collage inside its pocket (`read_grid`).
"""

from collections.abc import Iterator
from dataclasses import dataclass
from string import ascii_lowercase, ascii_uppercase, digits

from indexer.errors import WordError
from queries.sleeves.sizes import Size, size_words
from queries.sleeves.values import Box, Sleeve, in_reading_order, inches

HOLE = "."
#: Inches. No page is larger: the album pages of the trade are 12 x 12 at most, and their protectors a little more.
LARGEST_PAGE = 13.0
SMALLEST_PAGE = 1.0
#: Inches: 1 mm, so that no drawing has more than 330 rows or columns.
SMALLEST_CELL = 1 / 25.4
#: What `drawing_of` marks pockets with, in this order: Greek and Cyrillic follow for pages cut very small.
MARKS = ascii_uppercase + ascii_lowercase + digits + "".join(filter(str.isalpha, map(chr, range(0x391, 0x530))))

_ROUNDING = 1e-6


class DrawingError(WordError):
    """A drawing that is not one, or leaves a doubt; `row` and `column` are None where the whole of it is wrong."""

    def __init__(self, problem: str, row: int | None = None, column: int | None = None) -> None:
        super().__init__(f"row {row}, column {column}: {problem}" if row else problem)
        self.problem, self.row, self.column = problem, row, column


@dataclass(frozen=True, slots=True)
class Area:
    """One rectangle of equal letters, in cells; right and bottom are the first cells beyond it."""

    left: int
    top: int
    right: int
    bottom: int

    def holds(self, column: int, row: int) -> bool:
        return self.left <= column < self.right and self.top <= row < self.bottom


@dataclass(frozen=True, slots=True)
class Grid:
    """A drawing read: its size in cells and its rectangles, by the top edge, then by the left one."""

    columns: int
    rows: int
    areas: tuple[Area, ...]


def read_grid(drawing: str) -> Grid:
    """The rectangles of a drawing. Raises DrawingError."""
    rows = [row for line in drawing.splitlines() if (row := line.strip())]
    if not rows:
        raise DrawingError("the drawing is empty; draw each pocket with a letter of its own")
    _refuse_bad_cells(rows)
    areas: dict[str, Area] = {}
    for x, y, mark in _cells(rows):
        if mark not in areas:
            areas[mark] = _area_from(rows, x, y)
        elif not areas[mark].holds(x, y):
            began = f"row {areas[mark].top + 1}, column {areas[mark].left + 1}"
            problem = f"{mark} is not one rectangle, it began in {began}; use another letter here"
            raise DrawingError(problem, y + 1, x + 1)
    if not areas:
        raise DrawingError("the drawing has no pocket, only holes; draw each pocket with a letter of its own")
    return Grid(len(rows[0]), len(rows), tuple(areas.values()))


def sleeve_of(name: str, cell: Size, drawing: str) -> Sleeve:
    """The front of a sleeve as it was drawn. Raises DrawingError, whose text names the sleeve."""
    try:
        return _sleeve(name, cell, read_grid(drawing))
    except DrawingError as error:
        where = f'sleeve "{name}", ' if error.row else f'sleeve "{name}": '
        raise DrawingError(f"{where}{error}") from error


def drawing_of(sleeve: Sleeve, cell: tuple[float, float]) -> str:
    """The drawing of a sleeve of len(MARKS) pockets at most, whose every edge lies on cells of this size (width, height
    in inches)."""
    columns, rows = round(sleeve.width / cell[0]), round(sleeve.height / cell[1])
    canvas = [[HOLE] * columns for _ in range(rows)]
    for mark, box in zip(MARKS, sleeve.pockets, strict=False):
        for row in range(round(box.y / cell[1]), round((box.y + box.height) / cell[1])):
            for column in range(round(box.x / cell[0]), round((box.x + box.width) / cell[0])):
                canvas[row][column] = mark
    return "\n".join(map("".join, canvas))


def _sleeve(name: str, cell: Size, grid: Grid) -> Sleeve:
    across, down = cell.inches()
    width, height = grid.columns * across, grid.rows * down
    if min(across, down) < SMALLEST_CELL - _ROUNDING:
        raise DrawingError(f'a cell of {cell} is too small; a cell is 1mm or more each way, as in cell = "1in"')
    if max(width, height) > LARGEST_PAGE + _ROUNDING or min(width, height) < SMALLEST_PAGE - _ROUNDING:
        raise DrawingError(
            f"the page would be {size_words(width, height, cell.unit)} ({grid.columns} x {grid.rows} cells of {cell});"
            f" a page has 1 to 13 inches each way: check the cell"
        )
    boxes = (
        Box(
            inches(area.left * across),
            inches(area.top * down),
            inches((area.right - area.left) * across),
            inches((area.bottom - area.top) * down),
        )
        for area in grid.areas
    )
    return Sleeve(name, inches(width), inches(height), in_reading_order(boxes), "drawn")


def _refuse_bad_cells(rows: list[str]) -> None:
    for number, row in enumerate(rows, 1):
        for column, mark in enumerate(row, 1):
            if mark != HOLE and not mark.isalnum():
                problem = f"{mark!r} marks nothing; a pocket is a letter or digit, a hole is '.'"
                raise DrawingError(problem, number, column)
        if len(row) != len(rows[0]):
            problem = f"this row has {len(row)} cells and row 1 has {len(rows[0])}; make all rows equally long"
            raise DrawingError(problem, number, min(len(row), len(rows[0])) + 1)


def _cells(rows: list[str]) -> Iterator[tuple[int, int, str]]:
    """(column, row, letter) from 0, row by row, without the holes."""
    return ((x, y, mark) for y, row in enumerate(rows) for x, mark in enumerate(row) if mark != HOLE)


def _area_from(rows: list[str], left: int, top: int) -> Area:
    """The largest rectangle of one letter that has its top left corner here, as wide as its first row."""
    mark, right, bottom = rows[top][left], left, top
    while right < len(rows[top]) and rows[top][right] == mark:
        right += 1
    while bottom < len(rows) and rows[bottom][left:right] == mark * (right - left):
        bottom += 1
    return Area(left, top, right, bottom)
