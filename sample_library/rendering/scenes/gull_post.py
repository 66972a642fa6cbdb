"""A gull on a mooring post, close, the harbour a blur behind."""

from dataclasses import dataclass

import numpy as np

from ..boats import fishing_boat, mooring_post, sailing_boat
from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..houses import Street, house_row
from ..light import bloom
from ..outlines import Points, ellipse, placed, points, ribbon, smooth
from ..paint import upright
from ..rooms import bokeh
from ..sky import clouds, sky
from ..view import View
from ..water import mirror


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    walls: list[Colour]
    water: Colour
    wood: Colour
    light: Colour
    sparks: list[Colour]
    lit: float = 0.0
    snow: float = 0.0


MOODS = {
    "day": Mood(
        tones("74b4e0 b4d8ec e8f0e8"),
        tones("c8644a e0a860 8cb0b4 e8dcc0"),
        tone("3c7490"),
        tone("8c7460"),
        tone("ffffff"),
        tones("ffffff d8f0ff"),
    ),
    "gold": Mood(
        tones("7c84b0 e0a88c ffd490"),
        tones("a8644c c88c5c 8c7478"),
        tone("5c6480"),
        tone("7c5c48"),
        tone("ffe4bc"),
        tones("ffd890 ffb868 fff0c8"),
        0.15,
    ),
    "grey": Mood(
        tones("8c98a2 a8b4ba ccd0d0"),
        tones("8c7870 948474 78868c"),
        tone("5c7078"),
        tone("6c6460"),
        tone("eef0f2"),
        tones("d8e0e4 c0ccd4"),
    ),
    "winter": Mood(
        tones("98b0d0 c4d0e0 f0e4e0"),
        tones("a86c5c c09c7c 8c9cac"),
        tone("64809c"),
        tone("7c7470"),
        tone("f8f8ff"),
        tones("fff4e0 e8f0ff"),
        0.1,
        0.9,
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("gull")
    line = canvas.height * (0.44 + 0.14 * dice.random())
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, mix(mood.sky[-1], (1, 1, 1), 0.6), mix(mood.sky[0], mood.sky[-1], 0.4), 0.5, 0.6)
    street = Street(
        mood.walls,
        [shade(wall, 0.65) for wall in mood.walls],
        mix(mood.water, (0.1, 0.12, 0.16), 0.6),
        mood.lit,
        snow=mood.snow,
        air=mood.sky[-1],
        far=0.25,
    )
    house_row(
        canvas,
        view.dice("houses"),
        street,
        -40 - view.lean * 150,
        canvas.width + 40,
        line,
        canvas.unit * (0.2 + 0.1 * dice.random()),
    )
    for _ in range(4):
        x = canvas.width * dice.random()
        if dice.random() < 0.5:
            fishing_boat(
                canvas,
                x,
                line + 4,
                canvas.unit * 0.2,
                tones("a83c34 2c4c74 e0d8c8")[int(dice.integers(3))],
                mood.sky[-1],
            )
        else:
            sailing_boat(canvas, x, line + 4, canvas.unit * 0.17, tones("e0d8c8 7c3430 34506c")[int(dice.integers(3))])
    mirror(canvas, view, line, mood.water, 0.4, 1.0)
    canvas.soften(canvas.unit * 0.009)
    bokeh(canvas, view, 26, mood.sparks, (0.0, line / canvas.height + 0.02, 1.0, 1.0), 0.022, 0.42)
    _posts(canvas, view, mood, dice)
    bloom(canvas, 0.8, 0.35, 0.03)


def _posts(canvas: Canvas, view: View, mood: Mood, dice: np.random.Generator) -> None:
    side = 1 if dice.random() < 0.5 else -1
    x = canvas.width * (0.5 + side * (0.06 + 0.14 * dice.random()) - view.lean * 1.5)
    top = canvas.height * (0.62 + 0.1 * dice.random())
    other = x - side * canvas.unit * (0.48 + 0.1 * dice.random())
    mooring_post(
        canvas,
        other,
        top + canvas.unit * (0.1 + 0.1 * dice.random()),
        canvas.height + 9,
        canvas.unit * 0.13,
        shade(mood.wood, 0.82),
    )
    canvas.shape(
        ribbon(
            smooth(
                [
                    (other, top + canvas.unit * 0.28),
                    ((x + other) / 2, top + canvas.unit * 0.36),
                    (x, top + canvas.unit * 0.16),
                ],
                False,
                12,
            ),
            canvas.unit * 0.022,
        ),
        tone("c8b48c"),
    )
    mooring_post(canvas, x, top, canvas.height + 9, canvas.unit * 0.17, mood.wood)
    for level in (0.12, 0.15, 0.18):
        canvas.shape(
            ribbon(
                smooth(
                    [
                        (x - canvas.unit * 0.088, top + canvas.unit * level),
                        (x, top + canvas.unit * (level + 0.014)),
                        (x + canvas.unit * 0.088, top + canvas.unit * level),
                    ],
                    False,
                    8,
                ),
                canvas.unit * 0.024,
            ),
            shade(tone("d0bc94"), 1.1 - level * 1.6),
        )
    cracks = [
        ribbon(
            points(
                (x + a * canvas.unit, top + canvas.unit * 0.22),
                (x + (a + 0.004) * canvas.unit, top + canvas.unit * 0.36),
                (x + a * canvas.unit, top + canvas.unit * 0.5),
            ),
            canvas.unit * 0.003,
        )
        for a in (-0.05, -0.01, 0.035, 0.06)
    ]
    canvas.shapes(cracks, shade(mood.wood, 0.45), 0.7)
    if mood.snow:
        canvas.shape(
            smooth(
                [
                    (x - canvas.unit * 0.085, top),
                    (x - canvas.unit * 0.04, top - canvas.unit * 0.028),
                    (x + canvas.unit * 0.05, top - canvas.unit * 0.026),
                    (x + canvas.unit * 0.085, top),
                    (x, top + canvas.unit * 0.02),
                ]
            ),
            (0.95, 0.97, 1.0),
        )
    _gull(canvas, view, mood, x, top - canvas.unit * 0.004, canvas.unit * (0.3 + 0.06 * dice.random()), side < 0)


def _gull(canvas: Canvas, view: View, mood: Mood, x: float, foot: float, size: float, mirrored: bool) -> None:
    """Standing, side on, looking to the right (or left); the head turns a little with time."""

    def put(*pairs: tuple[float, float]) -> Points:
        return placed(pairs, x, foot, size, mirrored)

    white, back = mood.light, mix(tone("8c98a4"), mood.light, 0.15)
    nod = 0.012 * float(np.sin(view.step * 2.1))
    canvas.lines([put((-0.03, -0.22), (-0.03, 0)), put((0.06, -0.22), (0.06, 0))], size * 0.028, tone("e0a05c"))
    canvas.shapes(
        [put((-0.06, 0.012), (-0.03, -0.03), (0.03, 0.012)), put((0.03, 0.012), (0.06, -0.03), (0.12, 0.012))],
        tone("d8904c"),
    )
    tail = placed(
        smooth([(-0.3, -0.4), (-0.66, -0.24), (-0.62, -0.2), (-0.28, -0.28)], True, 5), x, foot, size, mirrored
    )
    canvas.shape(tail, shade(white, 0.9))
    body = placed(
        smooth(
            [
                (-0.42, -0.33),
                (-0.2, -0.2),
                (0.08, -0.17),
                (0.27, -0.3),
                (0.33, -0.5),
                (0.22 + nod, -0.66),
                (0.02, -0.56),
                (-0.22, -0.48),
            ],
            True,
            8,
        ),
        x,
        foot,
        size,
        mirrored,
    )
    canvas.shape(body, upright(foot - size * 0.65, foot - size * 0.15, [white, shade(white, 0.96), shade(white, 0.68)]))
    head = placed(
        smooth(
            [
                (0.13, -0.58),
                (0.13 + nod, -0.74),
                (0.22 + nod, -0.86),
                (0.36 + nod, -0.86),
                (0.43 + nod, -0.76),
                (0.38 + nod, -0.65),
                (0.34, -0.5),
            ],
            True,
            8,
        ),
        x,
        foot,
        size,
        mirrored,
    )
    canvas.shape(head, upright(foot - size * 0.86, foot - size * 0.5, [white, shade(white, 0.9)]))
    wing = placed(
        smooth(
            [
                (0.2, -0.52),
                (0.04, -0.58),
                (-0.28, -0.48),
                (-0.6, -0.28),
                (-0.78, -0.17),
                (-0.4, -0.22),
                (-0.05, -0.26),
                (0.16, -0.36),
            ],
            True,
            8,
        ),
        x,
        foot,
        size,
        mirrored,
    )
    canvas.shape(wing, upright(foot - size * 0.58, foot - size * 0.2, [shade(back, 1.12), shade(back, 0.78)]))
    canvas.shape(
        placed(
            smooth([(-0.48, -0.33), (-0.8, -0.15), (-0.78, -0.12), (-0.42, -0.23)], True, 5), x, foot, size, mirrored
        ),
        tone("24262c"),
    )
    canvas.lines(
        [
            placed(smooth([(0.1, -0.34), (-0.2, -0.29), (-0.5, -0.24)], False, 6), x, foot, size, mirrored),
            placed(smooth([(0.05, -0.42), (-0.2, -0.37), (-0.5, -0.28)], False, 6), x, foot, size, mirrored),
        ],
        size * 0.008,
        shade(back, 0.62),
        0.6,
    )
    bill = placed(
        smooth(
            [(0.41 + nod, -0.79), (0.56 + nod, -0.765), (0.6 + nod, -0.72), (0.55 + nod, -0.725), (0.41 + nod, -0.72)],
            True,
            4,
        ),
        x,
        foot,
        size,
        mirrored,
    )
    canvas.shape(bill, upright(foot - size * 0.79, foot - size * 0.72, [tone("f4c040"), tone("d89420")]))
    spot = put((0.545 + nod, -0.735))
    canvas.dabs(spot, size * 0.012, tone("c83c2c"))
    canvas.dabs(put((0.335 + nod, -0.785)), size * 0.02, tone("e8d060"))
    canvas.dabs(put((0.337 + nod, -0.785)), size * 0.012, (0.05, 0.05, 0.06))
    gleam = put((0.332 + nod, -0.79))[0]
    canvas.shape(ellipse(gleam[0], gleam[1], size * 0.004, size * 0.004), (1, 1, 1))
