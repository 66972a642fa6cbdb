"""The week sheet: every picture of the week with its code, under day headings, to print and to mark by hand."""

import hashlib
import io
import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import PurePath

from PIL import Image, ImageDraw, ImageFont, ImageOps

from queries.pull.decoding import small_pictures
from queries.pull.sheet_layout import (
    DPI,
    FOOT,
    MARGIN,
    PAGE_HEIGHT,
    PAGE_WIDTH,
    TILE,
    Entry,
    Page,
    Tile,
    lay_out,
)
from queries.weeks import Week, week_words

FILE_NAME = "week-sheet.pdf"

_DRAWING = 1  # to be raised when the sheet comes to look different, so that old ones are drawn anew

_INK, _GREY, _PALE, _LINE = "#2b2b2b", "#7d7d7d", "#f0f0ee", "#d4d4d0"
_WARNING = "#9a5b1e"
_TITLE_BASELINE, _RULE = 150, 178


def draw_sheet(entries: Sequence[Entry], week: Week) -> bytes:
    """The sheet as a PDF; the same entries and pictures give the same bytes. Only pictures of tile size are kept."""
    pages = lay_out(entries, week)
    pictures = small_pictures(list({entry.path: None for entry in entries if entry.path}), TILE)
    drawn = [
        _draw_page(page, number, len(pages), len(entries), week, pictures) for number, page in enumerate(pages, start=1)
    ]
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


def digest_of(entries: Sequence[Entry], week: Week) -> str:
    """A digest of all that stands on the sheet, to tell whether it must be drawn again; a moved folder is no reason."""
    shown = [asdict(entry) | {"path": entry.path and PurePath(entry.path).name} for entry in entries]
    content = json.dumps([_DRAWING, week_words(week), shown], default=str)
    return hashlib.sha256(content.encode()).hexdigest()


def _draw_page(
    page: Page, number: int, pages: int, photos: int, week: Week, pictures: Mapping[str, Image.Image]
) -> Image.Image:
    sheet = Image.new("RGB", (PAGE_WIDTH, PAGE_HEIGHT), "white")
    pen = ImageDraw.Draw(sheet)
    right = PAGE_WIDTH - MARGIN
    if number == 1:
        _write(pen, (MARGIN, _TITLE_BASELINE), week_words(week), 42, _INK)
        _write(pen, (right, _TITLE_BASELINE), _counted(photos), 24, _GREY, anchor="rs")
        pen.line((MARGIN, _RULE, right, _RULE), fill=_LINE, width=2)
    elif pages > 1:
        _write(pen, (MARGIN, FOOT), week_words(week), 19, _GREY)
    if pages > 1:
        _write(pen, (right, FOOT), f"{number} of {pages}", 19, _GREY, anchor="rs")
    for heading in page.headings:
        _write(pen, (MARGIN, heading.baseline), heading.text, 27, _INK)
        _write(pen, (right, heading.baseline), heading.count, 19, _GREY, anchor="rs")
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


def _counted(photos: int) -> str:
    return f"{photos} {'photo' if photos == 1 else 'photos'}" if photos else "no photos"
