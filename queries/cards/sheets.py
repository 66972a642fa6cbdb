"""Where cards lie on the pages of a home printer. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.errors import PrintError
from queries.lengths import UM_PER_INCH, UM_PER_MM

#: Home printers cannot print the outermost 3 to 6 mm ("common practice"); 10 mm is safe.
PAGE_MARGIN = 10 * UM_PER_MM
#: A cutting mark starts and ends so far outside of its card's edge; between two cards there is room for the marks of
#: both and for the name below the upper one.
MARK_FROM, MARK_TO = UM_PER_MM, 4 * UM_PER_MM
GAP = 9 * UM_PER_MM


@dataclass(frozen=True, slots=True)
class Placed:
    """Card `number` of those given: its box on the page in micrometres, the sides swapped when it is turned."""

    number: int
    x: int
    y: int
    width: int
    height: int
    is_turned: bool


def sheets_of(sizes: Sequence[tuple[int, int]], paper: tuple[int, int]) -> list[list[Placed]]:
    """The cards in rows, in their order, each the way of which more fit on a page. Raises PrintError for a card that
    is larger than the paper within its margins."""
    pages: list[list[Placed]] = []
    left = top = PAGE_MARGIN + MARK_TO
    right, bottom = paper[0] - left, paper[1] - top
    x, y, row_height = left, bottom + 1, 0
    for number, size in enumerate(sizes):
        width, height, is_turned = _way(size, right - left, bottom - top, paper)
        if x + width > right:
            x, y, row_height = left, y + row_height + GAP, 0
        if y + height > bottom:
            x, y, row_height = left, top, 0
            pages.append([])
        pages[-1].append(Placed(number, x, y, width, height, is_turned))
        x, row_height = x + width + GAP, max(row_height, height)
    return pages


def _way(size: tuple[int, int], room_x: int, room_y: int, paper: tuple[int, int]) -> tuple[int, int, bool]:
    """Width and height on the page, and whether the card is turned for it."""
    width, height = size
    upright = _count(width, room_x) * _count(height, room_y)
    turned = _count(height, room_x) * _count(width, room_y)
    if not upright and not turned:
        raise PrintError(
            f"a card of {_inches(size)} is larger than the home paper of {_inches(paper)} within its margins: give"
            " larger paper with 'weeksheaf settings home.paper'"
        )
    return (height, width, True) if turned > upright else (width, height, False)


def _count(side: int, room: int) -> int:
    return (room + GAP) // (side + GAP)


def _inches(size: tuple[int, int]) -> str:
    return f"{size[0] / UM_PER_INCH:.3g}x{size[1] / UM_PER_INCH:.3g} in"
