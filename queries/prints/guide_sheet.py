"""A print that is cut, in the cutting guide: drawn to scale with its cuts and pieces, the steps in words below it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from queries.cards.values import UM_PER_POINT
from queries.cutting.cuts import sheet_of, waste_of
from queries.cutting.steps import Unit, steps_of
from queries.cutting.values import Cut, Laid, Print, Rect
from queries.prints.guide_canvas import CUT, GREY, INK, LIGHT, Pages, line_height, text_width, wrapped
from queries.prints.guide_notes import counted, notes_of

#: Prints are drawn at actual size, or at the first of these shares of it that there is room for.
SCALES = tuple(Fraction(share) for share in ("1", "3/4", "1/2", "1/3", "1/4", "1/6", "1/8"))
#: Drawn at so much of its size a print is as clear, and two stand on a page.
_CLEAR = Fraction(3, 4)

_TITLE, _TEXT, _DISC_TEXT = 13.0, 9.0, 8.0
_TITLE_ROOM = 6_000
#: Around the drawn print: room for the discs.
_RIM, _THIN_RIM, _DISC = 6_500, 2_000, 2_300
_INDENT = 6_000
_GAP = 2_500
#: So much of the picture shows through.
_PALE = 0.5


@dataclass(frozen=True, slots=True)
class GuidePrint:
    """A print of the guide: its file, what lies on it, what to write on each piece (pocket, week), and a small picture
    of it as a file's bytes, opened only while it is drawn."""

    file: str
    layout: Print
    names: Mapping[str, str]
    picture: bytes | None


@dataclass(frozen=True, slots=True)
class Block:
    """A print ready to be drawn: its scale, its lines of steps (the number with the first line of each) and notes."""

    item: GuidePrint
    scale: Fraction
    steps: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    height: int

    def draw(self, pages: Pages, left: int, top: int, width: int) -> None:
        """The block with its left upper corner there."""
        item, sheet = self.item, sheet_of(self.item.layout)
        pages.write(left, top + _TITLE_ROOM - 1_500, item.file, _TITLE, bold=True)
        pages.write(left + width, top + _TITLE_ROOM - 1_500, _summary(self), _TEXT, colour=GREY, anchor="r")
        upper, lower = _rims(item.layout)
        x, y = left + (width - int(sheet.width * self.scale)) // 2, top + _TITLE_ROOM + upper
        draw_print(pages, item, self.scale, x, y)
        _write_steps(pages, self, left, y + int(sheet.height * self.scale) + lower + _GAP)


def block_of(item: GuidePrint, unit: Unit, width: int, height: int, between: int = 0) -> Block:
    """The print as large as a page of that width and height has room for, actual size at most; a little smaller where
    two fit then, with so much between them."""
    steps = tuple(
        (str(number) if not at else "", line)
        for number, step in enumerate(steps_of(item.layout, item.names, unit), start=1)
        for at, line in enumerate(wrapped(step, _TEXT, width - _INDENT))
    )
    notes = tuple(
        line for note in notes_of(item.layout, item.names, unit) for line in wrapped(note, _TEXT, width - _INDENT)
    )
    sheet, words = sheet_of(item.layout), _GAP + (len(steps) + len(notes)) * line_height(_TEXT)
    rims = sum(_rims(item.layout))
    heights = {
        scale: _TITLE_ROOM + rims + int(sheet.height * scale) + words
        for scale in SCALES
        if sheet.width * scale + 2 * _RIM <= width or scale == SCALES[-1]
    }
    half = (height - between) // 2
    in_two = [scale for scale, needed in heights.items() if needed <= half and scale >= _CLEAR]
    alone = [scale for scale, needed in heights.items() if needed <= height]
    scale = next(iter((*in_two, *alone, SCALES[-1])))
    return Block(item, scale, steps, notes, heights[scale])


def draw_print(pages: Pages, item: GuidePrint, scale: Fraction, x: int, y: int) -> None:
    """The print alone, with its left upper corner there."""
    _Drawing(item, scale, x, y).draw(pages)


def _rims(layout: Print) -> tuple[int, int]:
    """The room for discs above the print and below it, as far as cuts end there."""
    sheet = sheet_of(layout)
    down = [cut.part for cut in layout.cuts if cut.way == "down"]
    above = any(part.y == sheet.y for part in down)
    below = any(part.bottom == sheet.bottom and part.y != sheet.y for part in down)
    return _RIM if above else _THIN_RIM, _RIM if below else _THIN_RIM


def _summary(block: Block) -> str:
    layout = block.item.layout
    size = "actual size" if block.scale == 1 else f"drawn at {block.scale} of its size"
    return f"{counted(len(layout.laid), 'piece')}, {counted(len(layout.cuts), 'cut')}, {size}"


def _write_steps(pages: Pages, block: Block, left: int, y: int) -> None:
    for number, line in block.steps:
        y += line_height(_TEXT)
        if number:
            pages.disc(left + _DISC - 300, y - 1_050, 1_800, number, 7)
        pages.write(left + _INDENT, y, line, _TEXT)
    for line in block.notes:
        y += line_height(_TEXT)
        pages.write(left + _INDENT, y, line, _TEXT, colour=GREY)


@dataclass(frozen=True, slots=True)
class _Drawing:
    """The print with its left upper corner at x, y of the page."""

    item: GuidePrint
    scale: Fraction
    x: int
    y: int

    def draw(self, pages: Pages) -> None:
        item = self.item
        sheet = self._box(sheet_of(item.layout))
        if item.picture is not None:
            pages.picture(item.picture, sheet, _PALE)
        for waste in waste_of(item.layout):
            pages.hatch(self._box(waste))
        pages.frame(sheet, 0.6, GREY)
        for laid in item.layout.laid:
            pages.frame(self._box(laid.box), 0.3, LIGHT)
        self._draw_cuts(pages, item.layout.cuts, sheet)
        for laid in item.layout.laid:
            _label(pages, laid, item.names[laid.piece], self._box(laid.box))

    def _box(self, box: Rect) -> Rect:
        left, top, right, bottom = (int(at * self.scale) for at in (box.x, box.y, box.right, box.bottom))
        return Rect(self.x + left, self.y + top, right - left, bottom - top)

    def _draw_cuts(self, pages: Pages, cuts: Sequence[Cut], sheet: Rect) -> None:
        taken: list[tuple[float, float]] = []
        discs: list[tuple[float, float, int]] = []
        for cut in cuts:
            part = self._box(cut.part)
            at = (self.x if cut.way == "down" else self.y) + int(cut.at * self.scale)
            x, y, step_x, step_y = _outer_end(cut, part, at, sheet)
            while any(hypot(x - other_x, y - other_y) < 2 * _DISC + 200 for other_x, other_y in taken):
                x, y = x + step_x, y + step_y
            taken.append((x, y))
            discs.append((x, y, cut.number))
            if cut.way == "down":
                pages.line(at, min(y, part.y), at, max(y, part.bottom), 1.0, CUT)
                pages.line(at, y, x, y, 1.0, CUT)
            else:
                pages.line(min(x, part.x), at, max(x, part.right), at, 1.0, CUT)
                pages.line(x, at, x, y, 1.0, CUT)
        for x, y, number in discs:
            pages.disc(x, y, _DISC, str(number), _DISC_TEXT)


def _outer_end(cut: Cut, part: Rect, at: int, sheet: Rect) -> tuple[float, float, float, float]:
    """Where a cut's disc stands, and which way it moves when another one stands there: off the print where the cut
    reaches an edge of it, else on the line."""
    away, step = _DISC + 1_500, _DISC / 2
    if cut.way == "down":
        if part.y == sheet.y:
            return at, sheet.y - away, 0, -step
        if part.bottom == sheet.bottom:
            return at, sheet.bottom + away, 0, step
        return at, part.y + away, 0, step
    if part.x == sheet.x:
        return sheet.x - away, at, -step, 0
    if part.right == sheet.right:
        return sheet.right + away, at, step, 0
    return part.x + away, at, step, 0


def _label(pages: Pages, laid: Laid, name: str, box: Rect) -> None:
    """Pocket and week in the middle of a piece, and where its top is when it was turned by 90 degrees clockwise."""
    pocket, *small = name.splitlines()
    small += ["top \u2192"] if laid.turned else []
    lines = [(pocket, 22.0, True), *((line, 9.0, False) for line in small)]
    widest = max(text_width(line, points, bold=bold) for line, points, bold in lines)
    tall = sum(line_height(points) for _, points, _ in lines)
    shrink = min(1.0, 0.9 * box.width / (widest + 4_000), 0.9 * box.height / (tall + 1_500))
    half_x, half_y = int((widest + 4_000) * shrink / 2), int((tall + 1_500) * shrink / 2)
    x, y = box.x + box.width // 2, box.y + box.height // 2
    pages.plate(Rect(x - half_x, y - half_y, 2 * half_x, 2 * half_y), 1_500 * shrink, 0.94, LIGHT)
    base = float(y - tall * shrink / 2)
    for line, points, bold in lines:
        base += line_height(points) * shrink
        pages.write(
            x, base - 0.32 * points * shrink * UM_PER_POINT, line, points * shrink, bold=bold, anchor="m", colour=INK
        )
