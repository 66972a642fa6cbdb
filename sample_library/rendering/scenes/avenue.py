"""The avenue of trees in the park through the seasons."""

from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..figures import figure
from ..light import bloom, haze, shafts
from ..noise import ground
from ..outlines import box, down_to, ellipse, points, ridge, rounded
from ..paint import upright
from ..plants import bare_tree, leafy_tree
from ..sky import clouds, sky, sun
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    grass: list[Colour]
    path: list[Colour]
    bark: Colour
    leaves: list[Colour]
    fullness: float
    air: Colour
    sun: Colour | None = None
    fallen: list[Colour] | None = None
    snow: float = 0.0


MOODS = {
    "autumn": Mood(
        tones("8cb4d0 d0d8d0 f8e0b0"),
        tones("a89c54 8c8444 5c5c30"),
        tones("d8b88c b89468"),
        tone("54402f"),
        tones("8c4420 c8701c f0a830"),
        0.9,
        tone("f0d8a4"),
        tone("ffe0a0"),
        tones("c8641c e8a02c a84820 d8b83c"),
    ),
    "late": Mood(
        tones("a4a8ac bcb8b0 d8c8b0"),
        tones("8c8460 747050 4c4c38"),
        tones("a89484 887464"),
        tone("4c4038"),
        tones("7c4424 a85c28"),
        0.25,
        tone("ccc0b0"),
        None,
        tones("a8642c 8c4c24 b88c3c"),
    ),
    "winter": Mood(
        tones("90a4c0 bccada e8dcd8"),
        tones("e4e8f0 d0d8e4 a8b4c8"),
        tones("d8dce6 bcc4d4"),
        tone("4c4448"),
        [],
        0.0,
        tone("d8dce6"),
        tone("ffe4cc"),
        None,
        0.9,
    ),
    "spring": Mood(
        tones("78b8ec b8dcf0 f0f4e0"),
        tones("94c05c 74a848 4c8038"),
        tones("e0ccac c4ac88"),
        tone("5c4c40"),
        tones("7ca444 a4c858 d8e890"),
        0.55,
        tone("e8f0d0"),
        tone("fff4d0"),
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("avenue")
    line = canvas.height * (0.46 + 0.1 * dice.random())
    vanish = canvas.width * (0.34 + 0.32 * dice.random() - view.lean * 0.15)
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, (1, 0.99, 0.96), mix(mood.sky[0], mood.sky[-1], 0.5), 0.4, 0.7)
    low_sun = vanish + canvas.unit * 0.12 * dice.normal(), line - canvas.unit * (0.12 + 0.12 * dice.random())
    if mood.sun:
        sun(canvas, *low_sun, canvas.unit * 0.022, mood.sun)
    far = ridge(view.dice("far"), -20, canvas.width + 20, line, canvas.unit * 0.1, 18)
    canvas.shape(down_to(far, line + 5), mix(mix(mood.bark, mood.grass[0], 0.5), mood.air, 0.65))
    canvas.shape(
        box(-9, line, canvas.width + 9, canvas.height + 9),
        upright(line, canvas.height, [mix(mood.grass[0], mood.air, 0.5), *mood.grass]),
    )
    _path(canvas, view, mood, line, vanish)
    _trees(canvas, view, mood, line, vanish)
    haze(canvas, line - canvas.unit * 0.25, line + canvas.unit * 0.15, mood.air, 0.4)
    if mood.sun:
        shafts(canvas, *low_sun, mood.sun, 0.3, view.dice("rays"))
    if mood.fallen:
        _leaves(canvas, view, mood, line)
    bloom(canvas, 0.8, 0.4, 0.03)


def _path(canvas: Canvas, view: View, mood: Mood, line: float, vanish: float) -> None:
    shift = -view.lean * canvas.width * 1.4
    wide = canvas.unit * 0.42
    middle = canvas.width * 0.5 + shift + (canvas.width * 0.5 - vanish) * 0.3
    lane = points(
        (vanish - 6, line + 3),
        (vanish + 6, line + 3),
        (middle + wide, canvas.height + 9),
        (middle - wide, canvas.height + 9),
    )
    canvas.shape(
        lane, upright(line, canvas.height, [mix(mood.path[0], mood.air, 0.4), *mood.path]), 1.0, canvas.unit * 0.003
    )
    rows = canvas.height - int(line)
    texture = ground(view.dice("ground"), (rows, canvas.width), canvas.unit * 0.05, 1.5)
    bars = ground(view.dice("shadows"), (rows, canvas.width), canvas.unit * 0.3, 7.0)
    canvas.rgb[int(line) :] *= (1 + texture * 0.09 + np.clip(bars, -0.5, 0.1) * (0.55 if mood.sun else 0.2))[..., None]


def _trees(canvas: Canvas, view: View, mood: Mood, line: float, vanish: float) -> None:
    dice = view.dice("trees")
    places: list[tuple[float, int, int]] = []
    for number in range(7):
        depth = 1 / (1 + 0.62 * (6 - number) + 0.12 * dice.random())
        places += [(depth, side, number) for side in (-1, 1)]
    for depth, side, number in sorted(places):
        reach = canvas.unit * 0.98 * depth
        x = vanish + side * reach + (canvas.width * 0.5 - vanish) * 0.4 * depth - view.lean * canvas.width * 1.4 * depth
        foot = line + (canvas.height - line) * depth * 0.86
        height = canvas.unit * 1.25 * depth * (0.9 + 0.2 * dice.random())
        air = 0.55 * (1 - depth) ** 1.5
        tree = view.dice(f"tree{number}{side}")
        canvas.shadow(ellipse(x + height * 0.05, foot, height * 0.12, height * 0.018), 0.35, height * 0.01)
        if mood.leaves:
            leafy_tree(
                canvas,
                tree,
                x,
                foot,
                height,
                mix(mood.bark, mood.air, air),
                [mix(leaf, mood.air, air) for leaf in mood.leaves],
                mood.fullness,
                -side,
            )
        else:
            bare_tree(canvas, tree, x, foot, height, mix(mood.bark, mood.air, air), 5, mood.snow)
        if number == 3 and side == 1:
            _walkers(canvas, view, line, vanish)


def _walkers(canvas: Canvas, view: View, line: float, vanish: float) -> None:
    dice = view.dice("walkers")
    coats, caps = tones("a83c34 3c5c7c d8a038 4c6c4c"), tones("e8d8c0 c85c3c 2c3c54 e0b040")
    depth = 0.34 + 0.14 * dice.random() - 0.01 * view.step
    foot = line + (canvas.height - line) * depth
    middle = vanish + (canvas.width * 0.5 - vanish) * 0.4 * depth - view.lean * canvas.width * depth
    height = canvas.unit * 0.62 * depth
    for number, (aside, size) in enumerate(((-0.16, 1.0), (0.2, 0.94), (0.5, 0.62))[: 2 + view.seed % 2]):
        x = middle + aside * height * 1.3
        canvas.shadow(ellipse(x, foot, height * 0.16, height * 0.025), 0.4, height * 0.015)
        figure(
            canvas,
            x,
            foot,
            height * size,
            coats[(number + view.seed) % 4],
            caps[(number + view.seed) % 4],
            0.22 * float(np.sin(view.step * 5 + number * 2)),
            (0.06, 0.06),
        )
    if view.form == "bench":
        _bench(canvas, vanish - canvas.unit * 0.36, line + (canvas.height - line) * 0.4, canvas.unit * 0.2)


def _bench(canvas: Canvas, x: float, foot: float, size: float) -> None:
    wood = tone("7c5438")
    canvas.shapes(
        [box(x + a * size, foot - size * 0.45, x + (a + 0.05) * size, foot) for a in (-0.55, 0.5)], tone("2c2c30")
    )
    canvas.shapes(
        [
            rounded(x - size * 0.6, foot - size * level, x + size * 0.6, foot - size * (level - 0.07), 3)
            for level in (0.3, 0.48, 0.6)
        ],
        upright(foot - size * 0.6, foot - size * 0.2, [shade(wood, 1.3), wood]),
    )


def _leaves(canvas: Canvas, view: View, mood: Mood, line: float) -> None:
    dice = view.dice("leaves")
    assert mood.fallen is not None
    for colour in mood.fallen:
        count = 170
        depth = dice.random(count) ** 0.6
        spots = np.stack(
            [
                dice.random(count) * canvas.width - view.lean * canvas.width * depth,
                line + (canvas.height - line) * (0.08 + 0.95 * depth),
            ],
            1,
        )
        canvas.dabs(spots, canvas.unit * (0.001 + 0.0045 * depth), colour, 0.85)
    falling = dice.random((26, 2)) * (canvas.width, canvas.height * 0.85)
    falling[:, 1] += view.step * canvas.unit * 0.05
    for spot in falling:
        angle, size = dice.random() * 6, canvas.unit * (0.004 + 0.006 * dice.random())
        canvas.shape(
            ellipse(spot[0], spot[1], size, size * 0.5, angle + view.step, 14),
            mood.fallen[int(dice.integers(len(mood.fallen)))],
            0.95,
        )
