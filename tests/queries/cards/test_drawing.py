"""A card as pixels: its size, its colours, lines as long as they were measured."""

import numpy as np
import pytest
from PIL import Image

from queries.cards.drawing import COLOURS, draw_card
from queries.cards.fonts import measure
from queries.cards.values import Card, CardLine, CardRule
from queries.lengths import UM_PER_INCH as INCH


def dark(image: Image.Image) -> tuple[int, int, int, int]:
    """The box of what is drawn."""
    box = image.convert("L").point(lambda value: 255 if value < 200 else 0).getbbox()
    assert box is not None
    return box


@pytest.mark.parametrize("dpi", [100, 300, 600])
def test_a_line_is_as_long_as_it_was_measured(dpi: int) -> None:
    """From the left of an H to the right of an H, their side bearings aside."""
    text = "H" + "harbour at noon " * 3 + "H"
    card = Card(6 * INCH, INCH, 0, (CardLine(text, INCH // 2, INCH // 2, 12),))
    left, _, right, bottom = dark(draw_card(card, 6 * dpi, dpi))
    bearings = 2 * measure("H", 12, False) * 0.05
    assert (right - left) / dpi == pytest.approx((measure(text, 12, False) - bearings) / INCH, abs=2 / dpi + 0.01)
    assert bottom == pytest.approx(dpi / 2, abs=1)


def test_letters_stand_apart_as_told() -> None:
    """Each letter by its spread."""
    lines = [CardLine("HHHHH", 0, INCH // 2, 12, spread=spread) for spread in (0, 500)]
    near, wide = (dark(draw_card(Card(2 * INCH, INCH, 0, (line,)), 600, 300)) for line in lines)
    assert wide[2] - near[2] == pytest.approx(4 * 500 * 300 / INCH, abs=1)


def test_a_rule_lies_to_the_pixel() -> None:
    """And is never thinner than one."""
    image = draw_card(Card(INCH, INCH, 0, (), (CardRule(INCH // 4, INCH // 2, INCH // 2, 10, "accent"),)), 300, 300)
    assert dark(image) == (75, 150, 225, 151)
    assert image.getpixel((100, 150)) == COLOURS["accent"]


def test_nothing_else_is_drawn() -> None:
    """White paper, RGB, in the pixels asked for."""
    image = draw_card(Card(3 * INCH, 4 * INCH, 0), 901, 1203)
    assert (image.mode, image.size) == ("RGB", (901, 1203))
    assert np.asarray(image).min() == 255


def test_ink_is_read_on_white() -> None:
    """Words have a contrast of at least 7 to 1 and the accent of 4.5 to 1 (WCAG 2.2, success criteria 1.4.6, 1.4.3)."""

    def luminance(colour: tuple[int, int, int]) -> float:
        parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (part / 255 for part in colour)]
        return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]

    assert 1.05 / (luminance(COLOURS["ink"]) + 0.05) >= 7
    assert 1.05 / (luminance(COLOURS["accent"]) + 0.05) >= 4.5
