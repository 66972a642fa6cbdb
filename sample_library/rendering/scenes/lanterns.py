"""A procession of children with paper lanterns on an autumn night."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..figures import figure
from ..houses import Street, house_row
from ..light import bloom, haze
from ..outlines import Points, box, down_to, ellipse, points, ridge, smooth
from ..paint import round_about, upright
from ..plants import bare_tree
from ..rooms import bokeh
from ..sky import moon, sky, stars
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    ground: list[Colour]
    dark: Colour
    paper: list[Colour]


MOODS = {
    "clear": Mood(
        tones("0a1230 1a2858 3a4880 6c5c84"),
        tones("3a3448 241f30"),
        tone("161628"),
        tones("ff9c3c ffd050 ff6c4c f0e0a0 7cc8d0"),
    ),
    "mist": Mood(
        tones("1c1e34 343452 58506c 7c6878"),
        tones("443c4c 2a2432"),
        tone("221f30"),
        tones("ffb050 ff7c44 ffe08c d08cc0"),
    ),
}
_COATS = tones("7c3438 2c4c6c 4c5c3c 6c4470 8c6c34")


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("lanterns")
    line = canvas.height * (0.58 + 0.05 * dice.random())
    sky(canvas, line, mood.sky)
    stars(canvas, view, line, 110 if view.mood == "clear" else 20)
    moon(canvas, canvas.width * (0.12 + 0.76 * dice.random()), line * 0.25, canvas.unit * 0.03, 0.25)
    hill = ridge(view.dice("hill"), -20, canvas.width + 20, line, canvas.unit * 0.12)
    canvas.shape(down_to(hill, canvas.height), mix(mood.dark, mood.sky[-1], 0.45))
    street = Street(
        [mix(coat, mood.dark, 0.7) for coat in _COATS],
        [mood.dark],
        shade(mood.dark, 0.8),
        0.35,
        air=mood.sky[-1],
        far=0.12,
    )
    start = canvas.width * (dice.random() * 0.6 - 0.1)
    house_row(canvas, view.dice("houses"), street, start, start + canvas.width * 0.55, line + 8, canvas.unit * 0.22)
    for number in range(4):
        bare_tree(
            canvas,
            view.dice(f"tree{number}"),
            canvas.width * dice.random(),
            line + canvas.unit * 0.04,
            canvas.unit * (0.4 + 0.25 * dice.random()),
            mix(mood.dark, mood.sky[-1], 0.18),
            6,
        )
    canvas.soften(canvas.unit * 0.0018)
    canvas.shape(box(-9, line, canvas.width + 9, canvas.height + 9), upright(line, canvas.height, mood.ground))
    haze(
        canvas, line - canvas.unit * 0.2, line + canvas.unit * 0.14, mood.sky[-1], 0.5 if view.mood == "mist" else 0.25
    )
    bokeh(canvas, view, 12, mood.paper, (0.0, 0.5, 1.0, 0.6), 0.01, 0.9)
    _procession(canvas, view, mood, line)
    bloom(canvas, 0.65, 0.5, 0.03)


def _procession(canvas: Canvas, view: View, mood: Mood, line: float) -> None:
    dice = view.dice("procession")
    count = 9
    for number in range(count):
        depth = (number / count) ** 1.4
        foot = line + canvas.unit * 0.03 + (canvas.height * 0.97 - line) * depth
        x = canvas.width * (
            0.08 + 0.84 * ((number * 0.37 + 0.2 * dice.random()) % 1.0) - view.lean * (0.3 + depth)
        ) + view.step * canvas.unit * 0.03 * (0.4 + depth)
        height = canvas.unit * (0.11 + 0.26 * depth) * (0.78 + 0.3 * dice.random())
        colour = mood.paper[int(dice.integers(len(mood.paper)))]
        side = -1 if dice.random() < 0.5 else 1
        coat = mix(_COATS[int(dice.integers(5))], mood.dark, 0.35)
        canvas.glow(x + side * height * 0.5, foot, height * 0.9, colour, 0.35, 0.25)
        arms = (0.5, 0.05) if side < 0 else (0.05, 0.5)
        hands = figure(
            canvas,
            x,
            foot,
            height,
            coat,
            mix(colour, mood.dark, 0.55),
            0.22 * math.sin(view.step * 4 + number),
            arms,
            0.45 if side < 0 else 0.1,
        )
        _lantern(canvas, hands[0 if side < 0 else 1], height, colour, side, int(dice.integers(3)), view.step + number)


def _lantern(canvas: Canvas, hand: Points, height: float, colour: Colour, side: int, kind: int, time: float) -> None:
    sway = math.sin(time * 2.2) * height * 0.03
    tip = hand + np.array((side * height * 0.26, -height * 0.12))
    canvas.lines([np.array([hand, tip])], height * 0.012, (0.3, 0.24, 0.2))
    x, y, size = tip[0] + sway, tip[1] + height * 0.24, height * 0.13
    canvas.lines([np.array([tip, (x, y - size)])], height * 0.006, (0.3, 0.24, 0.2))
    canvas.glow(x, y, size * 7, colour, 0.5)
    canvas.glow(x, y, size * 3, mix(colour, (1, 1, 0.8), 0.4), 0.6)
    light = round_about(
        x,
        y + size * 0.2,
        size * 1.3,
        [mix(colour, (1.0, 1.0, 0.85), 0.85), mix(colour, (1, 1, 0.8), 0.3), shade(colour, 0.75)],
    )
    if kind == 0:
        canvas.shape(ellipse(x, y, size, size), light)
        canvas.lines(
            [ellipse(x, y, size * width, size)[12:37] for width in (0.5, -0.5)], size * 0.05, shade(colour, 0.6), 0.6
        )
    elif kind == 1:
        corners = np.array(
            [
                (
                    x + math.sin(n * math.pi / 5) * size * (1.25 if n % 2 == 0 else 0.62),
                    y - math.cos(n * math.pi / 5) * size * (1.25 if n % 2 == 0 else 0.62),
                )
                for n in range(10)
            ]
        )
        canvas.shape(corners, light)
    else:
        canvas.shape(
            smooth(
                [
                    (x - size * 0.7, y - size),
                    (x + size * 0.7, y - size),
                    (x + size * 0.8, y),
                    (x + size * 0.7, y + size),
                    (x - size * 0.7, y + size),
                    (x - size * 0.8, y),
                ],
                True,
                5,
            ),
            light,
        )
        canvas.lines(
            [
                points((x - size * 0.76, y + level * size), (x + size * 0.76, y + level * size))
                for level in (-0.55, 0.0, 0.55)
            ],
            size * 0.05,
            shade(colour, 0.65),
            0.7,
        )
    canvas.shape(box(x - size * 0.4, y - size * 1.08, x + size * 0.4, y - size * 0.92), shade(colour, 0.4))
