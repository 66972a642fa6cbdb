"""Grandmother's garden in summer: flower beds, a path, a bench under the tree."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..light import bloom
from ..noise import ground
from ..outlines import box, down_to, ellipse, points, ridge, rounded, smooth
from ..paint import upright
from ..plants import leafy_tree
from ..rooms import dapple
from ..sky import clouds, sky
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    lawn: list[Colour]
    leaves: list[Colour]
    petals: list[Colour]


MOODS = {
    "summer": Mood(
        tones("64a8e0 a8d4f0 ecf4e8"),
        tones("a4c464 74a444 4c7c34"),
        tones("3c6c34 64943c a4c45c"),
        tones("e8485c f8c83c f4f0e8 b468c0 f08c4c"),
    ),
    "june": Mood(
        tones("88bce0 c8e0ec f8f0dc"),
        tones("b4c870 8cac50 5c843c"),
        tones("4c7c3c 7ca44c b4cc6c"),
        tones("f0a0b8 e86c94 fff0f4 8c7cd0"),
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("garden")
    line = canvas.height * (0.44 + 0.06 * dice.random())
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, (1, 1, 1), mix(mood.sky[0], mood.sky[2], 0.5), 0.4, 0.6)
    hedge = ridge(view.dice("hedge"), -20, canvas.width + 20, line, canvas.unit * 0.1, 22)
    canvas.shape(
        down_to(hedge, canvas.height),
        upright(
            line - canvas.unit * 0.1, line + canvas.unit * 0.06, [mix(mood.leaves[1], mood.sky[1], 0.3), mood.leaves[0]]
        ),
    )
    side = 1 if dice.random() < 0.5 else -1
    leafy_tree(
        canvas,
        view.dice("tree"),
        canvas.width * (0.5 + side * 0.28),
        line + canvas.unit * 0.09,
        canvas.unit * 0.66,
        tone("5c4836"),
        mood.leaves,
        1.6,
        -side,
    )
    canvas.shape(
        box(-9, line + canvas.unit * 0.03, canvas.width + 9, canvas.height + 9), upright(line, canvas.height, mood.lawn)
    )
    rows = canvas.height - int(line)
    canvas.rgb[int(line) :] *= (1 + 0.3 * ground(view.dice("lawn"), (rows, canvas.width), canvas.unit * 0.1, 3))[
        ..., None
    ]
    bench_x, bench_foot = canvas.width * (0.5 + side * 0.2), line + canvas.unit * 0.15
    canvas.shadow(ellipse(bench_x, bench_foot, canvas.unit * 0.22, canvas.unit * 0.03), 0.4, canvas.unit * 0.015)
    _bench(canvas, bench_x, bench_foot, canvas.unit * 0.24)
    _path(canvas, line, side)
    _beds(canvas, view, mood, line)
    dapple(canvas, view, 0.16, (1.0, 0.96, 0.74))
    bloom(canvas, 0.82, 0.35)


def _bench(canvas: Canvas, x: float, foot: float, size: float) -> None:
    paint_ = tone("e8ece8")
    canvas.shapes(
        [box(x + a * size, foot - size * 0.62, x + (a + 0.05) * size, foot) for a in (-0.62, 0.57)], shade(paint_, 0.78)
    )
    canvas.shapes(
        [
            rounded(x - size * 0.62, foot - size * level, x + size * 0.62, foot - size * (level - 0.065), 3)
            for level in (0.27, 0.44, 0.54, 0.64)
        ],
        upright(foot - size * 0.64, foot - size * 0.2, [paint_, shade(paint_, 0.82)]),
    )


def _path(canvas: Canvas, line: float, side: int) -> None:
    top = line + canvas.unit * 0.17
    lane = smooth(
        [
            (canvas.width * (0.5 + side * 0.16), top),
            (canvas.width * 0.52, top + canvas.unit * 0.12),
            (canvas.width * 0.62, canvas.height * 0.86),
            (canvas.width * 0.6, canvas.height + 60),
            (canvas.width * 0.3, canvas.height + 60),
            (canvas.width * 0.42, canvas.height * 0.86),
            (canvas.width * 0.45, top + canvas.unit * 0.12),
            (canvas.width * (0.5 + side * 0.12), top),
        ]
    )
    canvas.shape(lane, upright(top, canvas.height, tones("dcc8a8 c8ae88")), 1.0, canvas.unit * 0.004)


def _beds(canvas: Canvas, view: View, mood: Mood, line: float) -> None:
    """Flowers in drifts on both sides, larger towards the viewer."""
    dice = view.dice("beds")
    flowers = []
    for _ in range(430):
        depth = dice.random() ** 0.8
        y = line + canvas.unit * 0.1 + (canvas.height - line) * depth
        edge = 0.1 + 0.3 * (1 - depth)
        x = (
            canvas.width * (dice.random() * (edge + 0.24))
            if dice.random() < 0.5
            else canvas.width * (1 - dice.random() * (edge + 0.24))
        )
        flowers.append((y, x, depth))
    for y, x, depth in sorted(flowers):
        size = canvas.unit * (0.012 + 0.042 * depth)
        drift = int(abs(math.sin(x / canvas.unit * 2.2 + depth * 3)) * len(mood.petals)) % len(mood.petals)
        _flower(canvas, dice, x, y, size, mood.petals[drift], mood.leaves[1])


def _flower(
    canvas: Canvas, dice: np.random.Generator, x: float, y: float, size: float, petal: Colour, leaf: Colour
) -> None:
    high = size * (1.6 + 1.6 * dice.random())
    canvas.lines([points((x, y), (x + size * 0.1, y - high))], max(1.0, size * 0.09), shade(leaf, 0.7))
    canvas.shapes(
        [
            smooth(
                [(x, y - high * 0.2), (x + way * size * 0.6, y - high * 0.55), (x + way * size * 0.4, y - high * 0.2)],
                True,
                4,
            )
            for way in (-1, 1)
        ],
        shade(leaf, 0.9),
    )
    cx, cy, turn = x + size * 0.1, y - high, dice.random() * 2
    ring = np.array(
        [
            (cx + math.cos(turn + n * 1.257) * size * 0.36, cy + math.sin(turn + n * 1.257) * size * 0.3)
            for n in range(5)
        ]
    )
    canvas.dabs(ring, size * 0.3, shade(petal, 0.8 + 0.3 * dice.random()))
    canvas.dabs(np.array([(cx, cy)]), size * 0.17, tone("f0c040") if petal[1] < 0.75 else tone("c88c2c"))
