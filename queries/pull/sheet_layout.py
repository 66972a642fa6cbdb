"""Where everything stands on the week sheet. Pure: values in, places out."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from queries.pull.sheet_cells import Cell, aside_rows, cell_of, moved, row_height, strips
from queries.pull.sheet_values import (
    COLUMNS,
    FOOT,
    GUTTER,
    MARGIN,
    TILE,
    Aside,
    Entry,
    Heading,
    Page,
    Print,
    Small,
    Tile,
)
from queries.weeks import WEEKDAYS, Week

_TITLE_ENDS = 214  # where the first heading's space begins on page one
_PAGE_BEGINS = 92  # and on the others
_BOTTOM = FOOT - 44
_HEADING = 62  # from the space's beginning to the pictures
_HEADING_BASELINE = 36
_ROW_GAP = 26
_STRIP_GAP = 12
_DAY_GAP = 18

_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


@dataclass(frozen=True, slots=True)
class _Band:
    """One row over the whole width, placed from its left upper corner; `gap` is the room to leave below it."""

    height: int
    gap: int
    tiles: tuple[Tile, ...] = ()
    prints: tuple[Print, ...] = ()


@dataclass(slots=True)
class _Draft:
    """A page while it is filled."""

    headings: list[Heading] = field(default_factory=list)
    tiles: list[Tile] = field(default_factory=list)
    prints: list[Print] = field(default_factory=list)

    def put(self, band: _Band, top: int) -> None:
        self.tiles += [replace(tile, x=tile.x + MARGIN, y=tile.y + top) for tile in band.tiles]
        self.prints += [moved(place, MARGIN, top) for place in band.prints]


def lay_out(entries: Sequence[Entry], week: Week, asides: Sequence[Aside] = ()) -> tuple[Page, ...]:
    """The pages, at least one, in the order given: a heading a day, four pictures a row, captions on one line.

    What is left out stands small behind its keeper, or at the end of its day. What was put here by hand comes last. A
    heading never stands alone at the foot of a page, and is said again, as continued, on the next.
    """
    pages, top = [_Draft()], _TITLE_ENDS
    for day, shown, apart in _by_day(entries, asides):
        text, is_begun = day_words(day, week), False
        for band in _bands(shown, apart):
            if top + (0 if is_begun else _HEADING) + band.height > _BOTTOM:
                pages.append(_Draft())
                top = _PAGE_BEGINS
                text, is_begun = (f"{text}, continued" if is_begun else text), False
            if not is_begun:
                pages[-1].headings.append(Heading(text, _count_words(shown, apart), top + _HEADING_BASELINE))
                text, is_begun, top = day_words(day, week), True, top + _HEADING
            pages[-1].put(band, top)
            top += band.height + band.gap
        top += _DAY_GAP
    return tuple(Page(tuple(page.headings), tuple(page.tiles), tuple(page.prints)) for page in pages)


def day_words(day: date | None, week: Week) -> str:
    """A day's heading: "Monday 30 March", with its year when it lies outside of the week."""
    if day is None:
        return "Put here by hand"
    words = f"{WEEKDAYS[day.weekday()].capitalize()} {day.day} {_MONTHS[day.month - 1]}"
    return words if day in week else f"{words} {day.year}"


def _by_day(
    entries: Sequence[Entry], asides: Sequence[Aside]
) -> Iterator[tuple[date | None, Sequence[Entry], Sequence[Small]]]:
    """Each day with its pictures and those at its end."""
    shown, apart = defaultdict(list), defaultdict(list)
    for entry in entries:
        shown[entry.day].append(entry)
    for aside in asides:
        apart[aside.day].append(aside.small)
    for day in sorted({*shown, *apart}, key=lambda day: day or date.max):
        yield day, shown[day], apart[day]


def _bands(entries: Sequence[Entry], apart: Sequence[Small]) -> Iterator[_Band]:
    for row in _rows(map(cell_of, entries)):
        more = [*strips(row[-1].rest)]
        yield _picture_band(row, _STRIP_GAP if more else _ROW_GAP)
        for prints in more:
            yield _print_band(prints, _ROW_GAP if prints is more[-1] else _STRIP_GAP)
    for prints in aside_rows(apart):
        yield _print_band(prints, _STRIP_GAP)


def _rows(cells: Iterable[Cell]) -> Iterator[Sequence[Cell]]:
    """As many cells in a row as its columns hold, in order; one whose prints go on below ends its row."""
    row: list[Cell] = []
    for cell in cells:
        if sum(each.span for each in row) + cell.span > COLUMNS:
            yield row
            row = []
        row.append(cell)
        if cell.rest:
            yield row
            row = []
    if row:
        yield row


def _picture_band(row: Sequence[Cell], gap: int) -> _Band:
    """Pictures whose lower edges, and so their captions, are on one line."""
    edge = max(cell.above for cell in row)
    tiles: list[Tile] = []
    prints: list[Print] = []
    column = 0
    for cell in row:
        x = column * (TILE + GUTTER)
        tiles.append(replace(cell.tile, x=x, y=cell.tile.y + edge))
        prints += [moved(place, x, edge) for place in cell.prints]
        column += cell.span
    return _Band(edge + max(cell.below for cell in row), gap, tuple(tiles), tuple(prints))


def _print_band(prints: tuple[Print, ...], gap: int) -> _Band:
    return _Band(row_height([place.small for place in prints]), gap, prints=prints)


def _count_words(entries: Sequence[Entry], apart: Sequence[Small]) -> str:
    """ "5 photos, 12 left out"."""
    out = len(apart) + sum(len(entry.behind) for entry in entries)
    photos = f"{len(entries)} {'photo' if len(entries) == 1 else 'photos'}" if entries else ""
    return ", ".join(part for part in (photos, f"{out} left out" if out else "") if part)
