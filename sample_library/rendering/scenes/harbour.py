"""The inner harbour: houses on the quay across, boats, and what the water makes of them."""

from dataclasses import dataclass

import numpy as np

from ..boats import fishing_boat, rowing_boat, sailing_boat
from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..houses import Street, house_row
from ..light import bloom, haze
from ..outlines import box, down_to, ridge
from ..paint import upright
from ..sky import clouds, moon, sky, sun
from ..view import View
from ..water import mirror, mirror_thing


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    lit_cloud: Colour
    dark_cloud: Colour
    hill: Colour
    walls: list[Colour]
    roofs: list[Colour]
    water: Colour
    lit: float
    sun: Colour | None
    cover: float = 0.5
    mist: float = 0.0
    snow: float = 0.0
    ripple: float = 1.0
    dim: float = 1.0


MOODS = {
    "dusk": Mood(
        tones("2b3a66 5a5a8c b8748a f0a070 ffd59a"),
        tone("ffb07c"),
        tone("6a5580"),
        tone("5b4f74"),
        tones("8a4a44 a86a4c 6b5566 7c6a6e 9a5a58"),
        tones("3c3148 4a3a4c 33304a"),
        tone("27355a"),
        0.42,
        tone("ffb066"),
    ),
    "night": Mood(
        tones("0a1228 142244 24375f 3d4f74"),
        tone("3a4a6c"),
        tone("1a2645"),
        tone("131d38"),
        tones("2c2e44 3a3344 332c3c 25304a"),
        tones("151a2e 1a1c30"),
        tone("0a1430"),
        0.62,
        None,
        0.4,
        ripple=1.3,
    ),
    "morning": Mood(
        tones("7fb0d8 a8cbe2 d6e2e2 f7e6cc"),
        tone("fff6e6"),
        tone("b4c2d2"),
        tone("8fa6b8"),
        tones("c8644a d89a58 e8cf9a 8fb0a8 b65050 e6ddc8"),
        tones("7a4a40 5f5560 8c5a48"),
        tone("2f5f78"),
        0.0,
        tone("fff0cc"),
        0.45,
    ),
    "fog": Mood(
        tones("aab6bc bcc6c8 cfd4d2 dadbd6"),
        tone("e0e2de"),
        tone("b6c0c4"),
        tone("b2bdc2"),
        tones("9c8078 a8988a 8a9296 b0a49a"),
        tones("7e7c80 868088"),
        tone("8a9aa2"),
        0.12,
        None,
        0.2,
        mist=0.85,
        ripple=0.5,
    ),
    "snow": Mood(
        tones("8fa4c4 b4c0d6 d8d6de f2dcd2"),
        tone("f6e8e4"),
        tone("a8b2ca"),
        tone("aebad0"),
        tones("a85a50 c08a5c d4c4a0 7f98a4 96616a"),
        tones("e2e8f2 d8e0ee"),
        tone("47597c"),
        0.16,
        tone("ffe2c8"),
        0.55,
        snow=0.9,
        ripple=0.6,
    ),
    "gold": Mood(
        tones("4f86b8 86a8c4 d8c49a ffcf7a"),
        tone("ffe0a0"),
        tone("a08a8c"),
        tone("8a7c84"),
        tones("d0784a e0a450 e8c98a b85a48 c89a7c"),
        tones("74453c 8a5242 5c4a50"),
        tone("3a5a6c"),
        0.08,
        tone("ffd070"),
        0.4,
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("harbour")
    line = canvas.height * (0.5 + 0.1 * dice.random())
    _backdrop(canvas, view, mood, line, dice)
    quay = line - canvas.unit * 0.035
    street = Street(
        mood.walls,
        mood.roofs,
        mix(mood.hill, (0.1, 0.12, 0.18), 0.7),
        mood.lit,
        snow=mood.snow,
        air=mood.sky[-2],
        far=0.12 + 0.4 * mood.mist,
    )
    size = canvas.unit * (0.2 + 0.1 * dice.random())
    shift = -view.lean * canvas.width * 0.25
    start, stop = sorted((dice.random() * 0.5 - 0.1, dice.random() * 0.5 + 0.6))
    house_row(
        canvas,
        view.dice("far houses"),
        Street(
            mood.walls,
            mood.roofs,
            street.pane,
            mood.lit * 0.8,
            snow=mood.snow,
            air=mood.sky[-2],
            far=0.45 + 0.4 * mood.mist,
        ),
        -10,
        canvas.width + 10,
        quay,
        size * 0.55,
    )
    house_row(
        canvas, view.dice("houses"), street, start * canvas.width + shift, stop * canvas.width + shift, quay, size
    )
    wall = mix(shade(mood.hill, 0.62), mood.sky[-2], 0.5 * mood.mist)
    canvas.shape(
        box(-5, quay, canvas.width + 5, line + 2),
        upright(quay, line, [mix(wall, (0.9, 0.93, 1), mood.snow * 0.9), wall, shade(wall, 0.6)]),
    )
    _moored(canvas, view, mood, line)
    mirror(canvas, view, line, mood.water, 0.42, mood.ripple)
    if mood.mist:
        haze(canvas, line - canvas.unit * 0.45, line + canvas.unit * 0.3, mood.sky[-1], mood.mist)
    _near_boats(canvas, view, mood, line)
    bloom(canvas, strength=0.45)


def _backdrop(canvas: Canvas, view: View, mood: Mood, line: float, dice: np.random.Generator) -> None:
    side = 0.15 + 0.7 * dice.random()
    sky(canvas, line, mood.sky)
    clouds(
        canvas, view, line, mood.lit_cloud, mood.dark_cloud, mood.cover, 0.45 + 0.5 * dice.random(), (side * 2 - 1, 0.8)
    )
    if mood.sun:
        sun(
            canvas, side * canvas.width, line - canvas.unit * (0.05 + 0.2 * dice.random()), canvas.unit * 0.02, mood.sun
        )
    elif not mood.mist:
        moon(canvas, side * canvas.width, line * 0.3, canvas.unit * 0.028)
    for depth, share in ((0.14, 0.55), (0.09, 0.25)):
        hill = ridge(view.dice(f"hill{depth}"), -20, canvas.width + 20, line - canvas.unit * 0.02, canvas.unit * depth)
        canvas.shape(down_to(hill, line + 5), mix(mood.hill, mood.sky[-1], share + 0.3 * mood.mist))


def _moored(canvas: Canvas, view: View, mood: Mood, line: float) -> None:
    dice = view.dice("moored")
    hulls = [mix(colour, mood.hill, 0.45) for colour in tones("28405c 7c2f2c e4ddcc 2f5a50 c9c2b4")]
    for _ in range(int(3 + dice.integers(4))):
        x = (dice.random() * 1.1 - 0.05 - view.lean * 0.5) * canvas.width
        size = canvas.unit * (0.08 + 0.05 * dice.random())
        hull = hulls[int(dice.integers(len(hulls)))]
        if dice.random() < 0.45:
            fishing_boat(canvas, x, line + 2, size * 1.4, hull, mood.sky[-1], dice.random() < 0.5, mood.lit)
        else:
            sailing_boat(canvas, x, line + 2, size * 1.2, hull, None, dice.random() < 0.5)


def _near_boats(canvas: Canvas, view: View, mood: Mood, line: float) -> None:
    dice = view.dice("near boats")
    rows = canvas.height - line
    bob = np.sin(view.step * 1.4) * canvas.unit * 0.003
    hull = mix(
        tones("a83a30 2c4f78 2f6a5a d8a040 ece4d4")[int(dice.integers(5))], mood.hill, 0.25 + 0.2 * (mood.lit > 0.3)
    )
    x = (0.2 + 0.6 * dice.random() - view.lean * 1.2) * canvas.width
    y = line + rows * (0.34 + 0.14 * dice.random()) + bob
    size = canvas.unit * (0.3 + 0.14 * dice.random())
    flip = bool(dice.random() < 0.5)
    before = canvas.rgb.copy()
    if view.form == "row":
        rowing_boat(canvas, x, y, size * 0.8, hull, flip)
    else:
        fishing_boat(canvas, x, y, size, hull, mood.sky[-1], flip, mood.lit)
    mirror_thing(canvas, view, before, y + size * 0.06, mood.water)
