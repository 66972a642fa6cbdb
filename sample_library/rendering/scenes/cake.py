"""A birthday cake in a dim room: candles burning, or just blown out."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..light import bloom
from ..outlines import Points, box, ellipse, points, smooth
from ..paint import sideways, upright
from ..rooms import bokeh, light_pool, planks
from ..tableware import apple, candle, contact, mug, vapour
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    room: list[Colour]
    icing: Colour
    sponge: Colour
    table: Colour
    dots: list[Colour]


MOODS = {
    "berry": Mood(
        tones("2c1c30 4c2c3c 5c3440"),
        tone("f4d8dc"),
        tone("d88c9c"),
        tone("6c4434"),
        tones("ffb060 ff7c6c ffd890 c87cb0"),
    ),
    "lemon": Mood(
        tones("1c2c34 2c4448 3c5450"),
        tone("fbeec0"),
        tone("f0c868"),
        tone("7c5838"),
        tones("8cd0c4 ffe098 ffb870 a0d890"),
    ),
    "cocoa": Mood(
        tones("241820 3c2428 4c3028"), tone("6c4030"), tone("8c5c44"), tone("5c4438"), tones("ffc070 ff9c50 ffe0a8")
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("cake")
    burning = view.form != "out"
    top = canvas.height * (0.6 + 0.05 * dice.random())
    canvas.fill(upright(0, top, mood.room))
    bokeh(canvas, view, 26, mood.dots, (0.0, 0.05, 1.0, 0.55), 0.045, 0.5 if burning else 0.75)
    _garland(canvas)
    canvas.soften(canvas.unit * 0.006)
    planks(canvas, view, top, mood.table, 0.72 if burning else 0.85)
    x = canvas.width * (0.44 + 0.12 * dice.random() - view.lean)
    foot = top + (canvas.height - top) * (0.5 + 0.08 * dice.random())
    light_pool(canvas, x, foot, canvas.unit * 0.85, 0.5 if burning else 0.3)
    size = canvas.unit * (0.56 + 0.08 * dice.random())
    _beside(canvas, view, mood, x, foot, size)
    crown = _cake(canvas, mood, x, foot, size, dice)
    _candles(canvas, view, x, crown, size, 5 + view.seed % 5, burning)
    bloom(canvas, 0.72, 0.5, 0.03)


def _garland(canvas: Canvas) -> None:
    line = smooth(
        [
            (-9, canvas.height * 0.1),
            (canvas.width * 0.5, canvas.height * 0.2),
            (canvas.width + 9, canvas.height * 0.08),
        ],
        False,
        12,
    )
    flags = tones("c8503c e8b048 4c8c84 e8d8c0 8c5c8c")
    for number in range(0, len(line) - 2, 2):
        (ax, ay), (bx, by) = line[number], line[number + 2]
        canvas.shape(
            points((ax + 4, ay), (bx - 4, by), ((ax + bx) / 2, (ay + by) / 2 + canvas.unit * 0.085)),
            shade(flags[number // 2 % 5], 0.6),
        )


def _beside(canvas: Canvas, view: View, mood: Mood, x: float, foot: float, size: float) -> None:
    dice = view.dice("beside")
    side = 1 if dice.random() < 0.5 else -1
    mug(canvas, x + side * size * 0.78, foot - size * 0.06, size * 0.28, shade(mood.sponge, 0.75), side < 0)
    gift = x - side * size * 0.86
    paper, ribbon = shade(mood.dots[0], 0.62), mix(mood.icing, (1, 1, 1), 0.3)
    wide, high = size * 0.2, size * 0.3
    contact(canvas, gift, foot - size * 0.1, wide)
    canvas.shape(
        box(gift - wide, foot - size * 0.1 - high, gift + wide, foot - size * 0.1),
        sideways(
            gift - wide,
            gift + wide,
            [shade(paper, 0.8), shade(paper, 1.1)] if side > 0 else [shade(paper, 1.1), shade(paper, 0.7)],
        ),
    )
    canvas.shape(
        box(gift - wide * 0.14, foot - size * 0.1 - high, gift + wide * 0.14, foot - size * 0.1), shade(ribbon, 0.8)
    )
    for way in (-1, 1):
        bow = smooth(
            [
                (gift, foot - size * 0.1 - high),
                (gift + way * size * 0.1, foot - size * 0.19 - high),
                (gift + way * size * 0.15, foot - size * 0.12 - high),
            ],
            True,
            6,
        )
        canvas.shape(bow, shade(ribbon, 0.95 if way < 0 else 0.75))


def _cake(canvas: Canvas, mood: Mood, x: float, foot: float, size: float, dice: np.random.Generator) -> float:
    """Stand and cake; gives back the level of its top."""
    half, tall = size * 0.46, size * 0.34
    contact(canvas, x, foot, size * 0.6)
    plate = mix((0.92, 0.9, 0.86), mood.room[2], 0.2)
    canvas.shape(
        ellipse(x, foot - size * 0.02, size * 0.6, size * 0.095),
        sideways(x - size * 0.6, x + size * 0.6, [shade(plate, 0.75), plate, shade(plate, 0.6)]),
    )
    canvas.shape(ellipse(x, foot - size * 0.035, size * 0.54, size * 0.08), shade(plate, 1.04))
    base, top = foot - size * 0.05, foot - size * 0.05 - tall
    body = np.concatenate(
        [points((x - half, top)), ellipse(x, base, half, size * 0.075, count=60)[30:0:-1], points((x + half, top))]
    )
    canvas.shape(
        body,
        sideways(
            x - half,
            x + half,
            [shade(mood.sponge, 0.62), shade(mood.sponge, 1.12), shade(mood.sponge, 0.95), shade(mood.sponge, 0.5)],
        ),
    )
    for share in (0.36, 0.7):
        level = top + tall * share
        layer = ellipse(x, level, half, size * 0.075, count=60)[2:29]
        canvas.lines([layer], size * 0.03, shade(mood.icing, 0.86), 0.9)
    _icing(canvas, mood, x, top, half, size, dice)
    pearls: Points = ellipse(x, base + size * 0.004, half * 1.0, size * 0.078, count=84)[2:41]
    canvas.dabs(pearls, size * 0.02, shade(mood.icing, 0.92))
    canvas.dabs(pearls - (size * 0.005, size * 0.006), size * 0.009, mix(mood.icing, (1, 1, 1), 0.5))
    for number in range(12):
        angle = 2 * math.pi * (number + 0.5) / 12
        apple(
            canvas,
            x + math.cos(angle) * half * 0.84,
            top - size * 0.02 + math.sin(angle) * size * 0.058,
            size * 0.032,
            tones("c8283c 8c1c44 d84838")[number % 3],
        )
    return top


def _icing(
    canvas: Canvas, mood: Mood, x: float, top: float, half: float, size: float, dice: np.random.Generator
) -> None:
    rim = ellipse(x, top, half * 1.02, size * 0.078, count=60)
    drips = []
    for number in range(15):
        at = rim[1 + number * 2]
        long = size * (0.04 + 0.1 * dice.random())
        drips.append(
            smooth(
                [
                    (at[0] - size * 0.034, at[1] - size * 0.01),
                    (at[0] - size * 0.022, at[1] + long * 0.7),
                    (at[0], at[1] + long),
                    (at[0] + size * 0.022, at[1] + long * 0.7),
                    (at[0] + size * 0.034, at[1] - size * 0.01),
                ],
                True,
                5,
            )
        )
    canvas.shapes(
        drips, sideways(x - half, x + half, [shade(mood.icing, 0.72), shade(mood.icing, 1.03), shade(mood.icing, 0.66)])
    )
    canvas.shape(
        rim, sideways(x - half, x + half, [shade(mood.icing, 0.85), shade(mood.icing, 1.06), shade(mood.icing, 0.82)])
    )


def _candles(canvas: Canvas, view: View, x: float, top: float, size: float, count: int, burning: bool) -> None:
    colours = tones("f0f0e8 e86c5c 6cb4c4 f0c04c 9c7cc0")
    order = sorted(range(count), key=lambda number: math.sin(2 * math.pi * number / count))
    for number in order:
        angle = 2 * math.pi * number / count
        cx, cy = x + math.cos(angle) * size * 0.28, top - size * 0.005 + math.sin(angle) * size * 0.045
        candle(canvas, cx, cy, size * 0.17, colours[number % 5], view.step + number if burning else None, 0.13)
        if not burning:
            vapour(canvas, cx, cy - size * 0.18, size * 0.22, view.step + number)
