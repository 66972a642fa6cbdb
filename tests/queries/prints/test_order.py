"""Pieces as the prints of an order."""

from datetime import date

import pytest

from queries.cropping.values import WHOLE
from queries.cutting.values import Rect
from queries.print_settings import lab_of
from queries.prints.order import job_of, laid_out, ordered_of, sheets_of
from queries.prints.values import PhotoPart, PicturePiece
from queries.weeks import WeekRule

LAB = lab_of("6x4in", "300", "0in")
WEEK = WeekRule().week_of(date(2026, 3, 30))
IN = 25_400


def piece(pocket: str, width: float, height: float) -> PicturePiece:
    """A photo that fills a piece of so many inches; its key is the pocket's name."""
    sides = round(width * IN), round(height * IN)
    part = PhotoPart(pocket, WHOLE, Rect(0, 0, *sides), 0)
    return PicturePiece(f"{WEEK.name} {pocket}", WEEK, pocket, *sides, (part,), "white", "photo")


PIECES = [piece("L1", 6, 4), piece("L2", 3, 4), piece("L3", 3, 4), piece("R1", 3, 3)]


def test_prints_are_numbered_and_named_so_that_names_sort() -> None:
    """Two digits at the least, and as many as the last number has."""
    layout = laid_out(PIECES, LAB, "shrink")
    assert [sheet.name for sheet in sheets_of(layout, PIECES, 7)] == ["o07-01", "o07-02", "o07-03"]
    many = [piece(f"L{number}", 6, 4) for number in range(1, 121)]
    names = [sheet.file for sheet in sheets_of(laid_out(many, LAB, "shrink"), many, 112)]
    assert (names[0], names[-1]) == ("o112-001.jpg", "o112-120.jpg")
    assert names == sorted(names)


def test_pieces_stand_exact_to_the_pixel() -> None:
    """3x4 is 900 x 1200 pixels, 3x3 is 900 x 900 (common practice), and only their own photos are handed over."""
    sheets = sheets_of(laid_out(PIECES, LAB, "shrink"), PIECES, 1)
    jobs = [job_of(sheet, LAB, {one.pocket: f"/{one.pocket}.jpg" for one in PIECES}) for sheet in sheets]
    sizes = {
        placed.piece.pocket: (right - left, bottom - top)
        for job in jobs
        for placed in job.placed
        for left, top, right, bottom in [placed.box]
    }
    assert sizes == {"L1": (1800, 1200), "L2": (900, 1200), "L3": (900, 1200), "R1": (900, 900)}
    for job in jobs:
        assert dict(job.sources) == {placed.piece.pocket: f"/{placed.piece.pocket}.jpg" for placed in job.placed}
    assert {(job.width, job.height, job.dpi) for job in jobs} == {(1800, 1200, 300)}


def test_a_shrunk_piece_is_told_by_the_mark_of_its_full_size() -> None:
    """So that it is known again when the trim changes; its photo's window has the new shape."""
    lab = lab_of("6x4in", "300", "1/8in")
    sheets = sheets_of(laid_out(PIECES[1:3], lab, "shrink"), PIECES[1:3], 1)
    shrunk = sheets[0].pieces["2026-W14 L2"]
    assert isinstance(shrunk, PicturePiece)
    assert shrunk.width < 3 * IN
    window = shrunk.parts[0].window
    assert window.width / window.height == pytest.approx((shrunk.width / 3) / (shrunk.height / 4), rel=1e-4)
    ordered = ordered_of(sheets, {one.name: one.mark for one in PIECES})
    assert [one.mark for one in ordered[0].pieces] == [PIECES[1].mark, PIECES[2].mark]
    assert ordered[0].pieces[0].keys == ("L2",)
    assert shrunk.mark != PIECES[1].mark
