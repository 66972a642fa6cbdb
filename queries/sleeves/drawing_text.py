"""A page drawn as text, to scale: a letter of a terminal is about twice as high as it is wide. Pure."""

from collections.abc import Sequence
from math import floor

from queries.sleeves.values import Box

#: Letters an inch across, at most: 13 inches, the largest page, fill 79 of 80 columns.
LETTERS_PER_INCH = 6.0
#: A letter's height as a multiple of its width (common practice).
LETTER_HEIGHT = 2.0


def draw_page(
    width: float, height: float, labelled: Sequence[tuple[Box, Sequence[str]]], columns: int = 80
) -> list[str]:
    """The page and its boxes (inches), each with its label's lines in the middle; those that do not fit
    are left away, as a name or a size cut short would be another one.

    Neighbours share their border. All lines are equally long and no longer than `columns`.
    """
    scale = min(LETTERS_PER_INCH, (columns - 1) / width)
    canvas = _Canvas(_place(width, scale), _place(height, scale / LETTER_HEIGHT))
    spans = [_span(box, scale) for box, _ in labelled]
    whole = (0, 0, canvas.right, canvas.bottom)
    for span in (whole, *spans):
        canvas.draw_edges(*span)
    for span in (whole, *spans):
        canvas.draw_corners(*span)
    for span, (_, lines) in zip(spans, labelled, strict=True):
        canvas.write(*span, lines)
    return canvas.lines()


class _Canvas:
    """Letters in rows; places are columns and rows from 0, the last ones included."""

    def __init__(self, right: int, bottom: int) -> None:
        self.right, self.bottom = right, bottom
        self._rows = [[" "] * (right + 1) for _ in range(bottom + 1)]

    def draw_edges(self, left: int, top: int, right: int, bottom: int) -> None:
        for x in range(left, right + 1):
            self._rows[top][x] = self._rows[bottom][x] = "-"
        for y in range(top + 1, bottom):
            self._rows[y][left] = self._rows[y][right] = "|"

    def draw_corners(self, left: int, top: int, right: int, bottom: int) -> None:
        for y in (top, bottom):
            for x in (left, right):
                self._rows[y][x] = "+"

    def write(self, left: int, top: int, right: int, bottom: int, lines: Sequence[str]) -> None:
        room, rows = right - left - 1, bottom - top - 1
        shown = [line for line in lines[: max(rows, 0)] if len(line) <= room]
        first = top + 1 + (rows - len(shown)) // 2
        for y, line in enumerate(shown, first):
            x = left + 1 + (room - len(line)) // 2
            self._rows[y][x : x + len(line)] = line

    def lines(self) -> list[str]:
        return ["".join(row) for row in self._rows]


def _span(box: Box, scale: float) -> tuple[int, int, int, int]:
    down = scale / LETTER_HEIGHT
    left, top = _place(box.x, scale), _place(box.y, down)
    return left, top, _place(box.x + box.width, scale), _place(box.y + box.height, down)


def _place(length: float, scale: float) -> int:
    """The nearest letter; a hair's breadth above halves, so that rounded sums of inches do not flicker."""
    return floor(length * scale + 0.5 + 1e-6)
