"""The lighthouse on its headland, by day, at dusk with the beam on, and in weather."""

import math
from dataclasses import dataclass

import numpy as np

from ..boats import gull, sailing_boat
from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..light import bloom, haze
from ..noise import field
from ..outlines import Points, box, moved, placed, points, ribbon, smooth
from ..paint import sideways, upright
from ..sky import clouds, sky, stars, sun
from ..view import View
from ..water import glitter, sea


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    lit: Colour
    dark: Colour
    sea: list[Colour]
    rock: Colour
    grass: Colour
    beam: float = 0.0
    sun: Colour | None = None
    cover: float = 0.5
    crest: float = 0.3


MOODS = {
    "blue": Mood(
        tones("16284c 2c4c7c 6478a0 d89c84"),
        tone("c08c90"),
        tone("2c3c60"),
        tones("8c8498 38547c 1c3054"),
        tone("2c3040"),
        tone("2a3c3c"),
        0.85,
    ),
    "clear": Mood(
        tones("3080c4 74b8e0 bcdcea f0f0e4"),
        tone("ffffff"),
        tone("b8cce0"),
        tones("70b0c4 3484a4 245c80"),
        tone("7c746c"),
        tone("7c9448"),
        0.0,
        None,
        0.45,
    ),
    "storm": Mood(
        tones("3c4854 5c6c78 8c9a9c b4b8ac"),
        tone("c4c8c0"),
        tone("3e4a58"),
        tones("7c8c8c 4c646c 34484f"),
        tone("4c4c4c"),
        tone("5c6444"),
        0.5,
        None,
        0.9,
        1.3,
    ),
    "pink": Mood(
        tones("5c6cac a88cb8 f0a8a0 ffdcb0"),
        tone("ffd0bc"),
        tone("9480ac"),
        tones("e8b0a8 9c88a8 605c88"),
        tone("5c5060"),
        tone("6c6450"),
        0.25,
        tone("ffd898"),
        0.5,
    ),
}
_BANDS = tones("c83c30 2c4c78 b84430")


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("lighthouse")
    line = canvas.height * (0.52 + 0.16 * dice.random())
    left = bool(dice.random() < 0.5)
    far = canvas.width * (0.72 if left else 0.28)
    sky(canvas, line, mood.sky)
    if mood.beam > 0.6:
        stars(canvas, view, line * 0.6, 80)
    clouds(canvas, view, line, mood.lit, mood.dark, mood.cover, 0.5 + 0.5 * dice.random(), (1 if left else -1, 0.7))
    if mood.sun:
        sun(canvas, far, line - canvas.unit * 0.08, canvas.unit * 0.022, mood.sun)
    sea(canvas, view, line, mood.sea, 0.14, 0.12, mood.crest)
    if mood.sun:
        glitter(canvas, view, line, far, canvas.unit * 0.1, mood.sun)
    sailing_boat(
        canvas,
        far + canvas.unit * 0.1 + view.step * 2,
        line + canvas.unit * 0.012,
        canvas.unit * 0.05,
        mix((0.8, 0.8, 0.78), mood.rock, 0.4),
        mix((0.96, 0.94, 0.9), mood.sky[-1], 0.4),
    )
    x = canvas.width * ((0.24 if left else 0.76) + 0.1 * dice.random() - 0.05 - view.lean)
    crest = _headland(canvas, view, mood, x, line, left, dice)
    _tower(canvas, view, mood, x, crest, min(canvas.unit * (0.44 + 0.14 * dice.random()), crest * 0.93), left)
    _foreground(canvas, view, mood, left)
    for _ in range(int(dice.integers(5))):
        gull(
            canvas,
            canvas.width * dice.random() + view.step * 20,
            line * (0.2 + 0.6 * dice.random()),
            canvas.unit * 0.03,
            view.step * 5 + dice.random() * 6,
        )
    haze(canvas, line - canvas.unit * 0.2, line + canvas.unit * 0.15, mood.sky[-1], 0.25)
    bloom(canvas, 0.78, 0.4)


def _headland(
    canvas: Canvas, view: View, mood: Mood, x: float, line: float, left: bool, dice: np.random.Generator
) -> float:
    """The promontory that carries the tower; gives back the level of its top."""
    unit, way = canvas.unit, 1 if left else -1
    top = line - unit * (0.02 + 0.07 * dice.random())

    def at(*pairs: tuple[float, float]) -> Points:
        return np.array([(x + way * a * unit, b) for a, b in pairs])

    water = line + unit * (0.12 + 0.05 * dice.random())
    crest = at(
        (-1.3, top + unit * 0.02),
        (-0.5, top),
        (0.17, top),
        (0.24, top + unit * 0.03),
        (0.29, top + unit * 0.035),
        (0.33, top + unit * 0.08),
        (0.42, (top + water) / 2),
        (0.48, (top + water) / 2 + unit * 0.01),
        (0.56, water - unit * 0.03),
        (0.66, water - unit * 0.012),
        (0.72, water),
    )
    shore = at(
        (0.72, water),
        (0.5, water + unit * 0.025),
        (0.28, water + unit * 0.03),
        (0.05, water + unit * 0.06),
        (-0.3, water + unit * 0.07),
        (-1.3, water + unit * 0.13),
    )
    rock = upright(top, water + unit * 0.05, [shade(mood.rock, 1.3), mood.rock, shade(mood.rock, 0.5)])
    canvas.shape(np.concatenate([crest, shore]), rock)
    for _ in range(34):
        across, down = dice.random() * 1.5 - 0.95, dice.random()
        low = np.interp(across, [-1.3, 0.17, 0.72], [top, top, water])
        y = low + (water - low) * (0.15 + 0.8 * down)
        high, wide = unit * (0.02 + 0.04 * dice.random()), 0.03 + 0.06 * dice.random()
        facet = at(
            (across - wide, y),
            (across - wide * 0.2, y - high * 0.7),
            (across + wide, y - high * 0.1),
            (across + wide * 0.7, y + high),
            (across - wide * 0.6, y + high * 0.8),
        )
        facet[:, 1] = np.minimum(facet[:, 1], water + unit * 0.02)
        canvas.shape(facet, shade(mood.rock, 0.55 + 1.0 * dice.random()), 0.4, unit * 0.002)
    turf = np.concatenate(
        [
            crest[:5] - (0, unit * 0.004),
            at(
                (0.24, top + unit * 0.05),
                (0.1, top + unit * 0.035),
                (-0.1, top + unit * 0.05),
                (-0.4, top + unit * 0.04),
                (-0.8, top + unit * 0.07),
                (-1.3, top + unit * 0.06),
            ),
        ]
    )
    canvas.shape(turf, upright(top, top + unit * 0.07, [shade(mood.grass, 1.15), shade(mood.grass, 0.75)]))
    _surf(canvas, view, smooth(shore, False, 12))
    return top


def _surf(canvas: Canvas, view: View, shore: Points) -> None:
    noise = field(view.dice("surf"), (1, len(shore)), (4, 6), 3)[0]
    canvas.shape(ribbon(shore, canvas.unit * (0.004 + 0.02 * noise)), (0.94, 0.96, 0.97), 0.8, canvas.unit * 0.003)
    canvas.shape(
        ribbon(moved(shore, 0, canvas.unit * 0.015), canvas.unit * (0.01 + 0.035 * noise)),
        (0.9, 0.94, 0.96),
        0.3,
        canvas.unit * 0.008,
    )


def _tower(canvas: Canvas, view: View, mood: Mood, x: float, base: float, size: float, left: bool) -> None:
    white = mix((0.97, 0.96, 0.93), mood.sky[-1], 0.22)
    band = mix(_BANDS[view.seed % 3], mood.sky[-1], 0.12)
    dim = 0.5 if mood.beam > 0.6 else (0.75 if mood.beam else 1.0)
    lit = (1.05, 0.92, 0.55) if not left else (0.6, 0.92, 1.05)

    def body(low: float, high: float) -> Points:
        wide = [0.1 - 0.042 * share for share in (low, high)]
        return placed([(-wide[0], -low), (wide[0], -low), (wide[1], -high), (-wide[1], -high)], x, base, size)

    _cottage(canvas, mood, x - (1 if left else -1) * size * 0.24, base, size * 0.34, dim)
    for number in range(5):
        colour = shade(band if number % 2 else white, dim)
        canvas.shape(
            body(number * 0.164 - 0.01, number * 0.164 + 0.164),
            sideways(x - size * 0.1, x + size * 0.1, [shade(colour, part) for part in lit]),
        )
    canvas.shape(
        placed([(-0.085, -0.815), (0.085, -0.815), (0.075, -0.845), (-0.075, -0.845)], x, base, size),
        shade(tone("3c4048"), dim),
    )
    lamp = mix(tone("6c8494"), (1.0, 0.88, 0.56), max(0.25, mood.beam))
    canvas.shape(placed([(-0.05, -0.845), (0.05, -0.845), (0.05, -0.925), (-0.05, -0.925)], x, base, size), lamp)
    canvas.lines(
        [placed([(a, -0.845), (a, -0.925)], x, base, size) for a in (-0.05, -0.017, 0.017, 0.05)],
        size * 0.006,
        tone("2c3038"),
    )
    canvas.shape(
        placed(
            smooth([(-0.062, -0.922), (-0.03, -0.965), (0, -0.99), (0.03, -0.965), (0.062, -0.922)], False),
            x,
            base,
            size,
        ),
        shade(band, 0.8 * dim),
    )
    canvas.shapes(
        [
            placed([(-0.014, -a), (0.014, -a), (0.014, -a - 0.045), (-0.014, -a - 0.045)], x, base, size)
            for a in (0.2, 0.42, 0.64)
        ],
        shade(tone("46505c"), dim),
    )
    if mood.beam:
        _beam(canvas, view, x, base - size * 0.885, size, mood.beam, left)


def _beam(canvas: Canvas, view: View, x: float, y: float, size: float, strength: float, left: bool) -> None:
    rows, columns = canvas.grid()
    for way, share in ((1 if left else -1, 1.0), (-1 if left else 1, 0.5)):
        along = (columns - x) * way
        slope = -0.06 + 0.05 * math.sin(view.step)
        off = np.abs(rows - y - along * slope) / (size * 0.012 + np.maximum(along, 0) * 0.075)
        light = np.exp(-off * off * 2.2) * (along > 0) * np.exp(-np.maximum(along, 0) / (canvas.unit * 0.75))
        canvas.light(light.astype(np.float32) * np.float32(0.7 * strength * share), (1.0, 0.92, 0.7))
    canvas.glow(x, y, size * 0.5, (1.0, 0.88, 0.6), 0.7 * strength)
    canvas.glow(x, y, size * 0.12, (1.0, 0.97, 0.85), strength)


def _cottage(canvas: Canvas, mood: Mood, x: float, base: float, size: float, dim: float) -> None:
    wall = shade(mix((0.95, 0.93, 0.88), mood.sky[-1], 0.25), dim)
    base += size * 0.04
    canvas.shape(
        box(x - size * 0.5, base - size * 0.36, x + size * 0.5, base),
        upright(base - size * 0.4, base, [wall, shade(wall, 0.78)]),
    )
    roof = points(
        (x - size * 0.56, base - size * 0.34),
        (x - size * 0.4, base - size * 0.62),
        (x + size * 0.4, base - size * 0.62),
        (x + size * 0.56, base - size * 0.34),
    )
    canvas.shape(roof, shade(tone("8c4438"), dim))
    pane = mix(tone("3c4854"), (1.0, 0.8, 0.45), mood.beam)
    canvas.shapes(
        [box(x + a * size, base - size * 0.26, x + (a + 0.14) * size, base - size * 0.1) for a in (-0.36, -0.07, 0.22)],
        pane,
    )


def _foreground(canvas: Canvas, view: View, mood: Mood, left: bool) -> None:
    """Grass close to the viewer, out of focus."""
    dice = view.dice("grass")
    blades = []
    for _ in range(170):
        x = (
            canvas.width * (dice.random() ** 1.6 if not left else 1 - dice.random() ** 1.6)
            - view.lean * canvas.width * 3
        )
        size = canvas.unit * (0.05 + 0.13 * dice.random())
        lean = size * (0.2 + 0.3 * dice.random() + 0.1 * math.sin(view.step * 2 + x * 0.01))
        blade = smooth(
            [(x, canvas.height + 5), (x + lean * 0.3, canvas.height - size * 0.6), (x + lean, canvas.height - size)],
            False,
            4,
        )
        blades.append(ribbon(blade, np.linspace(canvas.unit * 0.008, 1, len(blade))))
    canvas.shapes(blades[::2], shade(mood.grass, 0.45), 0.95, canvas.unit * 0.002)
    canvas.shapes(blades[1::2], shade(mood.grass, 0.9), 0.9, canvas.unit * 0.0015)
