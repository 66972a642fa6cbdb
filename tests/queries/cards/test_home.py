"""The cards for the home printer, read back by another program: actual size, every word as text, the font inside."""

import shutil
import subprocess
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from queries.cards.home import cards_pdf
from queries.cards.making import cards_for
from queries.cards.values import NamedCard, WeekWords
from queries.lengths import UM_PER_INCH as INCH

A4 = (210_000, 297_000)
WORDS = WeekWords(
    "30 Mar – 5 Apr 2026",
    "week 14",
    (
        ("", "A slow week by the water. The swing bridge stuck twice, and we were on the wrong side of it."),
        ("Wednesday", "Grandmother’s scones — “thirteen,” said Ida. Žluťoučký kůň, Καλημέρα, Доброе утро!"),
        ("Sunday", "The whole harbour turned the colour of apricots. " * 8),
    ),
)
needs_poppler = pytest.mark.skipif(not shutil.which("pdftoppm"), reason="poppler-utils is not installed")


def named(size: tuple[int, int]) -> list[NamedCard]:
    cards = cards_for(WORDS, [(size[0] * INCH, size[1] * INCH)] * 4)
    return [NamedCard(f"2026-W14 R{number}", card) for number, card in enumerate(cards, 1)]


def marks_along(page: np.ndarray, axis: int) -> list[int]:
    """Where the dark lines of at least a millimetre lie that are crossed along an axis, in pixels at 300 dpi."""
    runs = (page < 160).sum(axis=axis)
    found = [int(place) for place in np.flatnonzero(runs >= 30)]
    return [place for place in found if place - 1 not in found]


@needs_poppler
def test_a_three_inch_edge_is_900_pixels(tmp_path: Path) -> None:
    """Measured on the page at 300 dpi, between the cutting marks, both ways."""
    path = tmp_path / "cards.pdf"
    path.write_bytes(cards_pdf(named((3, 4))[:1], A4))
    done = subprocess.run(["pdftoppm", "-r", "300", "-gray", "-png", path], check=True, capture_output=True)
    page = np.asarray(Image.open(BytesIO(done.stdout)).convert("L"))
    assert page.shape[::-1] == pytest.approx((2480, 3508), abs=1)
    top, left = 14_000 * 300 // INCH, 14_000 * 300 // INCH
    upper = marks_along(page[top - 45 : top - 12], 0)
    aside = marks_along(page[:, left - 45 : left - 12], 1)
    assert upper[-1] - upper[0] == pytest.approx(900, abs=1)
    assert aside[-1] - aside[0] == pytest.approx(1200, abs=1)


@needs_poppler
@pytest.mark.parametrize("size", [(3, 4), (4, 3), (6, 4)])
def test_every_word_and_name_is_found_as_text(tmp_path: Path, size: tuple[int, int]) -> None:
    """By pdftotext, also on cards that are turned."""
    path = tmp_path / "cards.pdf"
    cards = named(size)
    path.write_bytes(cards_pdf(cards, A4))
    read = subprocess.run(["pdftotext", "-raw", path, "-"], check=True, capture_output=True, text=True).stdout.split()
    said = " ".join(line.text for card in cards for line in card.card.lines)
    assert set(said.split()) <= set(read)
    for card in cards:
        assert card.name.split()[1] in read


@needs_poppler
def test_the_fonts_go_along(tmp_path: Path) -> None:
    """All fonts named are embedded, as subsets."""
    path = tmp_path / "cards.pdf"
    path.write_bytes(cards_pdf(named((3, 4)), A4))
    rows = subprocess.run(["pdffonts", path], check=True, capture_output=True, text=True).stdout.splitlines()[2:]
    assert len(rows) == 2
    assert all(row.split()[-5:-2] == ["yes", "yes", "yes"] for row in rows)


def test_the_same_cards_give_the_same_bytes() -> None:
    """No clock and no chance in the file; it asks to be printed in its actual size."""
    first, second = (cards_pdf(named((3, 4)), A4) for _ in range(2))
    assert first == second
    assert first.startswith(b"%PDF-")
    assert b"/PrintScaling /None" in first
