"""A drawing of rectangles with text in them, in ASCII. Pure."""

from collections.abc import Sequence


class Canvas:
    """Letters in rows; rectangles drawn over each other share their edges."""

    def __init__(self, width: int, height: int) -> None:
        self._rows = [[" "] * width for _ in range(height)]

    def frame(self, left: int, top: int, right: int, bottom: int) -> None:
        """A rectangle whose edges lie on these columns and rows, both ends included."""
        for column in range(left, right + 1):
            for row in (top, bottom):
                self._put(column, row, "+" if column in (left, right) or self._rows[row][column] in "|+" else "-")
        for row in range(top + 1, bottom):
            for column in (left, right):
                self._put(column, row, "+" if self._rows[row][column] in "-+" else "|")

    def write(self, left: int, top: int, right: int, bottom: int, lines: Sequence[str]) -> None:
        """Lines in the middle of the rectangle, inside its edges; what does not fit is left away."""
        wide, high = max(right - left - 1, 0), max(bottom - top - 1, 0)
        shown = [line[:wide] for line in lines[:high]]
        start = top + 1 + (high - len(shown)) // 2
        for row, line in enumerate(shown, start):
            place = left + 1 + (wide - len(line)) // 2
            for column, letter in enumerate(line, place):
                self._put(column, row, letter)

    def lines(self) -> list[str]:
        """The rows, without the spaces at their ends."""
        return ["".join(row).rstrip() for row in self._rows]

    def _put(self, column: int, row: int, letter: str) -> None:
        self._rows[row][column] = letter
