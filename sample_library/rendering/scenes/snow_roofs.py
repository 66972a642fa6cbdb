"""Roofs under snow, seen from an upper window: layers of gables, smoke, lit panes, flakes."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..light import bloom, haze
from ..outlines import box, down_to, points, ridge, smooth
from ..paint import upright
from ..sky import clouds, moon, sky, sun
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    snow: Colour
    walls: list[Colour]
    air: Colour
    lit: float
    fall: float = 0.0
    sun: Colour | None = None


MOODS = {
    "blue": Mood(
        tones("1c2c54 3c5488 8494bc d0b4b8"), tone("a8bce0"), tones("3c4468 4c4460 344c6c"), tone("8c9cc4"), 0.5
    ),
    "falling": Mood(
        tones("98a4b8 b4bccc ccd0d8"), tone("e4e8f0"), tones("8c6c64 a08474 7c808c 94746c"), tone("c4c8d4"), 0.25, 1.0
    ),
    "bright": Mood(
        tones("3c84cc 7cb4e4 c4e0f0 fcf0e4"),
        tone("f8faff"),
        tones("c06c50 d8a868 a88c7c c49078"),
        tone("d0e0f0"),
        0.0,
        0.0,
        tone("fff4dc"),
    ),
    "rose": Mood(
        tones("6474ac ac90b8 f0a8a8 ffd8bc"),
        tone("f4d4dc"),
        tones("7c5468 8c6468 6c5c7c"),
        tone("e0b4bc"),
        0.3,
        0.0,
        tone("ffd0a0"),
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("roofs")
    line = canvas.height * (0.34 + 0.14 * dice.random())
    sky(canvas, line * 1.15, mood.sky)
    clouds(canvas, view, line, mix(mood.sky[-1], (1, 1, 1), 0.3), mix(mood.sky[0], mood.sky[-1], 0.4), 0.5, 0.7)
    if mood.sun:
        sun(
            canvas,
            canvas.width * (0.15 + 0.7 * dice.random()),
            line * (0.45 + 0.4 * dice.random()),
            canvas.unit * 0.02,
            mood.sun,
        )
    elif not mood.fall:
        moon(canvas, canvas.width * (0.15 + 0.7 * dice.random()), line * 0.4, canvas.unit * 0.026)
    hill = ridge(view.dice("hill"), -20, canvas.width + 20, line, canvas.unit * 0.11)
    canvas.shape(down_to(hill, canvas.height), mix(mood.snow, mood.sky[-1], 0.45))
    _church(
        canvas,
        mood,
        canvas.width * (0.12 + 0.76 * dice.random() - view.lean * 0.1),
        line + canvas.unit * 0.06,
        canvas.unit * (0.28 + 0.1 * dice.random()),
    )
    layers = 5
    for layer in range(layers):
        share = layer / (layers - 1)
        base = line + (canvas.height * 1.06 - line) * (0.14 + 0.86 * share**1.35)
        _layer(canvas, view, mood, layer, base, canvas.unit * (0.1 + 0.3 * share), share)
        if layer < layers - 1:
            haze(canvas, base - canvas.unit * 0.2, base + canvas.unit * 0.1, mood.air, 0.28 * (1 - share))
    if mood.fall:
        _flakes(canvas, view, mood)
    bloom(canvas, 0.82, 0.35)


def _layer(canvas: Canvas, view: View, mood: Mood, layer: int, base: float, size: float, share: float) -> None:
    dice = view.dice(f"layer{layer}")
    x = -size * dice.random() - view.lean * canvas.width * (0.2 + share)
    while x < canvas.width + size:
        width = size * (0.9 + 0.7 * dice.random())
        lift = size * 0.3 * dice.random()
        _roof(canvas, view, mood, dice, x, base - lift, width, size, share)
        x += width * (0.86 + 0.12 * dice.random())


def _roof(
    canvas: Canvas,
    view: View,
    mood: Mood,
    dice: np.random.Generator,
    x: float,
    base: float,
    width: float,
    size: float,
    share: float,
) -> None:
    air = 0.55 * (1 - share)
    wall = mix(mood.walls[int(dice.integers(len(mood.walls)))], mood.air, air)
    snow = mix(mood.snow, mood.air, air * 0.6)
    peak = base - size * (0.5 + 0.2 * dice.random())
    eaves = base
    gabled = dice.random() < 0.5
    _chimney(canvas, view, mood, dice, x + width * (0.25 + 0.4 * dice.random()), peak + size * 0.1, size, wall, snow)
    if gabled:
        middle = x + width / 2
        canvas.shape(
            points(
                (x, canvas.height + 9), (x, eaves), (middle, peak), (x + width, eaves), (x + width, canvas.height + 9)
            ),
            upright(peak, base + size, [wall, shade(wall, 0.7)]),
        )
        thick = size * 0.07
        left = points(
            (x - size * 0.06, eaves + size * 0.05),
            (middle, peak - thick),
            (middle, peak + thick * 0.4),
            (x - size * 0.02, eaves + size * 0.1),
        )
        right = points(
            (x + width + size * 0.06, eaves + size * 0.05),
            (middle, peak - thick),
            (middle, peak + thick * 0.4),
            (x + width + size * 0.02, eaves + size * 0.1),
        )
        canvas.shape(left, shade(snow, 1.03))
        canvas.shape(right, shade(snow, 0.86))
        _pane(canvas, mood, dice, middle, base - size * 0.14, size * 0.12, wall)
        for side in (-0.22, 0.22):
            _pane(canvas, mood, dice, middle + side * width, base + size * 0.22, size * 0.14, wall)
    else:
        canvas.shape(box(x, eaves, x + width, canvas.height + 9), upright(base, base + size, [wall, shade(wall, 0.7)]))
        slope = smooth(
            [
                (x - size * 0.05, eaves + size * 0.03),
                (x + size * 0.12, (eaves + peak) / 2),
                (x + size * 0.2, peak),
                (x + width * 0.5, peak - size * 0.015),
                (x + width - size * 0.2, peak),
                (x + width - size * 0.1, (eaves + peak) / 2),
                (x + width + size * 0.05, eaves + size * 0.03),
                (x + width * 0.5, eaves + size * 0.05),
            ],
            True,
            8,
        )
        canvas.shape(slope, upright(peak, eaves, [shade(snow, 1.04), shade(snow, 0.84)]))
        _dormer(
            canvas,
            mood,
            dice,
            x + width * (0.3 + 0.4 * dice.random()),
            (peak + eaves) / 2 + size * 0.08,
            size * 0.3,
            wall,
            snow,
        )
        for place in (0.2, 0.5, 0.8):
            _pane(canvas, mood, dice, x + width * place, base + size * 0.25, size * 0.14, wall)


def _dormer(
    canvas: Canvas,
    mood: Mood,
    dice: np.random.Generator,
    x: float,
    base: float,
    size: float,
    wall: Colour,
    snow: Colour,
) -> None:
    canvas.shape(
        points(
            (x - size * 0.4, base + size * 0.3),
            (x - size * 0.4, base - size * 0.3),
            (x, base - size * 0.7),
            (x + size * 0.4, base - size * 0.3),
            (x + size * 0.4, base + size * 0.3),
        ),
        shade(wall, 1.05),
    )
    canvas.lines(
        [points((x - size * 0.5, base - size * 0.24), (x, base - size * 0.74), (x + size * 0.5, base - size * 0.24))],
        size * 0.13,
        shade(snow, 0.97),
    )
    _pane(canvas, mood, dice, x, base, size * 0.42, wall)


def _pane(canvas: Canvas, mood: Mood, dice: np.random.Generator, x: float, y: float, size: float, wall: Colour) -> None:
    lit = dice.random() < mood.lit
    glass = (1.0, 0.8, 0.46) if lit else shade(mix(wall, (0.15, 0.2, 0.3), 0.65), 0.9)
    canvas.shape(box(x - size * 0.42, y - size * 0.6, x + size * 0.42, y + size * 0.6), mix(wall, (1, 1, 1), 0.4))
    canvas.shape(box(x - size * 0.34, y - size * 0.52, x + size * 0.34, y + size * 0.52), glass)
    canvas.lines(
        [
            points((x, y - size * 0.5), (x, y + size * 0.5)),
            points((x - size * 0.34, y - size * 0.1), (x + size * 0.34, y - size * 0.1)),
        ],
        max(1.0, size * 0.06),
        mix(wall, (1, 1, 1), 0.35),
    )
    if lit:
        canvas.glow(x, y, size * 2.6, (1.0, 0.7, 0.35), 0.4)


def _chimney(
    canvas: Canvas,
    view: View,
    mood: Mood,
    dice: np.random.Generator,
    x: float,
    top: float,
    size: float,
    wall: Colour,
    snow: Colour,
) -> None:
    canvas.shape(
        box(x - size * 0.07, top - size * 0.24, x + size * 0.07, top + size * 0.4),
        shade(mix(wall, tone("7c4438"), 0.3), 0.8),
    )
    canvas.shape(
        smooth(
            [
                (x - size * 0.09, top - size * 0.22),
                (x - size * 0.06, top - size * 0.3),
                (x + size * 0.06, top - size * 0.3),
                (x + size * 0.09, top - size * 0.22),
            ]
        ),
        snow,
    )
    if dice.random() < 0.4:
        phase = dice.random() * 6
        for puff in range(10):
            rise = puff / 10
            spot = np.array(
                [
                    [
                        x + size * (0.5 * rise + 0.08 * math.sin(phase + rise * 6 + view.step)),
                        top - size * (0.32 + 0.9 * rise),
                    ]
                ]
            )
            canvas.dabs(
                spot,
                size * (0.04 + 0.11 * rise),
                mix(mood.air, (1, 1, 1), 0.5),
                0.3 * (1 - rise),
                size * (0.02 + 0.05 * rise),
            )


def _church(canvas: Canvas, mood: Mood, x: float, base: float, size: float) -> None:
    wall = mix(mood.walls[0], mood.air, 0.62)
    canvas.shape(
        box(x - size * 0.1, base - size * 0.62, x + size * 0.1, base + size * 0.2),
        upright(base - size * 0.6, base, [wall, mix(wall, mood.air, 0.4)]),
    )
    canvas.shape(
        points((x - size * 0.12, base - size * 0.6), (x, base - size * 1.12), (x + size * 0.12, base - size * 0.6)),
        mix(mood.snow, mood.air, 0.25),
    )
    canvas.shape(
        points((x, base - size * 1.12), (x + size * 0.12, base - size * 0.6), (x + size * 0.02, base - size * 0.6)),
        mix(wall, mood.air, 0.2),
        0.7,
    )
    canvas.shape(box(x - size * 0.03, base - size * 0.5, x + size * 0.03, base - size * 0.36), shade(wall, 0.7))


def _flakes(canvas: Canvas, view: View, mood: Mood) -> None:
    dice = view.dice("flakes")
    for count, radius, speed, opacity in ((420, 0.0016, 0.05, 0.8), (160, 0.0032, 0.09, 0.75), (30, 0.008, 0.16, 0.5)):
        spots = dice.random((count, 2)) * (canvas.width, canvas.height)
        spots[:, 1] = (spots[:, 1] + view.step * speed * canvas.unit) % canvas.height
        canvas.dabs(spots, radius * canvas.unit, (1.0, 1.0, 1.0), opacity * mood.fall, radius * canvas.unit * 0.35)
