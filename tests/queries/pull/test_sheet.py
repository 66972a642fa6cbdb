"""The week sheet as it is drawn."""

import io
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from queries.made_files.values import FileState
from queries.originals import NoSource
from queries.photos import Photo
from queries.pull.manifest import PulledSheet
from queries.pull.plan import PlannedFile, PullPlan
from queries.pull.sheet import digest_of, draw_sheet
from queries.pull.sheet_entries import SheetContent, content_of, time_words
from queries.pull.sheet_file import sheet_action
from queries.pull.sheet_layout import lay_out
from queries.pull.sheet_values import FOOT, MARGIN, PAGE_HEIGHT, PAGE_WIDTH, Aside, Entry, Small
from queries.weeks import Week

MakePhoto = Callable[..., Photo]


def entry(path: Path | None, **facts: object) -> Entry:
    values = {"code": "3f9a2", "day": date(2026, 3, 30), "time": "09:15", "is_doubtful": False, "is_damaged": False}
    return Entry(**(values | {"width": 64, "height": 48, "path": path and str(path)} | facts))  # type: ignore[arg-type]


def pages_of(pdf: bytes) -> list[Image.Image]:
    """The page pictures, which lie in the PDF as JPEG streams."""
    streams = re.findall(rb"/DCTDecode.*?stream\r?\n(.*?)\r?\nendstream", pdf, re.DOTALL)
    return [Image.open(io.BytesIO(stream)).convert("RGB") for stream in streams]


def test_the_sheet_is_a_pdf_of_whole_pages(week: Week) -> None:
    """A PDF with a title, pages of 8.27 x 11 inches, and no date of making."""
    entries = [entry(None, code=f"{number:05d}") for number in range(30)]
    pdf = draw_sheet(SheetContent(tuple(entries)), week)
    assert pdf.startswith(b"%PDF-")
    assert pdf == draw_sheet(SheetContent(tuple(entries)), week)
    assert len(re.findall(rb"/Type /Page\b", pdf)) == len(pages_of(pdf)) == len(lay_out(entries, week)) == 2
    box = re.search(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", pdf)
    assert box
    assert [float(side) / 72 for side in box.groups()] == pytest.approx([8.27, 11], abs=0.01)


def test_the_picture_stands_upright_in_its_place(tmp_path: Path, week: Week) -> None:
    """A turned JPEG is shown upright, whole, where the layout says."""
    image = Image.new("RGB", (480, 640), (200, 30, 30))
    image.paste((30, 30, 200), (0, 0, 480, 320))  # stored with blue on top
    exif = Image.Exif()
    exif[0x0112] = 6  # to be turned by 90 degrees clockwise: blue is then on the right
    path = tmp_path / "turned.jpg"
    image.save(path, exif=exif, quality=95)
    shown = entry(path, width=640, height=480)
    (tile,) = lay_out([shown], week)[0].tiles
    (page,) = pages_of(draw_sheet(SheetContent((shown,)), week))
    assert page.size == (PAGE_WIDTH, PAGE_HEIGHT)
    middle = tile.y + tile.height // 2
    assert page.getpixel((tile.x + 8, middle)) == pytest.approx((200, 30, 30), abs=12)
    assert page.getpixel((tile.x + tile.width - 8, middle)) == pytest.approx((30, 30, 200), abs=12)


def test_title_headings_and_page_numbers_are_written(week: Week) -> None:
    """There is ink on the baselines of the title, of each heading, and of the page number where there are several."""
    entries = [entry(None, code=f"{number:05d}") for number in range(30)]
    pages = lay_out(entries, week)
    for number, (page, drawn) in enumerate(
        zip(pages, pages_of(draw_sheet(SheetContent(tuple(entries)), week)), strict=True)
    ):
        baselines = [heading.baseline for heading in page.headings] + [FOOT] + ([] if number else [150])
        for baseline in baselines:
            line = np.asarray(drawn.convert("L").crop((MARGIN, baseline - 12, PAGE_WIDTH - MARGIN, baseline)))
            assert line.min() < 160


@pytest.mark.parametrize("content", [None, b"no picture"])
def test_what_cannot_be_shown_has_a_grey_box_with_words(tmp_path: Path, week: Week, content: bytes | None) -> None:
    """A missing or broken picture keeps its place, in pale grey, with words in it."""
    path = tmp_path / "broken.jpg"
    if content:
        path.write_bytes(content)
    shown = entry(path if content else None, is_damaged=bool(content))
    (tile,) = lay_out([shown], week)[0].tiles
    (page,) = pages_of(draw_sheet(SheetContent((shown,)), week))
    box = np.asarray(page.crop((tile.x + 4, tile.y + 4, tile.x + tile.width - 4, tile.y + tile.height - 4)))
    assert np.median(box) == pytest.approx(240, abs=3)
    assert box.min() < 180


def test_a_doubtful_date_is_marked_in_colour(week: Week) -> None:
    """Below the picture of a doubtful photo something is not grey; below a sure one all is."""

    def colour_below(is_doubtful: bool) -> int:
        shown = entry(None, is_doubtful=is_doubtful)
        (tile,) = lay_out([shown], week)[0].tiles
        (page,) = pages_of(draw_sheet(SheetContent((shown,)), week))
        below = np.asarray(page.crop((tile.x, tile.y + tile.height + 4, tile.x + 247, tile.y + tile.height + 64)))
        return int(np.ptp(below.astype(int), axis=2).max())

    assert colour_below(False) < 12 < 60 < colour_below(True)


def test_the_digest_tells_when_to_draw_anew(week: Week) -> None:
    """It changes with what is shown, and not with the place of the folder."""
    first = entry(Path("/one/2026-03-30_0915_3f9a2.jpg"))
    assert digest_of(SheetContent((first,)), week) == digest_of(
        SheetContent((replace(first, path="/two/2026-03-30_0915_3f9a2.jpg"),)), week
    )
    for changed in (replace(first, time="10:15"), replace(first, is_doubtful=True), replace(first, path=None)):
        assert digest_of(SheetContent((first,)), week) != digest_of(SheetContent((changed,)), week)


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({}, "09:15"),
        ({"precision": "day"}, "day only"),
        ({"precision": "between", "taken": "2026-03-30"}, "about then"),
        ({"precision": "month"}, "month only"),
        ({"precision": "year"}, "year only"),
        ({"precision": "unknown", "taken": None}, "no date"),
    ],
)
def test_times_in_words(make_photo: MakePhoto, facts: dict[str, str | None], words: str) -> None:
    """The caption says as much of the time as is known."""
    assert time_words(make_photo(**facts)) == words


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({"taken": "2026-04-12T09:15:20"}, "12 Apr 2026"),
        ({"taken": "1996-08", "precision": "month"}, "1996-08"),
        ({"taken": None, "precision": "unknown"}, "no date"),
    ],
)
def test_a_photo_put_here_by_hand_says_when_it_was_taken(
    make_photo: MakePhoto, facts: dict[str, str | None], words: str
) -> None:
    """It has no day of this week, so its date stands in the place of the hour."""
    photo = make_photo(placed="2026-04-02", **facts)
    plan = PullPlan((PlannedFile(photo, "a.jpg", "keep", NoSource("a.jpg", "gone")),), (), is_estimate=False)
    (entry_,) = content_of(plan, (), (), Path("/w14"), lambda _: None).entries
    assert (entry_.day, entry_.time) == (None, words)


def test_a_day_in_two_zones_stands_in_the_order_it_was_lived(make_photo: MakePhoto) -> None:
    """14:00 at +09:00 comes before 10:00 at -05:00 of the same day, whatever the names sort by."""
    east = make_photo("/e.jpg", taken="2026-03-30T14:00:00", zone="+09:00")
    west = make_photo("/w.jpg", taken="2026-03-30T10:00:00", zone="-05:00")
    files = [PlannedFile(photo, photo.path, "keep", NoSource("a.jpg", "gone")) for photo in (west, east)]
    entries = content_of(
        PullPlan(tuple(files), (), is_estimate=False), (), (), Path("/w14"), lambda _: date(2026, 3, 30)
    ).entries
    assert [entry.time for entry in entries] == ["14:00", "10:00"]


RECORD = PulledSheet("week-sheet.pdf", "aa", 10, 7, "drawn")


@pytest.mark.parametrize(
    ("record", "state", "digest", "action"),
    [
        (None, None, "drawn", "draw"),
        (RECORD, None, "drawn", "draw"),
        (RECORD, FileState(10, 7), "drawn", "keep"),
        (RECORD, FileState(10, 8, sha256="aa"), "drawn", "keep"),
        (RECORD, FileState(10, 7), "else", "redraw"),
        (RECORD, FileState(10, 8, sha256="bb"), "else", "leave"),
        (RECORD, FileState(10, 7, is_plain=False), "else", "leave"),
        (None, FileState(10, 7), "drawn", "compare"),
    ],
)
def test_what_is_done_about_the_sheet(
    record: PulledSheet | None, state: FileState | None, digest: str, action: str
) -> None:
    """It is drawn when missing or outdated, and never over a file that is not the one we drew."""
    assert sheet_action(record, state, digest) == action


def test_small_pictures_lie_behind_their_keeper(tmp_path: Path, week: Week) -> None:
    """A print is drawn with its picture and its code, under the keeper and under the print before it."""
    colours = [(200, 30, 30), (30, 160, 30), (30, 30, 200), (220, 200, 30), (20, 20, 20)]
    for number, colour in enumerate(colours):
        Image.new("RGB", (640, 480), colour).save(tmp_path / f"{number}.png")
    behind = tuple(Small(f"0000{n}", 640, 480, str(tmp_path / f"{n}.png")) for n in range(1, 5))
    content = SheetContent((entry(tmp_path / "0.png", behind=behind),))
    (layout,) = lay_out(content.entries, week)
    (page,) = pages_of(draw_sheet(content, week))
    (tile,) = layout.tiles
    for number, place in enumerate(layout.prints, start=1):
        middle = (place.code_x + 20, place.y + place.height // 2)
        assert page.getpixel(middle) == pytest.approx(colours[number], abs=16)
        code = np.asarray(page.convert("L").crop((place.code_x, place.code_y - 11, place.code_x + 40, place.code_y)))
        assert code.min() < 120
    lower = [place for place in layout.prints if place.y > tile.y]
    assert lower
    assert lower[0].x < tile.x + tile.width
    assert page.getpixel((tile.x + tile.width - 6, lower[0].y + 30)) == pytest.approx(colours[0], abs=16)


def test_a_note_is_written_below_its_code(week: Week) -> None:
    """What stands behind no picture of the sheet says why in small grey letters; without a note nothing is there."""

    def ink_below(*note: str) -> int:
        content = SheetContent((), (Aside(date(2026, 3, 30), Small("3f9a2", 4, 3, None, note)),))
        (place,) = lay_out((), week, content.asides)[0].prints
        (page,) = pages_of(draw_sheet(content, week))
        below = page.convert("L").crop((place.code_x, place.code_y + 5, place.code_x + 100, place.code_y + 36))
        return int(np.asarray(below).min())

    assert ink_below("copy of 0a1b2", "2025-W52") < 170 < 240 < ink_below()
