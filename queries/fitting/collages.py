"""Collages by rule: the ways to fill a pocket with two to four photos. Pure.

Each is a drawing inside the pocket, as sleeves are drawn: equal letters make one cell, each letter an equal part of the
pocket's sides once the border and the strip are off; a gap lies between cells.
"""

from collections import defaultdict
from functools import cache
from math import log

from queries.fitting import weights
from queries.fitting.values import Collage, Style
from queries.sleeves.values import Box

#: Name and drawing; the rows are parted by spaces. The counts of photos are those of the letters.
_DRAWINGS = (
    ("2 side by side", "AB"),
    ("2 one above the other", "A B"),
    ("1 large and 1 small, large left", "AAB"),
    ("1 large and 1 small, large right", "ABB"),
    ("1 large and 1 small, large above", "A A B"),
    ("1 large and 1 small, large below", "A B B"),
    ("3 side by side", "ABC"),
    ("3 one above the other", "A B C"),
    ("1 large and 2 small, large left", "AAB AAC"),
    ("1 large and 2 small, large right", "ABB CBB"),
    ("1 large and 2 small, large above", "AA AA BC"),
    ("1 large and 2 small, large below", "AB CC CC"),
    ("1 tall and 2, tall left", "AB AC"),
    ("1 tall and 2, tall right", "AB CB"),
    ("1 wide and 2, wide above", "AA BC"),
    ("1 wide and 2, wide below", "AB CC"),
    ("a grid of 4", "AB CD"),
    ("4 side by side", "ABCD"),
    ("4 one above the other", "A B C D"),
    ("1 large and 3 small, large left", "AAAB AAAC AAAD"),
    ("1 large and 3 small, large right", "ABBB CBBB DBBB"),
    ("1 large and 3 small, large above", "AAA AAA AAA BCD"),
    ("1 large and 3 small, large below", "ABC DDD DDD DDD"),
)

#: One picture shown whole across the pocket, with paper beside it: for panoramas. Their widths to heights.
_ACROSS = (3.0, 2.0)


@cache
def collages_for(width: float, height: float, style: Style, *, asked: bool = False) -> tuple[Collage, ...]:
    """The collages that a pocket may hold, the plainest of each number of photos first.

    Unasked, small pockets hold none. A collage whose cells come out too small or too long is left out.
    """
    if not asked and width * height < weights.COLLAGE_AREA:
        return ()
    by_count: dict[int, list[Collage]] = defaultdict(list)
    for name, drawing in _DRAWINGS:
        made = _drawn(name, drawing.split(), width, height, style)
        if made is not None:
            by_count[len(made.cells)].append(made)
    return tuple(
        made
        for count in sorted(by_count)
        for made in sorted(by_count[count], key=oddness)[: weights.COLLAGES_OF_A_COUNT]
    )


@cache
def panorama_collages(width: float, height: float, style: Style) -> tuple[Collage, ...]:
    """Collages of one picture, much longer than the pocket, across its middle; lying and upright."""
    inner, strip = _free(width, height, style)
    made = []
    for aspect in _ACROSS:
        for name, of_cell in (("1 across", aspect), ("1 upright", 1 / aspect)):
            cell_width = min(inner.width, inner.height * of_cell)
            cell_height = cell_width / of_cell
            left, top = (inner.width - cell_width) / 2, (inner.height - cell_height) / 2
            cell = Box(inner.x + left, inner.y + top, cell_width, cell_height)
            if min(cell_width, cell_height) >= weights.SMALLEST_CELL:
                made.append(_collage(f"{name}, {aspect:g} : 1", (cell,), style, strip))
    return tuple(made)


def oddness(collage: Collage) -> float:
    """How far its cells are from the usual shapes, on average: the log of the ratio to the nearest; 0 is best."""
    return sum(map(_oddness_of, collage.cells)) / len(collage.cells)


def _oddness_of(cell: Box) -> float:
    long = max(cell.width / cell.height, cell.height / cell.width)
    return min(abs(log(long / usual)) for usual in weights.USUAL_ASPECTS)


def _free(width: float, height: float, style: Style) -> tuple[Box, Box | None]:
    """What border and strip leave of the pocket, and the strip itself, which goes from edge to edge."""
    strip, edge = style.strip, style.strip_edge
    upright, lying = edge in ("left", "right"), edge in ("top", "bottom")
    left, top = strip * (edge == "left"), strip * (edge == "top")
    inner = Box(
        left + style.border,
        top + style.border,
        width - strip * upright - 2 * style.border,
        height - strip * lying - 2 * style.border,
    )
    if not strip:
        return inner, None
    x, y = (width - strip) * (edge == "right"), (height - strip) * (edge == "bottom")
    return inner, Box(x, y, strip if upright else width, strip if lying else height)


def _drawn(name: str, rows: list[str], width: float, height: float, style: Style) -> Collage | None:
    """The collage of a drawing in a pocket, or None where its cells would be too small or too long."""
    inner, strip = _free(width, height, style)
    across, down = (inner.width + style.gap) / len(rows[0]), (inner.height + style.gap) / len(rows)
    cells = []
    for letter in dict.fromkeys("".join(rows)):
        columns = [place for row in rows for place, found in enumerate(row) if found == letter]
        lines = [place for place, row in enumerate(rows) if letter in row]
        left, top = min(columns) * across, min(lines) * down
        right, bottom = (max(columns) + 1) * across - style.gap, (max(lines) + 1) * down - style.gap
        cells.append(Box(inner.x + left, inner.y + top, right - left, bottom - top))
    return _collage(name, tuple(cells), style, strip) if all(map(_is_fit, cells)) else None


def _is_fit(cell: Box) -> bool:
    short, long = sorted((cell.width, cell.height))
    return short >= weights.SMALLEST_CELL and long <= weights.LONGEST_CELL * short


def _collage(name: str, cells: tuple[Box, ...], style: Style, strip: Box | None) -> Collage:
    return Collage(name, cells, style.gap, style.border, style.corner, style.background, strip)
