"""The ferry: seen at sea, coming in, or from its own deck."""

import math
from dataclasses import dataclass

import numpy as np

from ..boats import gull
from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..light import bloom, haze
from ..noise import ease, ground
from ..outlines import box, down_to, ellipse, placed, points, ridge, rounded
from ..paint import sideways, upright
from ..sky import clouds, sky, sun
from ..view import View
from ..water import glitter, mirror_thing, sea


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    lit: Colour
    dark: Colour
    sea: list[Colour]
    land: Colour
    sun: Colour | None = None
    cover: float = 0.55
    swell: float = 0.12
    lamps: float = 0.0
    mist: float = 0.0


MOODS = {
    "clear": Mood(
        tones("3a86c4 7cb8de c4e0ea eef2ea"),
        tone("ffffff"),
        tone("b4c8dc"),
        tones("7cb4c8 3a7c9c 235a7c"),
        tone("6c8c94"),
        None,
        0.5,
        0.13,
    ),
    "sunset": Mood(
        tones("30487c 86689a e88468 ffc070"),
        tone("ffb080"),
        tone("6c5a84"),
        tones("f0a070 7c6484 33406a"),
        tone("54506e"),
        tone("ffb860"),
        0.5,
        0.14,
        0.5,
    ),
    "grey": Mood(
        tones("74848f 98a6ae c0c8ca dcdeda"),
        tone("eceeec"),
        tone("808e98"),
        tones("9aaab0 5c7680 3c5662"),
        tone("7c8c94"),
        None,
        0.8,
        0.2,
        0.3,
        0.35,
    ),
    "winter": Mood(
        tones("7c9cc4 acc4dc dcdfe4 f8e0cc"),
        tone("fff0e4"),
        tone("acb8cc"),
        tones("c8ccd4 7c94ac 48688a"),
        tone("9cacc0"),
        tone("fff0d4"),
        0.4,
        0.1,
    ),
    "summer": Mood(
        tones("2c7ccc 68b4e4 b0dcec e8f4ec"),
        tone("ffffff"),
        tone("c4d8e4"),
        tones("58b4c4 2c84a8 1c5c8c"),
        tone("5c8c6c"),
        None,
        0.35,
        0.12,
    ),
}
_FUNNELS = tones("c83c34 e8a030 2c7c74")


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("ferry")
    line = canvas.height * (0.42 + 0.16 * dice.random())
    side = 0.15 + 0.7 * dice.random()
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, mood.lit, mood.dark, mood.cover, 0.5 + 0.5 * dice.random(), (side * 2 - 1, 0.7))
    if mood.sun:
        sun(
            canvas, side * canvas.width, line - canvas.unit * (0.06 + 0.1 * dice.random()), canvas.unit * 0.02, mood.sun
        )
    for depth, far in ((0.07, 0.65), (0.04, 0.4)):
        coast = ridge(view.dice(f"coast{depth}"), -20, canvas.width + 20, line, canvas.unit * depth, 12)
        canvas.shape(down_to(coast, line + 2), mix(mood.land, mood.sky[-1], far))
    sea(canvas, view, line, mood.sea, mood.swell, 0.11, 0.5 if view.mood == "grey" else 0.15)
    if mood.sun:
        glitter(canvas, view, line, side * canvas.width, canvas.unit * 0.11, mix(mood.sun, (1, 1, 0.9), 0.3))
    if view.form == "deck":
        _deck(canvas, view, mood, line)
    else:
        _ship(canvas, view, mood, line, dice)
    _gulls(canvas, view, line)
    if mood.mist:
        haze(canvas, line - canvas.unit * 0.3, line + canvas.unit * 0.2, mood.sky[-1], mood.mist)
    bloom(canvas, 0.8, 0.35)


def _ship(canvas: Canvas, view: View, mood: Mood, line: float, dice: np.random.Generator) -> None:
    near = dice.random()
    size = canvas.unit * (0.42 + 0.42 * near)
    flip = bool(dice.random() < 0.5)
    ahead = -1 if flip else 1
    x = canvas.width * (0.3 + 0.4 * dice.random() - view.lean) + ahead * view.step * canvas.unit * 0.003
    y = line + (canvas.height - line) * (0.1 + 0.22 * near) + math.sin(view.step) * size * 0.004
    funnel = _FUNNELS[view.seed % 3]
    before = canvas.rgb.copy()
    _smoke(canvas, view, x - ahead * size * 0.2, y - size * 0.42, size, -ahead)
    _hull(canvas, x, y, size, flip, funnel, mood)
    mirror_thing(canvas, view, before, y + size * 0.012, mood.sea[1], 0.45, 1.8)
    _bow_wave(canvas, view, x, y, size, ahead)


def _hull(canvas: Canvas, x: float, y: float, size: float, flip: bool, funnel: Colour, mood: Mood) -> None:
    def put(*pairs: tuple[float, float]) -> np.ndarray:
        return placed(pairs, x, y, size, flip)

    white = mix((0.96, 0.96, 0.94), mood.sky[-1], 0.25)
    dark = mix(tone("1f3a5c"), mood.sea[-1], 0.25)
    lamp = mix(tone("3c4c5c"), (1.0, 0.82, 0.5), mood.lamps)
    canvas.lines([put((0.16, -0.3), (0.16, -0.5)), put((0.12, -0.44), (0.2, -0.44))], size * 0.006, shade(white, 0.6))
    stack = put((-0.26, -0.26), (-0.245, -0.43), (-0.15, -0.43), (-0.13, -0.26))
    canvas.shape(stack, upright(y - size * 0.43, y - size * 0.26, [funnel, shade(funnel, 0.7)]))
    canvas.shape(put((-0.248, -0.4), (-0.245, -0.43), (-0.15, -0.43), (-0.147, -0.4)), shade(dark, 0.7))
    for left, right, top, bottom in (
        (-0.4, 0.24, -0.2, -0.12),
        (-0.36, 0.2, -0.265, -0.2),
        (0.04, 0.19, -0.32, -0.265),
    ):
        canvas.shape(
            put((left, bottom), (left + 0.008, top), (right - 0.015, top), (right + 0.012, bottom)),
            upright(y + top * size, y + bottom * size, [shade(white, 1.02), shade(white, 0.83)]),
        )
        panes = np.arange(left + 0.03, right - 0.03, 0.042)
        canvas.shapes(
            [put((a, top + 0.022), (a + 0.027, top + 0.022), (a + 0.027, top + 0.05), (a, top + 0.05)) for a in panes],
            lamp,
        )
        canvas.lines([put((left, top), (right, top))], size * 0.006, shade(white, 0.7), 0.7)
    upper = put((-0.495, -0.125), (0.3, -0.125), (0.42, -0.138), (0.54, -0.165), (0.51, -0.085), (-0.49, -0.06))
    lower = put((-0.49, -0.072), (0.36, -0.076), (0.51, -0.095), (0.475, -0.04), (0.435, 0.012), (-0.47, 0.012))
    canvas.shape(
        upper, sideways(x - size * 0.5, x + size * 0.5, [shade(white, 0.86), shade(white, 1.02), shade(white, 0.9)])
    )
    canvas.shape(lower, upright(y - size * 0.09, y, [dark, shade(dark, 0.65)]))
    canvas.lines([put((-0.485, -0.064), (0.36, -0.068), (0.505, -0.087))], size * 0.008, funnel)
    canvas.dabs(np.concatenate([put((a, -0.1)) for a in np.arange(-0.4, 0.4, 0.06)]), size * 0.007, shade(dark, 0.9))
    boats = [put((a, -0.205), (a + 0.07, -0.205), (a + 0.06, -0.185), (a + 0.01, -0.185)) for a in (-0.3, -0.18, -0.06)]
    canvas.shapes(boats, tone("e87838"))
    if mood.lamps:
        canvas.glow(x, y - size * 0.17, size * 0.4, (1.0, 0.8, 0.5), 0.25 * mood.lamps, 0.4)


def _smoke(canvas: Canvas, view: View, x: float, y: float, size: float, drift: int) -> None:
    dice = view.dice("smoke")
    for number in range(9):
        share = number / 9
        spot = np.array(
            [
                [
                    x + drift * size * share * 0.5 + view.step * drift * 3,
                    y - size * (0.03 + 0.12 * share) + dice.normal() * size * 0.01,
                ]
            ]
        )
        canvas.dabs(
            spot, size * (0.02 + 0.05 * share), (0.45, 0.47, 0.5), 0.22 * (1 - share), size * (0.01 + 0.03 * share)
        )


def _bow_wave(canvas: Canvas, view: View, x: float, y: float, size: float, ahead: int) -> None:
    rows, columns = canvas.grid()
    astern = (x + ahead * size * 0.47 - columns) * ahead / size
    waves = ground(view.dice("wake"), (canvas.height, canvas.width), canvas.unit * 0.05, 3, view.step * 3)
    width = 0.006 + 0.014 * np.clip(astern, 0, 3)
    across = np.abs((rows - y - size * 0.012) / size) / width
    foam = np.clip(1 - across, 0, 1) * (astern > 0) * np.exp(-np.clip(astern, 0, 9) * 0.8) * (0.75 + waves)
    canvas.veil(np.clip(foam, 0, 1) * np.float32(0.9), (0.96, 0.98, 0.98))


def _deck(canvas: Canvas, view: View, mood: Mood, line: float) -> None:
    """The wake from the stern, over the rail."""
    rows, columns = canvas.grid()
    middle = canvas.width * (0.35 + 0.3 * view.dice("wake").random())
    near = np.clip((rows - line) / (canvas.height - line), 0, 1)
    top = int(line)
    churn = np.zeros((canvas.height, canvas.width), np.float32)
    churn[top:] = ground(
        view.dice("churn"), (canvas.height - top, canvas.width), canvas.unit * 0.07, 1.6, view.step * 2
    )
    for side in (-1, 0, 1):
        reach = np.abs(columns - middle - side * near * canvas.unit * 0.34) / (
            canvas.unit * (0.008 + (0.05 if side else 0.13) * near)
        )
        foam = ease(np.clip(1 - reach, 0, 1) * 0.7 + churn, 0.2, 0.75) * np.clip(1.3 - reach, 0, 1) * (near > 0)
        canvas.veil(foam * np.float32(0.85 if side else 0.6), (0.95, 0.98, 0.98))
    canvas.soften(canvas.unit * 0.0012)
    floor = canvas.height * 0.9
    paint = mix((0.93, 0.94, 0.92), mood.sky[-1], 0.3)
    shift = view.lean * canvas.width * 2
    canvas.shape(
        box(-9, floor, canvas.width + 9, canvas.height + 9),
        upright(floor, canvas.height, [mix(tone("7c5c44"), mood.land, 0.2), tone("4c382c")]),
    )
    canvas.lines(
        [points((-9, y), (canvas.width + 9, y)) for y in np.linspace(floor, canvas.height, 5)],
        canvas.unit * 0.003,
        tone("3a2c24"),
        0.6,
    )
    gap = canvas.unit * 0.3
    posts = [
        rounded(x, canvas.height * 0.55, x + canvas.unit * 0.024, floor + 9, 4)
        for x in np.arange(gap * 0.4 - shift, canvas.width, gap)
    ]
    for level in (0.64, 0.73, 0.82):
        canvas.shape(
            box(-9, canvas.height * level, canvas.width + 9, canvas.height * level + canvas.unit * 0.012),
            shade(paint, 0.85),
        )
    canvas.shapes(posts, shade(paint, 0.92))
    rail = canvas.height * 0.55
    canvas.shape(
        box(-9, rail - canvas.unit * 0.018, canvas.width + 9, rail + canvas.unit * 0.014),
        upright(rail - canvas.unit * 0.018, rail + canvas.unit * 0.014, [tone("c08850"), tone("6c4426")]),
    )
    _life_ring(
        canvas,
        canvas.width * (0.75 if middle < canvas.width / 2 else 0.25) - shift,
        canvas.height * 0.72,
        canvas.unit * 0.115,
    )


def _life_ring(canvas: Canvas, x: float, y: float, size: float) -> None:
    canvas.shadow(ellipse(x + size * 0.1, y + size * 0.12, size, size), 0.35, size * 0.1)
    before = canvas.rgb.copy()
    canvas.shape(ellipse(x, y, size, size), upright(y - size, y + size, [tone("f0603c"), tone("b83420")]))
    for turn in range(4):
        angle = turn * math.pi / 2 + 0.4
        wedge = [(0.0, 0.0)] + [(math.cos(angle + d) * 1.02, math.sin(angle + d) * 1.02) for d in (-0.22, 0.0, 0.22)]
        canvas.shape(placed(wedge, x, y, size), (0.95, 0.94, 0.9))
    hole = ellipse(x, y, size * 0.56, size * 0.56)
    canvas.shape(hole, lambda r, c: before[int(r[0, 0]) : int(r[-1, 0]) + 1, int(c[0, 0]) : int(c[0, -1]) + 1])


def _gulls(canvas: Canvas, view: View, line: float) -> None:
    dice = view.dice("gulls")
    for _ in range(int(2 + dice.integers(5))):
        x, y = dice.random() * canvas.width + view.step * canvas.unit * 0.04, line * (0.15 + 0.7 * dice.random())
        gull(canvas, x, y, canvas.unit * (0.02 + 0.06 * dice.random() ** 2), view.step * 5 + dice.random() * 6)
