"""The prints that are not cut, in the cutting guide: small, side by side, each with the pocket that it goes to."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from queries.cutting.cuts import sheet_of
from queries.cutting.steps import Unit, steps_of
from queries.prints.guide_canvas import GREY, LIGHT, Pages, line_height, wrapped
from queries.prints.guide_notes import counted, edge_note
from queries.prints.guide_sheet import GuidePrint, draw_print

#: So many side by side, so far apart, three rows a page at least, drawn at the first of these shares of their size that
#: there is room for: the last is small enough for the largest print there can be.
_SIDE_BY_SIDE, _APART, _ROWS = 3, 8_000, 3
_SCALES = tuple(Fraction(1, share) for share in (3, 4, 6, 8, 12, 16, 24))
_SUBTITLE, _NAME, _TEXT = 14.0, 11.0, 9.0
_HEAD_GAP, _NAME_ROOM, _GAP = 5_500, 5_500, 1_000


@dataclass(frozen=True, slots=True)
class WholeRow:
    """Prints side by side at one scale, each with what to do; the first row has a heading and lines below that."""

    items: tuple[tuple[GuidePrint, tuple[str, ...]], ...]
    scale: Fraction
    heading: str
    under: tuple[str, ...]
    height: int

    def draw(self, pages: Pages, left: int, top: int, width: int) -> None:
        """The row with its left upper corner there."""
        y = self._draw_head(pages, left, top, width) if self.heading else top
        for place, (item, lines) in enumerate(self.items):
            x = left + place * (_column(width) + _APART)
            pages.write(x, y + _NAME_ROOM - 1_500, item.file, _NAME, bold=True)
            draw_print(pages, item, self.scale, x, y + _NAME_ROOM)
            below = y + _NAME_ROOM + int(sheet_of(item.layout).height * self.scale) + _GAP
            for number, line in enumerate(lines, start=1):
                pages.write(x, below + number * line_height(_TEXT), line, _TEXT)

    def _draw_head(self, pages: Pages, left: int, top: int, width: int) -> int:
        """Where the prints begin."""
        y = top + line_height(_SUBTITLE)
        pages.write(left, y, self.heading, _SUBTITLE, bold=True)
        pages.line(left, y + 1_500, left + width, y + 1_500, 0.5, LIGHT)
        y += 2_000
        for line in self.under:
            y += line_height(_TEXT)
            pages.write(left, y, line, _TEXT, colour=GREY)
        return top + _head_height(self.under)


def whole_rows(items: Sequence[GuidePrint], unit: Unit, width: int, height: int) -> Iterator[WholeRow]:
    """The prints without a cut in rows, for pages of that width and height."""
    if not items:
        return
    sheet = sheet_of(items[0].layout)
    column = _column(width)
    fits = (scale for scale in _SCALES if sheet.width * scale <= column and sheet.height * scale <= height // _ROWS)
    scale = next(fits, _SCALES[-1])
    under = tuple(line for told in _under(items, scale, unit) for line in wrapped(told, _TEXT, width))
    for start in range(0, len(items), _SIDE_BY_SIDE):
        row = tuple((item, _lines(item, unit, column)) for item in items[start : start + _SIDE_BY_SIDE])
        text = max(len(lines) for _, lines in row) * line_height(_TEXT)
        tall = _NAME_ROOM + int(sheet.height * scale) + _GAP + text
        head = (counted(len(items), "print") + " without a cut", under) if not start else ("", ())
        yield WholeRow(row, scale, *head, tall if start else tall + _head_height(under))


def _column(width: int) -> int:
    return (width - (_SIDE_BY_SIDE - 1) * _APART) // _SIDE_BY_SIDE


def _head_height(under: Sequence[str]) -> int:
    return line_height(_SUBTITLE) + 2_000 + len(under) * line_height(_TEXT) + _HEAD_GAP


def _lines(item: GuidePrint, unit: Unit, column: int) -> tuple[str, ...]:
    return tuple(line for step in steps_of(item.layout, item.names, unit) for line in wrapped(step, _TEXT, column))


def _under(items: Sequence[GuidePrint], scale: Fraction, unit: Unit) -> Iterator[str]:
    yield f"Drawn at {scale} of the size."
    # A print that is not cut is one piece as large as the paper, so that the lab takes the same of each.
    yield from edge_note(items[0].layout.laid[0].at_risk, unit)
