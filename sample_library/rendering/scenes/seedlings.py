"""Seedlings in pots on the sunny sill, the garden a blur behind."""

from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..light import bloom, shafts
from ..outlines import box, points
from ..paint import upright
from ..plants import sprig
from ..rooms import bokeh, dapple, planks, window
from ..tableware import contact, mug, pot
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    outside: list[Colour]
    dots: list[Colour]
    wood: Colour
    leaf: Colour
    sun: float


MOODS = {
    "sun": Mood(
        tones("b4d8e8 d8e4bc a4bc74"), tones("e8f0b0 b4d07c fff4cc 8cb464"), tone("d8b48c"), tone("84b848"), 0.6
    ),
    "dull": Mood(tones("b0bcc0 b8c0b0 8c9880"), tones("c8d0c4 a4b098 dcdcd0"), tone("b8a088"), tone("74a050"), 0.0),
    "evening": Mood(
        tones("e8b480 d89c78 7c7458"), tones("ffd08c ffb468 c89c64 f0e0a8"), tone("c08c64"), tone("94a844"), 0.8
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("seedlings")
    top = canvas.height * (0.66 + 0.06 * dice.random())
    canvas.fill(upright(0, top, mood.outside))
    bokeh(canvas, view, 44, mood.dots, (-0.05, 0.1, 1.05, 0.75), 0.07, 0.55)
    canvas.soften(canvas.unit * 0.008)
    bar = canvas.width * (0.3 + 0.4 * dice.random()) - view.lean * canvas.width * 0.6
    window(canvas, -99, -99, bar, top + 99, (0.95, 0.93, 0.88), (1, 1), 0.03)
    canvas.soften(canvas.unit * 0.0018)
    planks(canvas, view, top, mood.wood, 1.0, 3)
    left = dice.random() < 0.5
    if mood.sun:
        shafts(
            canvas,
            canvas.width * (-0.15 if left else 1.15),
            -canvas.height * 0.15,
            (1.0, 0.92, 0.66),
            mood.sun,
            view.dice("rays"),
        )
    back, front = top + (canvas.height - top) * 0.22, top + (canvas.height - top) * 0.62
    _row(canvas, view, mood, back, canvas.unit * 0.12, 0.9)
    _tray(canvas, view, mood, front, dice)
    if mood.sun:
        dapple(canvas, view, 0.22 * mood.sun, (1.0, 0.93, 0.7))
    bloom(canvas, 0.8, 0.45, 0.03)


def _row(canvas: Canvas, view: View, mood: Mood, foot: float, size: float, light: float) -> None:
    dice = view.dice("row")
    x = -size * dice.random() - view.lean * canvas.width
    clays = tones("b8643c a45a3c c07848 8c8c84 d0c4b0")
    while x < canvas.width + size:
        high = size * (0.85 + 0.4 * dice.random())
        for number in range(1 + int(dice.integers(3))):
            sprig(
                canvas,
                x + (number - 1) * high * 0.2,
                foot - high * 0.98,
                high * (0.8 + 1.1 * dice.random()),
                shade(mood.leaf, light * (0.85 + 0.3 * dice.random())),
                2 + int(dice.integers(2)),
                dice.normal() * 0.12 + 0.03 * view.step,
            )
        pot(canvas, x, foot, high, shade(clays[int(dice.integers(5))], light))
        x += high * (1.05 + 0.5 * dice.random())


def _tray(canvas: Canvas, view: View, mood: Mood, foot: float, dice: np.random.Generator) -> None:
    """A wooden tray of soil with a dense row of sprouts, a labelled stick, a mug."""
    unit = canvas.unit
    wide, high = unit * (0.5 + 0.12 * dice.random()), unit * 0.11
    x = canvas.width * (0.34 + 0.3 * dice.random() - view.lean * 1.6)
    contact(canvas, x, foot, wide * 0.95)
    canvas.shape(
        points(
            (x - wide, foot - high),
            (x + wide, foot - high),
            (x + wide * 0.94, foot - high * 1.4),
            (x - wide * 0.94, foot - high * 1.4),
        ),
        tone("4c3424"),
    )
    for number in range(19):
        place = x + wide * (-0.9 + 1.8 * (number + 0.5 * dice.random()) / 19)
        sprig(
            canvas,
            place,
            foot - high * (1.05 + 0.25 * dice.random()),
            unit * (0.06 + 0.09 * dice.random()),
            shade(mood.leaf, 0.95 + 0.35 * dice.random()),
            2,
            dice.normal() * 0.14,
        )
    wood = shade(mood.wood, 0.82)
    canvas.shape(
        box(x - wide, foot - high, x + wide, foot), upright(foot - high, foot, [shade(wood, 1.15), shade(wood, 0.7)])
    )
    canvas.lines(
        [points((x - wide, foot - high * 0.5), (x + wide, foot - high * 0.5))], unit * 0.003, shade(wood, 0.45), 0.7
    )
    for place in (-0.55, 0.4):
        stick = x + wide * place
        canvas.shape(
            points(
                (stick, foot - high * 2.1),
                (stick + unit * 0.028, foot - high * 2.1),
                (stick + unit * 0.024, foot - high),
                (stick + unit * 0.004, foot - high),
            ),
            mix((0.96, 0.93, 0.86), mood.outside[0], 0.15),
        )
    side = 1 if x < canvas.width / 2 else -1
    mug(
        canvas,
        x + side * (wide + unit * 0.16),
        foot + unit * 0.02,
        unit * 0.17,
        tones("5c84a0 e4dcc8 c8644c")[view.seed % 3],
        side < 0,
        view.step,
    )
