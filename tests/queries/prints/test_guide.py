"""The cutting guide, looked at by a second program: its text by `pdftotext`, its measures by `pdftoppm`."""

import io
import re
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from queries.cutting.laying import lay_out
from queries.cutting.steps import Unit
from queries.cutting.values import Paper, Piece, Tight
from queries.prints.guide import GuidePrint, guide_pdf
from tests.queries.cutting.made_orders import INCH, SIX_BY_FOUR, TRIMMED, pieces_of

A4, LETTER = (210_000, 297_000), (215_900, 279_400)
poppler = pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler-utils is not installed")


def guide_prints(
    pieces: Sequence[Piece], paper: Paper = SIX_BY_FOUR, tight: Tight = "shrink", *, picture: bytes | None = None
) -> list[GuidePrint]:
    names = {piece.name: f"L{at}\n30 Mar - 5 Apr 2026" for at, piece in enumerate(pieces, start=1)}
    return [
        GuidePrint(f"o12-{number:02}.jpg", printed, {laid.piece: names[laid.piece] for laid in printed.laid}, picture)
        for number, printed in enumerate(lay_out(pieces, paper, tight=tight).prints, start=1)
    ]


def small(colour: str, size: tuple[int, int] = (90, 60)) -> bytes:
    """A print's small picture."""
    out = io.BytesIO()
    Image.new("RGB", size, colour).save(out, "PNG")
    return out.getvalue()


def pages_of(tmp_path: Path, pdf: bytes, dpi: int = 72) -> list[NDArray[np.uint8]]:
    (tmp_path / "guide.pdf").write_bytes(pdf)
    subprocess.run(["pdftoppm", "-r", str(dpi), "-png", "guide.pdf", "page"], cwd=tmp_path, check=True)
    return [np.asarray(Image.open(path).convert("RGB")) for path in sorted(tmp_path.glob("page-*.png"))]


def text_of(tmp_path: Path, pdf: bytes) -> str:
    (tmp_path / "guide.pdf").write_bytes(pdf)
    done = subprocess.run(["pdftotext", "-layout", "guide.pdf", "-"], cwd=tmp_path, check=True, capture_output=True)
    return re.sub(r"\s+", " ", done.stdout.decode())


def guide(prints: Sequence[GuidePrint], home: tuple[int, int] = A4, unit: Unit = "in") -> bytes:
    return guide_pdf(prints, "Order 12", home, unit, ["2 photos will look soft."])


def runs(dark: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Where runs of True begin, and how long they are."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], dark.astype(np.int8), [0]])))
    return [(int(start), int(end - start)) for start, end in zip(edges[::2], edges[1::2], strict=True)]


@poppler
def test_three_inches_are_900_pixels_at_300_dpi(tmp_path: Path) -> None:
    """The bar on the first page, and a 3-inch piece in its drawing, from the print's edge to the cut."""
    first, second = pages_of(tmp_path, guide(guide_prints(pieces_of((3, 4), (3, 4)))), 300)
    bars = [length for row in (first.mean(axis=2) < 120) for _, length in runs(row) if 880 < length < 920]
    assert bars
    assert max(abs(length - 900) for length in bars) <= 4  # the bar's ends are lines of their own
    edge = (second.max(axis=2).astype(int) - second.min(axis=2) < 30) & (second.mean(axis=2) < 170)
    red = (second[:, :, 0] > 150) & (second[:, :, 1] < 100)
    cut = int(np.median(np.flatnonzero(red.sum(axis=0) > 1000)))
    columns = np.flatnonzero(edge.sum(axis=0) > 1100)
    assert abs((cut - columns.min()) - 900) <= 2
    assert abs((columns.max() - cut) - 900) <= 2


@poppler
def test_first_page_tells_what_there_is(tmp_path: Path) -> None:
    """Heading, numbers, weeks, notes, how to cut, and each print with its pieces."""
    told = text_of(tmp_path, guide(guide_prints(pieces_of(*[(3, 4)] * 3, (6, 4)))))
    for words in (
        "Order 12", "3 prints, 4 pieces, 2 cuts", "Weeks: 30 Mar - 5 Apr 2026", "2 photos will look soft.",
        "actual size (100 %)", "o12-01.jpg 30 Mar - 5 Apr 2026: L1, L2", "the bar below is 3 in long",
        "Cut down, 3 in from the left edge of the print. Left piece: to L1. Right piece: to L2.",
        "No cut: the whole print goes to L4.",
    ):  # fmt: skip
        assert words in told


@poppler
def test_guide_in_millimetres(tmp_path: Path) -> None:
    """Whose paper was told in millimetres reads millimetres everywhere."""
    pieces = [Piece("a", 76_000, 102_000), Piece("b", 50_000, 50_000)]
    told = text_of(tmp_path, guide(guide_prints(pieces, Paper(152_000, 102_000)), unit="mm"))
    assert "Cut down, 126 mm from the left edge" in told
    assert "the bar below is 80 mm long" in told
    assert " in from" not in told


@poppler
def test_what_the_lab_may_take_is_told(tmp_path: Path) -> None:
    """Of a piece that fills the print, and of pieces that were shrunk for it."""
    told = text_of(tmp_path, guide(guide_prints(pieces_of((6, 4), (3, 4), (3, 4)), TRIMMED)))
    assert "The lab may take up to 1/16 in at the left, top and bottom and 1/8 in at the right of each." in told
    assert (
        "Its pieces are 3.1 % narrower and 3.1 % shorter than planned, so that all of them stays on the print." in told
    )


@poppler
def test_turned_pieces_show_their_top(tmp_path: Path) -> None:
    """A 4x6 on a 6x4 lies on its side."""
    assert "top →" in text_of(tmp_path, guide(guide_prints(pieces_of((4, 6)))))
    assert "top →" not in text_of(tmp_path, guide(guide_prints(pieces_of((6, 4)))))


@poppler
@pytest.mark.parametrize("home", [A4, LETTER], ids=["A4", "letter"])
def test_two_prints_of_6x4_stand_on_a_page(tmp_path: Path, home: tuple[int, int]) -> None:
    """At actual size, on both usual papers; the first page has the words."""
    pages = pages_of(tmp_path, guide(guide_prints(pieces_of(*[(3, 4)] * 8)), home))
    assert len(pages) == 3


@poppler
def test_prints_with_many_cuts_are_drawn_smaller_so_that_two_stand_on_a_page(tmp_path: Path) -> None:
    """On letter paper two prints of four cuts each have no room for each other at actual size."""
    pdf = guide(guide_prints(pieces_of((5.75, 3.75), (5.75, 3.75)), TRIMMED), LETTER)
    assert text_of(tmp_path, pdf).count("1 piece, 4 cuts, drawn at 3/4 of its size") == 2
    assert len(pages_of(tmp_path, pdf)) == 2


@poppler
@pytest.mark.parametrize("home", [A4, LETTER], ids=["A4", "letter"])
def test_prints_that_are_not_cut_stand_three_in_a_row(tmp_path: Path, home: tuple[int, int]) -> None:
    """Twelve on a page, drawn small, each with its file and its pocket."""
    pdf = guide(guide_prints(pieces_of(*[(6, 4)] * 12)), home)
    told = text_of(tmp_path, pdf)
    assert len(pages_of(tmp_path, pdf)) == 2
    assert "12 prints without a cut Drawn at 1/3 of the size." in told
    for number in range(1, 13):
        assert f"No cut: the whole print goes to L{number}." in told
        assert told.count(f"o12-{number:02}.jpg") == 2  # in the table and at the print


@poppler
def test_prints_without_a_cut_come_last(tmp_path: Path) -> None:
    """The work first, in the order of the files; the table on the first page says which need none."""
    prints = guide_prints(pieces_of((6, 4), (3, 4), (6, 4), (3, 3)))
    assert [bool(item.layout.cuts) for item in prints] != [True, False, False]
    _, drawn = text_of(tmp_path, guide(prints)).split("page 1")
    for item in prints:
        assert (drawn.index(item.file) > drawn.index("2 prints without a cut")) != bool(item.layout.cuts)
    assert text_of(tmp_path, guide(prints)).count("(no cut)") == 2


@poppler
def test_largest_prints_do_not_run_into_each_other(tmp_path: Path) -> None:
    """Posters of 44 inches without a cut: white stands between the columns, and nothing leaves the page."""
    black = small("black", (40, 40))
    pages = pages_of(
        tmp_path, guide(guide_prints(pieces_of(*[(44, 44)] * 3), Paper(44 * INCH, 44 * INCH), picture=black))
    )
    drawn = (pages[1].max(axis=2) < 200)[90:200]
    assert len([length for _, length in runs(drawn.sum(axis=0) > 20) if length > 50]) == 3


@poppler
def test_large_paper_is_drawn_smaller_and_says_so(tmp_path: Path) -> None:
    """A print of 12x12 inches does not fit the home paper."""
    told = text_of(tmp_path, guide(guide_prints(pieces_of(*[(6, 4)] * 6), Paper(12 * INCH, 12 * INCH))))
    assert "drawn at 1/2 of its size" in told
    assert "6 pieces, 5 cuts" in told


@poppler
def test_nothing_stands_in_the_margins(tmp_path: Path) -> None:
    """Home printers leave 6 mm or so white (common practice): nothing is drawn there, however long the order is."""
    sizes = [(3, 4), (2, 2), (3, 3), (6, 4), (2, 2), (4, 4)] * 10
    pages = pages_of(tmp_path, guide(guide_prints(pieces_of(*sizes), TRIMMED, "apart"), LETTER))
    assert len(pages) > 15
    for page in pages:
        inked = page.min(axis=2) < 250
        inner = inked[17:-17, 17:-17]
        assert inked.sum() == inner.sum() > 0


def test_same_guide_twice_is_the_same_bytes() -> None:
    """No clock and no chance in it, with pictures too."""
    prints = guide_prints(pieces_of((3, 4), (3, 3)), picture=small("navy"))
    assert guide(prints) == guide(prints)


@poppler
def test_picture_is_pale_below_the_lines(tmp_path: Path) -> None:
    """So that lines and names are seen on a dark photo too."""
    dark = guide_prints(pieces_of((3, 4), (3, 3)), picture=small("black"))
    page = pages_of(tmp_path, guide(dark))[1]
    assert (page.mean(axis=2) < 100).mean() < 0.02
    assert ((page.mean(axis=2) > 110) & (page.mean(axis=2) < 145)).mean() > 0.1
