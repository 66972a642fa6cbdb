"""The kitchen table: under the lamp in the evening, or with the morning coming in."""

from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..light import bloom, shafts
from ..outlines import box, down_to, ellipse, points, ridge, rounded
from ..paint import upright
from ..rooms import bokeh, light_pool, pendant, planks, wall, window
from ..tableware import candle, contact, fruit_bowl, mug, potted, teapot, vase
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    wall: Colour
    tile: Colour
    outside: list[Colour]
    table: Colour
    lamp: float
    light: float
    shade: Colour


MOODS = {
    "evening": Mood(
        tone("a8805c"), tone("c8b498"), tones("1a2444 3c4470 7c6480"), tone("9c6c44"), 1.0, 0.85, tone("2c6c6c")
    ),
    "late": Mood(
        tone("54505c"), tone("6c6c78"), tones("080c1c 10182c 1c2440"), tone("6c5040"), 0.85, 0.6, tone("b8482c")
    ),
    "midnight": Mood(
        tone("4c6058"), tone("7c8c7c"), tones("0c1424 18243c 2c3450"), tone("7c5844"), 0.9, 0.66, tone("d8b04c")
    ),
    "morning": Mood(
        tone("d8ccb4"), tone("a8c4c4"), tones("8cc0e4 c4dfe8 f6ecd8"), tone("c09468"), 0.0, 1.0, tone("e0dccc")
    ),
    "winter": Mood(
        tone("b0b4bc"), tone("94a8b8"), tones("a8b8cc c8d2de e6e8ec"), tone("a88464"), 0.35, 0.92, tone("c8a04c")
    ),
}
_CUPS = tones("c8543c 3c6c8c e8dcc4 4c7c64 d8a444")


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("kitchen")
    top = canvas.height * (0.6 + 0.06 * dice.random())
    lamp_x = canvas.width * (0.35 + 0.3 * dice.random() - view.lean * 0.8)
    wall(canvas, mood.wall, (lamp_x / canvas.width, 0.35), 0.5)
    _tiles(canvas, mood, top)
    left = bool(dice.random() < 0.5)
    _outlook(canvas, view, mood, left, top)
    _shelf(canvas, view, mood, not left)
    canvas.soften(canvas.unit * 0.0026)
    planks(canvas, view, top, mood.table, mood.light)
    if mood.lamp:
        light_pool(canvas, lamp_x, top + (canvas.height - top) * 0.4, canvas.unit * 0.75, 0.55 * mood.lamp)
    _setting(canvas, view, mood, top)
    if mood.lamp:
        pendant(canvas, lamp_x, canvas.height * (0.22 + 0.06 * dice.random()), canvas.unit * 0.3, mood.shade, mood.lamp)
    else:
        shafts(
            canvas,
            canvas.width * (-0.2 if left else 1.2),
            -canvas.height * 0.2,
            (1.0, 0.93, 0.76),
            0.4,
            view.dice("rays"),
        )
    bloom(canvas, 0.78, 0.4)


def _tiles(canvas: Canvas, mood: Mood, top: float) -> None:
    size = canvas.unit * 0.085
    canvas.shape(box(-9, top - size * 3, canvas.width + 9, top), mood.tile, 0.75)
    seams = [points((-9, top - size * n), (canvas.width + 9, top - size * n)) for n in range(4)]
    seams += [points((x, top - size * 3), (x, top)) for x in np.arange(0, canvas.width, size)]
    canvas.lines(seams, canvas.unit * 0.0025, shade(mood.wall, 0.8), 0.6)
    canvas.glow(canvas.width * 0.5, top - size * 1.5, canvas.width * 0.4, (1.0, 0.9, 0.75), 0.15 * mood.light, 0.4)


def _outlook(canvas: Canvas, view: View, mood: Mood, left: bool, top: float) -> None:
    dice = view.dice("outlook")
    a = canvas.width * ((0.06 if left else 0.66) + 0.04 * dice.random() - view.lean * 0.5)
    b, up, low = a + canvas.unit * 0.36, canvas.height * 0.1, top - canvas.unit * 0.16
    canvas.shape(box(a, up, b, low), upright(up, low, mood.outside))
    hill = ridge(view.dice("hill"), a, b, low - canvas.unit * 0.04, canvas.unit * 0.09, 5)
    canvas.shape(down_to(hill, low), mix(mood.outside[1], tone("3c4c5c"), 0.45))
    if mood.lamp > 0.5:
        bokeh(
            canvas,
            view,
            6,
            tones("ffc878 ffe0a8"),
            (a / canvas.width + 0.04, 0.38, b / canvas.width - 0.04, 0.48),
            0.008,
            0.8,
        )
    frame = mix((0.95, 0.94, 0.9), mood.wall, 0.35)
    window(canvas, a, up, b, low, shade(frame, mood.light), (2, 2))


def _shelf(canvas: Canvas, view: View, mood: Mood, left: bool) -> None:
    dice = view.dice("shelf")
    a = canvas.width * (0.05 if left else 0.6)
    b = a + canvas.width * 0.33
    for level in (0.2, 0.38):
        y = canvas.height * level
        canvas.shadow(box(a, y + 4, b, y + canvas.unit * 0.04), 0.3, canvas.unit * 0.012)
        canvas.shape(box(a, y, b, y + canvas.unit * 0.016), shade(mood.table, 0.8 * mood.light))
        x = a + canvas.unit * 0.05
        while x < b - canvas.unit * 0.05:
            colour = shade(_CUPS[int(dice.integers(5))], mood.light * 0.9)
            kind = dice.random()
            if kind < 0.4:
                mug(canvas, x, y, canvas.unit * 0.06, colour)
            elif kind < 0.75:
                height = canvas.unit * (0.08 + 0.05 * dice.random())
                canvas.shape(
                    rounded(x - canvas.unit * 0.024, y - height, x + canvas.unit * 0.024, y, 6), shade(colour, 0.85)
                )
                canvas.shape(
                    box(x - canvas.unit * 0.02, y - height - canvas.unit * 0.012, x + canvas.unit * 0.02, y - height),
                    shade(mood.table, 0.7),
                )
            else:
                potted(canvas, x, y, canvas.unit * 0.055, tone("b8683c"), shade(tone("6c9454"), mood.light), dice)
            x += canvas.unit * (0.075 + 0.04 * dice.random())


def _setting(canvas: Canvas, view: View, mood: Mood, top: float) -> None:
    dice = view.dice("setting")
    depth, unit, light = canvas.height - top, canvas.unit, mood.light
    order = dice.permutation(4)
    back = top + depth * 0.3
    spots = [canvas.width * (0.14 + 0.24 * n + 0.05 * dice.normal() - view.lean * 1.1) for n in order]
    if view.form == "flowers":
        vase(canvas, spots[0], back, unit * 0.26, shade(tone("e4e0d4"), light), tones("e8604c f4b844 f0a0b4"), dice)
    elif view.form == "candles":
        for step, height in ((-0.05, 0.15), (0.0, 0.2), (0.06, 0.12)):
            contact(canvas, spots[0] + step * unit, back, unit * 0.02)
            candle(canvas, spots[0] + step * unit, back, height * unit, shade((0.95, 0.9, 0.8), light), view.step, 0.22)
    else:
        _loaf(canvas, spots[0], back, unit * 0.26, light)
    fruit_bowl(canvas, spots[1], back + depth * 0.08, unit * 0.34, shade(_CUPS[view.seed % 5], light), dice)
    teapot(
        canvas,
        spots[2],
        back + depth * 0.14,
        unit * 0.19,
        shade(_CUPS[(view.seed + 2) % 5], light),
        bool(dice.random() < 0.5),
    )
    front = top + depth * 0.66
    for number in range(2):
        x = canvas.width * (0.28 + 0.42 * number + 0.07 * dice.normal() - view.lean * 1.8)
        mug(
            canvas,
            x,
            front + depth * 0.1 * dice.random(),
            unit * 0.16,
            shade(_CUPS[(view.seed + 1 + number) % 5], light * 1.02),
            bool(dice.random() < 0.5),
            view.step + number,
        )


def _loaf(canvas: Canvas, x: float, foot: float, size: float, light: float) -> None:
    contact(canvas, x, foot, size * 0.5)
    canvas.shape(
        rounded(x - size * 0.62, foot - size * 0.06, x + size * 0.62, foot + size * 0.02, 6),
        shade(tone("8c6440"), light),
    )
    crust = shade(tone("b87838"), light)
    canvas.shape(
        ellipse(x, foot - size * 0.22, size * 0.46, size * 0.2),
        upright(foot - size * 0.42, foot, [shade(crust, 1.35), crust, shade(crust, 0.55)]),
    )
    canvas.lines(
        [
            points((x + a * size, foot - size * 0.38), (x + (a + 0.08) * size, foot - size * 0.2))
            for a in (-0.25, -0.05, 0.15)
        ],
        size * 0.035,
        shade(tone("f0d0a0"), light),
        0.8,
        size * 0.012,
    )
