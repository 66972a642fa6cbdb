"""How one picture of the week sheet stands with the small ones behind it. Pure.

A few small prints lie in a row below the picture's caption; more are fanned out from behind its right edge, over as
many columns as they need; what is too many for that follows below in rows of the sheet's whole width.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from queries.pull.sheet_values import BORDER, CAPTION, COLUMNS, GUTTER, PRINT, TILE, Entry, Print, Small, Tile

STEP = 72  # how much of each print in a row shows
TUCK = PRINT - STEP  # and how much lies under the one before it
CODE_LINE = 22  # the room below a print for its code
NOTE_LINE = 18
CODE_BASELINE = 16
SHEET_WIDTH = COLUMNS * TILE + (COLUMNS - 1) * GUTTER

_FEW = (TILE - TUCK) // STEP  # as many as fit below one picture
_ROWS_BESIDE = 2
_PRINTS_IN_STRIP = (SHEET_WIDTH - TUCK) // STEP
_ASIDES_IN_ROW = 8
_LEAST_SIDE = 28


@dataclass(frozen=True, slots=True)
class Cell:
    """A picture and prints in `span` columns, placed from the left end of the picture's lower edge.

    `rest` are the prints for which there is no room beside the picture.
    """

    tile: Tile
    prints: tuple[Print, ...]
    span: int
    rest: tuple[Small, ...] = ()

    @property
    def above(self) -> int:
        """The height it takes above the picture's lower edge."""
        return -min([self.tile.y, *(place.y for place in self.prints)])

    @property
    def below(self) -> int:
        """The height it takes below that edge, captions and codes included."""
        return max([CAPTION, *(place.y + place.height + CODE_LINE for place in self.prints)])


def cell_of(entry: Entry) -> Cell:
    """The picture with its prints where they fit best."""
    width, height = fitted(entry.width, entry.height)
    tile = Tile(entry, 0, -height, width, height)
    if len(entry.behind) <= _FEW:
        return Cell(tile, tuple(_row(entry.behind, 0, CAPTION)), 1)
    span, in_row = _columns_for(len(entry.behind), width)
    shown, rest = entry.behind[: in_row * _ROWS_BESIDE], entry.behind[in_row * _ROWS_BESIDE :]
    rows = ceil(len(shown) / in_row)
    in_row = ceil(len(shown) / rows)
    prints: list[Print] = []
    bottom = 0
    for row in reversed([shown[start : start + in_row] for start in range(0, len(shown), in_row)]):
        bottom -= row_height(row)
        prints = [*_row(row, width - TUCK, bottom, is_tucked=True), *prints]
    return Cell(tile, tuple(prints), span, rest)


def strips(smalls: Sequence[Small]) -> Iterator[tuple[Print, ...]]:
    """Rows of overlapping prints over the whole width, each placed from its left upper corner."""
    for start in range(0, len(smalls), _PRINTS_IN_STRIP):
        yield tuple(_row(smalls[start : start + _PRINTS_IN_STRIP], 0, 0))


def aside_rows(smalls: Sequence[Small]) -> Iterator[tuple[Print, ...]]:
    """Rows of prints that stand apart, with room for notes, each row placed from its left upper corner."""
    step = SHEET_WIDTH // _ASIDES_IN_ROW
    for start in range(0, len(smalls), _ASIDES_IN_ROW):
        row = smalls[start : start + _ASIDES_IN_ROW]
        tallest = max(print_size(small)[1] for small in row)
        yield tuple(_print(small, place * step, tallest, place * step) for place, small in enumerate(row))


def row_height(row: Sequence[Small]) -> int:
    """The height of a row of prints with their codes and notes."""
    notes = max((len(small.note) for small in row), default=0)
    return max((print_size(small)[1] for small in row), default=0) + CODE_LINE + NOTE_LINE * notes


def moved(place: Print, x: int, y: int) -> Print:
    """A print moved on the sheet, its code with it."""
    return replace(place, x=place.x + x, y=place.y + y, code_x=place.code_x + x, code_y=place.code_y + y)


def fitted(width: int, height: int) -> tuple[int, int]:
    """A picture's size on the sheet, never cropped; a very long one is widened to a hand's breadth of a line."""
    longer = max(width, height, 1)
    return max(_LEAST_SIDE, round(TILE * width / longer)), max(_LEAST_SIDE, round(TILE * height / longer))


def print_size(small: Small) -> tuple[int, int]:
    """A print's size with its border."""
    longer, inside = max(small.width, small.height, 1), PRINT - 2 * BORDER
    return (
        max(_LEAST_SIDE, round(inside * small.width / longer) + 2 * BORDER),
        max(_LEAST_SIDE, round(inside * small.height / longer) + 2 * BORDER),
    )


def _columns_for(count: int, width: int) -> tuple[int, int]:
    """How many columns a picture of that width needs for so many prints beside it, and how many fit in a row."""
    for span in range(2, COLUMNS + 1):
        in_row = (span * TILE + (span - 1) * GUTTER - width) // STEP
        if in_row * _ROWS_BESIDE >= count:
            break
    return span, in_row


def _row(row: Sequence[Small], left: int, top: int, *, is_tucked: bool = False) -> Iterator[Print]:
    """Prints whose lower edges are on one line, each partly under the one before it, the first under the picture."""
    if not row:
        return
    bottom = top + max(print_size(small)[1] for small in row)
    hidden = TUCK if is_tucked else max(0, print_size(row[0])[0] - STEP)  # so that the first shows whole
    for place, small in enumerate(row):
        shows_from = left + hidden + place * STEP
        code_x = shows_from + 2 if place or is_tucked else left
        yield _print(small, shows_from + min(0, STEP - print_size(small)[0]), bottom, code_x)


def _print(small: Small, x: int, bottom: int, code_x: int) -> Print:
    width, height = print_size(small)
    return Print(small, x, bottom - height, width, height, code_x, bottom + CODE_BASELINE)
