"""The cutting guide, a PDF for the home printer: what to do on the first page, then every print with its cuts, last
those without a cut."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from queries.cutting.steps import Unit
from queries.lengths import UM_PER_INCH, UM_PER_MM
from queries.prints.guide_canvas import GREY, LIGHT, Pages, line_height, wrapped
from queries.prints.guide_notes import counted
from queries.prints.guide_sheet import GuidePrint, block_of
from queries.prints.guide_whole import whole_rows

__all__ = ["GuidePrint", "guide_pdf"]

_MARGIN, _FOOT = 12_000, 5_500
_HEADING, _SUBTITLE, _TEXT, _SMALL = 24.0, 14.0, 10.5, 8.5
_BETWEEN, _MOST_BETWEEN = 3_900, 14_000
#: The columns of the table, from the left margin.
_PIECES_AT, _INDENT = 30_000, 7_000
_RULER = {"in": (3 * UM_PER_INCH, "3 in"), "mm": (80 * UM_PER_MM, "80 mm")}


class _Part(Protocol):
    """What stands on a page as a whole: a print that is cut, or a row of those that are not."""

    @property
    def height(self) -> int: ...
    def draw(self, pages: Pages, left: int, top: int, width: int) -> None: ...


def guide_pdf(
    prints: Sequence[GuidePrint], heading: str, paper: tuple[int, int], unit: Unit, notes: Sequence[str] = ()
) -> bytes:
    """The guide on pages of `paper`, width and height in µm; the same prints give the same bytes."""
    pages = Pages(*paper, title=f"{heading}: cutting guide")
    width, height = paper[0] - 2 * _MARGIN, paper[1] - 2 * _MARGIN - _FOOT
    cut = [block_of(item, unit, width, height, _BETWEEN) for item in prints if item.layout.cuts]
    whole = whole_rows([item for item in prints if not item.layout.cuts], unit, width, height)
    opening = _Opening(pages, heading)
    opening.draw(prints, unit, notes)
    for number, page in enumerate(_on_pages([*cut, *whole], height), start=opening.page + 1):
        pages.turn_page()
        spare = height - sum(part.height for part in page)
        between = min(_MOST_BETWEEN, spare // max(1, len(page) - 1))
        y = _MARGIN
        for part in page:
            part.draw(pages, _MARGIN, y, width)
            y += part.height + between
        _foot(pages, heading, f"page {number}")
    return pages.done()


def _on_pages(parts: Sequence[_Part], height: int) -> Iterator[list[_Part]]:
    """The parts in order, as many on a page as it has room for."""
    page: list[_Part] = []
    used = 0
    for part in parts:
        if page and used + part.height > height:
            yield page
            page, used = [], 0
        page.append(part)
        used += part.height + _BETWEEN
    if page:
        yield page


def _foot(pages: Pages, heading: str, right: str) -> None:
    y = pages.height - _MARGIN
    pages.write(_MARGIN, y, f"{heading}, cutting guide", _SMALL, colour=GREY)
    pages.write(pages.width - _MARGIN, y, right, _SMALL, colour=GREY, anchor="r")


def how_to_cut(unit: Unit) -> tuple[str, ...]:
    return (
        f"Print these pages at actual size (100 %), not fitted to the paper: the bar below is {_RULER[unit][1]} long.",
        "Each print is named by its file, which labs often print on the back. Lay it face up, as it is drawn here.",
        "Make the cuts in the order of their numbers, each from edge to edge through the paper in your hand.",
        "\u201cDown\u201d is from top to bottom, \u201cacross\u201d from left to right.",
        "Measure from the edge that the step names. After each cut, go on with the left or upper part first.",
        "Red lines are cuts, hatched paper is waste. Each piece bears its pocket: L is the left page, R the right.",
    )


@dataclass(slots=True)
class _Opening:
    """The first page, and further ones where the table is long; `page` is the number of the page in hand."""

    pages: Pages
    heading: str
    page: int = 1
    y: int = _MARGIN

    def draw(self, prints: Sequence[GuidePrint], unit: Unit, notes: Sequence[str]) -> None:
        self._write(self.heading, _HEADING, bold=True)
        for line in _counts(prints):
            self._write(line, _TEXT, colour=GREY)
        self._subtitle("How to cut")
        for number, line in enumerate(how_to_cut(unit), start=1):
            self._entry(f"{number}.", line, _INDENT)
        self._ruler(unit)
        if notes:
            self._subtitle("To know before")
            for line in notes:
                self._entry("\u2022", line, _INDENT)
        self._subtitle("The prints and their pieces")
        for item in prints:
            whole = "" if item.layout.cuts else " (no cut)"
            self._entry(item.file, f"{_pieces_in_words(item)}{whole}", _PIECES_AT)
        _foot(self.pages, self.heading, f"page {self.page}")

    def _write(self, text: str, points: float, *, bold: bool = False, colour: str = "#222222") -> None:
        for line in wrapped(text, points, self.pages.width - 2 * _MARGIN, bold=bold):
            self._room(line_height(points))
            self.pages.write(_MARGIN, self.y, line, points, bold=bold, colour=colour)

    def _subtitle(self, text: str) -> None:
        if self.y + 30_000 > self.pages.height - _MARGIN - _FOOT:
            self._next_page()
        self.y += 6_500
        self._write(text, _SUBTITLE, bold=True)
        self.y += 1_500
        self.pages.line(_MARGIN, self.y, self.pages.width - _MARGIN, self.y, 0.5, LIGHT)
        self.y += 500

    def _entry(self, first: str, text: str, indent: int) -> None:
        lines = wrapped(text, _TEXT, self.pages.width - 2 * _MARGIN - indent)
        for number, line in enumerate(lines):
            self._room(line_height(_TEXT) + (900 if not number else 0))
            if not number:
                self.pages.write(_MARGIN, self.y, first, _TEXT, bold=True)
            self.pages.write(_MARGIN + indent, self.y, line, _TEXT)

    def _room(self, height: int) -> None:
        """Go down by so much, to the next page where this one ends."""
        if self.y + height > self.pages.height - _MARGIN - _FOOT:
            self._next_page()
        self.y += height

    def _next_page(self) -> None:
        _foot(self.pages, self.heading, f"page {self.page}")
        self.pages.turn_page()
        self.page, self.y = self.page + 1, _MARGIN

    def _ruler(self, unit: Unit) -> None:
        length, words = _RULER[unit]
        self._room(9_000)
        left = _MARGIN + _INDENT
        self.pages.line(left, self.y, left + length, self.y, 0.8)
        for x in (left, left + length):
            self.pages.line(x, self.y - 1_800, x, self.y + 1_800, 0.8)
        self.pages.write(left + length + 3_000, self.y + 1_200, words, _TEXT)
        self.y += 2_500


def _counts(prints: Sequence[GuidePrint]) -> Iterator[str]:
    pieces = sum(len(item.layout.laid) for item in prints)
    cuts = sum(len(item.layout.cuts) for item in prints)
    yield f"{counted(len(prints), 'print')}, {counted(pieces, 'piece')}, {counted(cuts, 'cut')}"
    under = (name.partition("\n")[2] for item in prints for name in item.names.values())
    weeks = list(dict.fromkeys(week for week in under if week))
    if weeks:
        yield f"Weeks: {'; '.join(weeks)}"


def _pieces_in_words(item: GuidePrint) -> str:
    """The pockets by weeks: "30 Mar - 5 Apr 2026: L1, R1; 6 - 12 Apr 2026: L3"."""
    weeks: dict[str, list[str]] = {}
    for laid in item.layout.laid:
        pocket, _, week = item.names[laid.piece].partition("\n")
        weeks.setdefault(week, []).append(pocket)
    return "; ".join(f"{week}: {', '.join(pockets)}" if week else ", ".join(pockets) for week, pockets in weeks.items())
