"""Where everything stands on the week sheet. Pure: values in, places out.

All lengths are pixels at 150 to the inch. A page of 8.27 x 11 inches prints whole on both A4 and Letter paper.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from queries.weeks import WEEKDAYS, Week

DPI = 150
PAGE_WIDTH, PAGE_HEIGHT = 1240, 1650
MARGIN = 96
COLUMNS = 4
GUTTER = 28
TILE = (PAGE_WIDTH - 2 * MARGIN - (COLUMNS - 1) * GUTTER) // COLUMNS  # the longer side of a picture
CAPTION = 66  # the room below a picture, for its two lines
FOOT = PAGE_HEIGHT - 72  # the baseline of the last line

_TITLE_ENDS = 214  # where the first heading's space begins on page one
_PAGE_BEGINS = 92  # and on the others
_BOTTOM = FOOT - 44
_HEADING = 62  # from the space's beginning to the pictures
_HEADING_BASELINE = 36
_ROW_GAP = 26
_DAY_GAP = 18
_LEAST_SIDE = 28

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
class Entry:
    """One picture to show: its code, what is said of its time, its marks, its displayed size and where to read it.

    `path` is None when there is nothing to read it from.
    """

    code: str
    day: date | None
    time: str
    is_doubtful: bool
    is_damaged: bool
    width: int
    height: int
    path: str | None


@dataclass(frozen=True, slots=True)
class Heading:
    """A day, and the baseline it stands on."""

    text: str
    count: str
    baseline: int


@dataclass(frozen=True, slots=True)
class Tile:
    """A picture's place: its left upper corner and its size."""

    entry: Entry
    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Page:
    """What stands on one page."""

    headings: tuple[Heading, ...]
    tiles: tuple[Tile, ...]


def lay_out(entries: Sequence[Entry], week: Week) -> tuple[Page, ...]:
    """The pages, at least one, in the order given: a heading a day, four pictures a row, captions on one line.

    Photos without a known day come last. A heading never stands alone at the foot of a page, and is said again, as
    continued, on the next.
    """
    pages: list[tuple[list[Heading], list[Tile]]] = [([], [])]
    top = _TITLE_ENDS
    for day, of_day in groupby(sorted(entries, key=_by_day), key=lambda entry: entry.day):
        shown = list(of_day)
        text, count = day_words(day, week), f"{len(shown)} {'photo' if len(shown) == 1 else 'photos'}"
        is_begun = False
        for row in _rows(shown):
            sizes = [fitted(entry.width, entry.height) for entry in row]
            height = max(size[1] for size in sizes)
            if top + (0 if is_begun else _HEADING) + height + CAPTION > _BOTTOM:
                pages.append(([], []))
                top = _PAGE_BEGINS
                text, is_begun = (f"{text}, continued" if is_begun else text), False
            headings, tiles = pages[-1]
            if not is_begun:
                headings.append(Heading(text, count, top + _HEADING_BASELINE))
                text, is_begun, top = day_words(day, week), True, top + _HEADING
            for column, (entry, size) in enumerate(zip(row, sizes, strict=True)):
                tiles.append(Tile(entry, MARGIN + column * (TILE + GUTTER), top + height - size[1], *size))
            top += height + CAPTION + _ROW_GAP
        top += _DAY_GAP
    return tuple(Page(tuple(headings), tuple(tiles)) for headings, tiles in pages)


def fitted(width: int, height: int) -> tuple[int, int]:
    """A picture's size on the sheet, never cropped; a very long one is widened to a hand's breadth of a line."""
    longer = max(width, height, 1)
    return max(_LEAST_SIDE, round(TILE * width / longer)), max(_LEAST_SIDE, round(TILE * height / longer))


def day_words(day: date | None, week: Week) -> str:
    """A day's heading: "Monday 30 March", with its year when it lies outside of the week."""
    if day is None:
        return "Day not known"
    words = f"{WEEKDAYS[day.weekday()].capitalize()} {day.day} {_MONTHS[day.month - 1]}"
    return words if day in week else f"{words} {day.year}"


def _by_day(entry: Entry) -> date:
    return entry.day or date.max


def _rows(entries: Sequence[Entry]) -> Iterable[Sequence[Entry]]:
    return (entries[start : start + COLUMNS] for start in range(0, len(entries), COLUMNS))
