"""The tram stop on a wet evening: lights doubled in the street, an umbrella, the tram coming."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..figures import figure, umbrella
from ..houses import Street, house_row
from ..light import bloom, haze
from ..outlines import box, ellipse, points, rounded
from ..paint import upright
from ..rooms import bokeh
from ..tram import Tram, lit_glass, tram
from ..view import View
from ..water import mirror


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    walls: list[Colour]
    air: Colour
    lit: float
    tram: Colour
    rain: float = 0.7
    snow: float = 0.0


MOODS = {
    "rain": Mood(tones("1c2438 34405c 5c6478"), tones("3c4050 4c4450 343c4c"), tone("4c566c"), 0.45, tone("c83c34")),
    "dusk": Mood(
        tones("2c3464 6c5c8c d88c7c"), tones("54486c 6c5068 484c6c"), tone("8c6c84"), 0.4, tone("e0a434"), 0.25
    ),
    "snow": Mood(
        tones("3c4868 6c7894 a4a8b8"), tones("5c5c6c 6c6470 505868"), tone("949cb0"), 0.4, tone("2c7c74"), 0.0, 0.9
    ),
    "day": Mood(
        tones("7c8c98 9caab4 c0c8cc"), tones("9c7c6c a89078 7c8890 b08870"), tone("b0b8bc"), 0.12, tone("c85c34"), 0.5
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("tram")
    line = canvas.height * (0.64 + 0.05 * dice.random())
    left = bool(dice.random() < 0.5)
    canvas.fill(upright(0, line, mood.sky))
    street = Street(
        mood.walls,
        [shade(wall, 0.6) for wall in mood.walls],
        mix(mood.air, (0.1, 0.12, 0.2), 0.6),
        mood.lit,
        snow=mood.snow,
        air=mood.air,
        far=0.3,
    )
    house_row(canvas, view.dice("far"), street, -60, canvas.width + 60, line, canvas.unit * 0.34)
    haze(canvas, line - canvas.unit * 0.5, line + canvas.unit * 0.2, mood.air, 0.5)
    house_row(
        canvas,
        view.dice("near"),
        street,
        (canvas.width * 0.55 if left else -80) - view.lean * 300,
        (canvas.width + 80 if left else canvas.width * 0.45) - view.lean * 300,
        line,
        canvas.unit * 0.56,
    )
    bokeh(canvas, view, 18, tones("ffb860 ff6c54 ffe0a0 8cd8b0"), (0.0, 0.5, 1.0, 0.62), 0.02, 0.8 * (0.4 + mood.lit))
    canvas.soften(canvas.unit * 0.003)
    _tram(canvas, view, mood, line, left, dice)
    _shelter(canvas, view, mood, line, left)
    mirror(canvas, view, line + canvas.unit * 0.012, shade(mood.air, 0.42), 0.62, 1.5)
    _rails(canvas, line, left)
    _waiting(canvas, view, mood, line, left, dice)
    _weather(canvas, view, mood)
    bloom(canvas, 0.7, 0.5, 0.025)


def _tram(canvas: Canvas, view: View, mood: Mood, line: float, left: bool, dice: np.random.Generator) -> None:
    near = min(1.0, 0.35 + 0.4 * dice.random() + view.step * 0.05)
    size = canvas.unit * (0.26 + 0.2 * near)
    x = canvas.width * ((0.62 if left else 0.38) + 0.06 * dice.normal() - view.lean * 0.6)
    body = shade(mix(mood.tram, mood.air, 0.15), 0.75 + 0.25 * (1 - mood.lit))
    stripe = mix((0.95, 0.93, 0.86), mood.air, 0.25)
    tram(canvas, Tram(x, line, size, left, body, lit_glass(mood.lit), stripe))


def _shelter(canvas: Canvas, view: View, mood: Mood, line: float, left: bool) -> None:
    unit = canvas.unit
    x = canvas.width * (0.2 if left else 0.8) - view.lean * canvas.width * 1.1
    a, b, top = x - unit * 0.22, x + unit * 0.22, line - unit * 0.4
    steel = mix(tone("343c48"), mood.air, 0.12)
    canvas.glow(x, top + unit * 0.06, unit * 0.4, (0.9, 0.95, 1.0), 0.4)
    canvas.shape(box(a, top, b, line - unit * 0.02), mix(mood.air, (0.9, 0.96, 1.0), 0.5), 0.28)
    panel = rounded(b - unit * 0.13, line - unit * 0.32, b - unit * 0.02, line - unit * 0.08, 6)
    canvas.shape(
        panel,
        upright(
            line - unit * 0.32, line - unit * 0.08, [mix(mood.tram, (1, 1, 1), 0.75), mix(mood.tram, (1, 1, 1), 0.4)]
        ),
    )
    canvas.glow(b - unit * 0.075, line - unit * 0.2, unit * 0.2, (1.0, 0.95, 0.85), 0.4)
    canvas.shapes(
        [box(x + p * unit - unit * 0.006, top, x + p * unit + unit * 0.006, line) for p in (-0.22, 0.0, 0.22)], steel
    )
    canvas.shape(box(a + unit * 0.03, line - unit * 0.1, x - unit * 0.02, line - unit * 0.085), shade(steel, 1.3))
    canvas.shape(
        points(
            (a - unit * 0.04, top - unit * 0.012),
            (b + unit * 0.04, top - unit * 0.03),
            (b + unit * 0.04, top + unit * 0.004),
            (a - unit * 0.04, top + unit * 0.014),
        ),
        mix(steel, (0.95, 0.97, 1.0), mood.snow),
    )
    canvas.dabs(
        points((x - unit * 0.1, top + unit * 0.02), (x + unit * 0.1, top + unit * 0.015)),
        unit * 0.008,
        (1.0, 0.98, 0.9),
    )


def _rails(canvas: Canvas, line: float, left: bool) -> None:
    for offset in (0.0, 0.09, 0.34, 0.44):
        start = canvas.width * (0.62 if left else 0.38)
        end = start + (-1 if left else 1) * canvas.width * (0.05 + offset * 1.3)
        rail = points((start, line + 4), (end, canvas.height + 9))
        canvas.lines([rail], canvas.unit * 0.004, (0.75, 0.8, 0.88), 0.3, canvas.unit * 0.001)


def _waiting(canvas: Canvas, view: View, mood: Mood, line: float, left: bool, dice: np.random.Generator) -> None:
    cloths = tones("2c4c6c 8c3c44 4c5c48 6c4c6c")
    shades_ = tones("c8443c e8b040 3c8c8c 7c5c9c")
    for number in range(2 + int(dice.integers(2))):
        x = canvas.width * (
            (0.2 if left else 0.8) + 0.13 * (number - 0.5) + 0.03 * dice.normal()
        ) - view.lean * canvas.width * (1.2 + 0.3 * number)
        foot = line + canvas.unit * (0.05 + 0.07 * number)
        height = canvas.unit * (0.27 + 0.045 * number) * (0.72 if number == 1 and view.seed % 2 else 1.0)
        coat = mix(cloths[(number + view.seed) % 4], mood.air, 0.12)
        canvas.shape(
            ellipse(x, foot + height * 0.25, height * 0.12, height * 0.28), shade(coat, 0.5), 0.35, height * 0.05
        )
        sheltered = mood.rain > 0.3 and number != 1
        hands = figure(
            canvas,
            x,
            foot,
            height,
            coat,
            shades_[(number + view.seed + 1) % 4],
            0.0,
            (0.05, 0.42 if sheltered else 0.05),
            0.2,
        )
        if sheltered:
            umbrella(canvas, hands[1], height, shade(mix(shades_[(number + view.seed) % 4], mood.air, 0.1), 0.9))


def _weather(canvas: Canvas, view: View, mood: Mood) -> None:
    dice = view.dice(f"weather{view.step:.1f}")
    if mood.rain:
        starts = dice.random((int(240 * mood.rain), 2)) * (canvas.width, canvas.height)
        long = canvas.unit * 0.035
        canvas.lines(
            [points((x, y), (x - long * 0.16, y + long)) for x, y in starts],
            canvas.unit * 0.0013,
            (0.85, 0.9, 1.0),
            0.34,
        )
    if mood.snow:
        for count, radius in ((220, 0.002), (60, 0.005)):
            canvas.dabs(
                dice.random((count, 2)) * (canvas.width, canvas.height),
                radius * canvas.unit,
                (1, 1, 1),
                0.75 * mood.snow,
                radius * canvas.unit * 0.4,
            )
    canvas.veil(np.full((canvas.height, canvas.width), 0.03 + 0.02 * math.fabs(mood.rain), np.float32), mood.air)
