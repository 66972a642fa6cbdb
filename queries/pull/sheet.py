"""The week sheet: every picture of the week with its code, under day headings, to print and to mark by hand."""

import hashlib
import io
import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict
from pathlib import PurePath
from typing import Any

from PIL import Image, ImageDraw, ImageFont, ImageOps

from queries.pull.decoding import small_pictures
from queries.pull.sheet_cells import NOTE_LINE
from queries.pull.sheet_entries import SheetContent
from queries.pull.sheet_layout import lay_out
from queries.pull.sheet_values import BORDER, DPI, FOOT, MARGIN, PAGE_HEIGHT, PAGE_WIDTH, PRINT, TILE, Page, Print, Tile
from queries.weeks import Week, week_words

FILE_NAME = "week-sheet.pdf"

_DRAWING = 3  # to be raised when the sheet comes to look different, so that old ones are drawn anew

_INK, _GREY, _PALE, _LINE = "#2b2b2b", "#7d7d7d", "#f0f0ee", "#d4d4d0"
_WARNING = "#9a5b1e"
_TITLE_BASELINE, _RULE = 150, 178


def draw_sheet(content: SheetContent, week: Week) -> bytes:
    """The sheet as a PDF; the same content and pictures give the same bytes. Only pictures of tile size are kept."""
    pages = lay_out(content.entries, week, content.asides)
    pictures = _pictures((tile.entry.path for page in pages for tile in page.tiles), TILE)
    prints = _pictures((place.small.path for page in pages for place in page.prints), PRINT)
    drawn = [_draw_page(page, pictures, prints) for page in pages]
    for number, sheet in enumerate(drawn, start=1):
        _write_around(ImageDraw.Draw(sheet), number, len(drawn), _counted(content), week)
    file = io.BytesIO()
    drawn[0].save(
        file,
        "PDF",
        save_all=True,
        append_images=drawn[1:],
        resolution=DPI,
        quality=90,
        subsampling=0,
        title=week_words(week),
        creationDate=None,
        modDate=None,
    )
    return file.getvalue()


def digest_of(content: SheetContent, week: Week) -> str:
    """A digest of all that stands on the sheet, to tell whether it must be drawn again; a moved folder is no reason."""
    shown = json.dumps([_DRAWING, week_words(week), _with_bare_names(asdict(content))], default=str)
    return hashlib.sha256(shown.encode()).hexdigest()


def _with_bare_names(value: Any) -> Any:
    """A nested value with the file's name alone for every path in it."""
    if isinstance(value, dict):
        return {
            name: PurePath(item).name if name == "path" and item else _with_bare_names(item)
            for name, item in value.items()
        }
    return [_with_bare_names(item) for item in value] if isinstance(value, list | tuple) else value


def _pictures(paths: Iterable[str | None], within: int) -> Mapping[str, Image.Image]:
    return small_pictures(list({path: None for path in paths if path}), within)


def _write_around(pen: ImageDraw.ImageDraw, number: int, pages: int, counted: str, week: Week) -> None:
    """What stands at the head and the foot of a page."""
    right = PAGE_WIDTH - MARGIN
    if number == 1:
        _write(pen, (MARGIN, _TITLE_BASELINE), week_words(week), 42, _INK)
        _write(pen, (right, _TITLE_BASELINE), counted, 24, _GREY, anchor="rs")
        pen.line((MARGIN, _RULE, right, _RULE), fill=_LINE, width=2)
    elif pages > 1:
        _write(pen, (MARGIN, FOOT), week_words(week), 19, _GREY)
    if pages > 1:
        _write(pen, (right, FOOT), f"{number} of {pages}", 19, _GREY, anchor="rs")


def _draw_page(page: Page, pictures: Mapping[str, Image.Image], prints: Mapping[str, Image.Image]) -> Image.Image:
    sheet = Image.new("RGB", (PAGE_WIDTH, PAGE_HEIGHT), "white")
    pen = ImageDraw.Draw(sheet)
    for heading in page.headings:
        _write(pen, (MARGIN, heading.baseline), heading.text, 27, _INK)
        _write(pen, (PAGE_WIDTH - MARGIN, heading.baseline), heading.count, 19, _GREY, anchor="rs")
    for place in reversed(page.prints):  # the first of a row lies on top, and the pictures over all of them
        _draw_print(sheet, pen, place, prints.get(place.small.path or ""))
    for tile in page.tiles:
        _draw_picture(sheet, pen, tile, pictures.get(tile.entry.path or ""))
        _draw_caption(pen, tile)
    return sheet


def _draw_picture(sheet: Image.Image, pen: ImageDraw.ImageDraw, tile: Tile, picture: Image.Image | None) -> None:
    """The picture in its place with a hairline around it, or a grey box that says it cannot be shown."""
    box = (tile.x, tile.y, tile.x + tile.width - 1, tile.y + tile.height - 1)
    if picture:
        fitted = ImageOps.contain(picture, (tile.width, tile.height))
        sheet.paste(fitted, (tile.x + (tile.width - fitted.width) // 2, tile.y + (tile.height - fitted.height) // 2))
    else:
        pen.rectangle(box, fill=_PALE)
        words = "not available" if tile.entry.path is None else "cannot be opened"
        _write(pen, ((box[0] + box[2]) // 2, (box[1] + box[3]) // 2), words, 18, _GREY, anchor="mm")
    pen.rectangle(box, outline=_LINE)


def _draw_print(sheet: Image.Image, pen: ImageDraw.ImageDraw, place: Print, picture: Image.Image | None) -> None:
    """A small picture with a white border and a hairline, its code and its notes below."""
    box = (place.x, place.y, place.x + place.width - 1, place.y + place.height - 1)
    pen.rectangle(box, fill="white", outline=_LINE)
    inside = (place.width - 2 * BORDER, place.height - 2 * BORDER)
    if picture:
        sheet.paste(ImageOps.fit(picture, inside), (place.x + BORDER, place.y + BORDER))
    else:
        pen.rectangle((box[0] + BORDER, box[1] + BORDER, box[2] - BORDER, box[3] - BORDER), fill=_PALE)
    _write(pen, (place.code_x, place.code_y), place.small.code, 15, _INK)
    for number, line in enumerate(place.small.note, start=1):
        _write(pen, (place.code_x, place.code_y + number * NOTE_LINE), line, 14, _GREY)


def _draw_caption(pen: ImageDraw.ImageDraw, tile: Tile) -> None:
    """The code, and below it the time; a doubtful date and a damaged file are marked."""
    entry, left, below = tile.entry, tile.x, tile.y + tile.height
    end = left + _write(pen, (left, below + 30), entry.code, 22, _INK)
    if entry.is_damaged:
        _mark(pen, end, below + 30, "damaged")
    end = left + _write(pen, (left, below + 57), entry.time, 19, _GREY)
    if entry.is_doubtful:
        _mark(pen, end, below + 57, "date doubtful")


def _mark(pen: ImageDraw.ImageDraw, end: int, baseline: int, text: str) -> None:
    pen.ellipse((end + 12, baseline - 10, end + 18, baseline - 4), fill=_WARNING)
    _write(pen, (end + 26, baseline), text, 19, _WARNING)


def _write(
    pen: ImageDraw.ImageDraw, place: tuple[int, int], text: str, size: int, fill: str, anchor: str = "ls"
) -> int:
    """Write on a baseline in the free font that comes with Pillow; the width of what was written, in pixels."""
    font = ImageFont.load_default(size)
    pen.text(place, text, fill=fill, font=font, anchor=anchor)
    return round(font.getlength(text))


def _counted(content: SheetContent) -> str:
    photos = len(content.entries)
    counted = f"{photos} {'photo' if photos == 1 else 'photos'}" if photos else "no photos"
    return f"{counted}, {content.left_out} left out" if content.left_out else counted
