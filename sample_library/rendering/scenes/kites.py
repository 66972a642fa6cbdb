"""A wide beach with kites: sky, sea, wet sand that mirrors, people flying."""

import math
from dataclasses import dataclass

import numpy as np

from ..boats import gull
from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..figures import figure
from ..light import bloom
from ..noise import ground
from ..outlines import Points, points, ribbon, smooth, turned
from ..paint import upright
from ..sky import clouds, sky, sun
from ..view import View
from ..water import foam_line, sea


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    lit: Colour
    dark: Colour
    sea: list[Colour]
    sand: list[Colour]
    grass: Colour
    sun: Colour | None = None
    cover: float = 0.5


MOODS = {
    "clear": Mood(
        tones("2f7cc0 6fb0dc b8dcec e6f0ec"),
        tone("ffffff"),
        tone("bccfe0"),
        tones("6ba8bc 3f88a4 5fa4ae"),
        tones("d8c49c e6d2a8 c8ac7c"),
        tone("7d8a4a"),
        None,
        0.42,
    ),
    "evening": Mood(
        tones("3a5a98 8a7cae e89a86 ffcf94"),
        tone("ffc49a"),
        tone("7a6c94"),
        tones("e0a088 8a7c9c 66648c"),
        tones("c89a80 a87c70 7a5a58"),
        tone("4a4438"),
        tone("ffc078"),
        0.5,
    ),
    "storm": Mood(
        tones("5c6c7c 8296a4 b4c0c4 d6d8cc"),
        tone("eef0ea"),
        tone("6a7a88"),
        tones("8a9c9e 64808a 7c9298"),
        tones("b8ac94 a89a80 8a7c64"),
        tone("6c7048"),
        None,
        0.85,
    ),
    "winter": Mood(
        tones("88a6c8 b4c8dc dfe2e4 f6e8da"),
        tone("fffaf2"),
        tone("b6c2d4"),
        tones("a4bcc8 7c9cb0 94aeb8"),
        tones("d8d0c4 cfc4b4 b4a490"),
        tone("94906c"),
        tone("fff0d8"),
        0.3,
    ),
}
_CLOTH = [
    tones("d8402c f2b632 2c5f9c"),
    tones("2a8c7c f4e6c8 e0703c"),
    tones("8c3c7c f0c040 f4f0e4"),
    tones("e8543c f8f0e0 3c3c5c"),
    tones("f0a030 c83c4c 4c9cc0"),
]
_FORMS: dict[str, list[tuple[float, float]]] = {
    "diamond": [(0, -1), (0.62, -0.25), (0, 1), (-0.62, -0.25)],
    "delta": [(0, -0.9), (1.15, 0.55), (0.35, 0.35), (0, 0.6), (-0.35, 0.35), (-1.15, 0.55)],
    "box": [(-0.7, -0.7), (0.7, -0.7), (0.7, 0.7), (-0.7, 0.7)],
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("beach")
    line = canvas.height * (0.56 + 0.14 * dice.random())
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, mood.lit, mood.dark, mood.cover, 0.5 + 0.4 * dice.random(), (0.6, 0.8))
    if mood.sun:
        sun(
            canvas, canvas.width * (0.1 + 0.8 * dice.random()), line - canvas.unit * 0.09, canvas.unit * 0.022, mood.sun
        )
    sea(canvas, view, line, mood.sea, 0.1, 0.12, 0.7 if view.mood == "storm" else 0.25)
    shore = line + (canvas.height - line) * (0.22 + 0.2 * dice.random())
    _sand(canvas, view, mood, line, shore)
    _strollers(canvas, view, mood, shore)
    _people_and_kites(canvas, view, mood, line, shore)
    if view.form == "dune":
        _dune(canvas, view, mood)
    _gulls(canvas, view, line)
    bloom(canvas, 0.8, 0.3)


def _sand(canvas: Canvas, view: View, mood: Mood, line: float, shore: float) -> None:
    rows, columns = canvas.grid()
    slope = (columns / canvas.width - 0.5) * canvas.unit * 0.1 * (1 if view.seed % 2 else -1)
    curve = np.sin(columns / canvas.width * 5 + view.seed) * canvas.unit * 0.012
    edge = shore + slope + curve
    land = np.clip((rows - edge) / 3, 0, 1)
    top = int(line)
    grain = np.zeros((canvas.height, canvas.width), np.float32)
    grain[top:] = ground(view.dice("sand"), (canvas.height - top, canvas.width), canvas.unit * 0.2, 2.5)
    dry = upright(shore, canvas.height, mood.sand)(rows, columns) * (1 + grain * 0.22)[..., None]
    wet = np.clip(1 - (rows - edge) / (canvas.unit * 0.14), 0, 1) * (rows > edge)
    mirrored = canvas.rgb[np.clip(2 * shore - rows, 0, line - 1).astype(int)[:, 0]]
    dry += (mirrored * 0.75 - dry * 0.5 + np.array(mood.sand[0], np.float32) * 0.1 - dry * 0.15) * (wet**0.7 * 0.75)[
        ..., None
    ]
    part = canvas.rgb
    part += (dry.astype(np.float32) - part) * land[..., None]
    foam_line(canvas, view, shore + canvas.unit * 0.004, canvas.unit * 0.05, (0.97, 0.98, 0.98), 0.75)
    foam_line(canvas, view, line + (shore - line) * 0.55, canvas.unit * 0.02, (0.95, 0.97, 0.98), 0.6)


def _dune(canvas: Canvas, view: View, mood: Mood) -> None:
    dice = view.dice("dune")
    left = dice.random() < 0.5
    knots = [(0, 0.66), (0.2, 0.72), (0.42, 0.86), (0.62, 1.02)]
    crest = smooth(
        [((x if left else 1 - x) * canvas.width - view.lean * canvas.width * 1.5, y * canvas.height) for x, y in knots],
        False,
        12,
    )
    area = np.concatenate(
        [
            crest,
            points(
                (crest[-1, 0], canvas.height + 9),
                (-99 if left else canvas.width + 99, canvas.height + 9),
                (-99 if left else canvas.width + 99, crest[0, 1]),
            ),
        ]
    )
    canvas.shape(
        area, upright(canvas.height * 0.66, canvas.height, [shade(mood.sand[1], 0.92), shade(mood.sand[2], 0.7)])
    )
    blades = []
    for _ in range(260):
        base = crest[int(dice.integers(len(crest) - 12))] + (
            dice.normal() * canvas.unit * 0.02,
            canvas.unit * 0.012 + abs(dice.normal()) * canvas.unit * 0.06,
        )
        size = canvas.unit * (0.04 + 0.07 * dice.random())
        bend = size * (0.35 + 0.3 * dice.random() + 0.08 * math.sin(view.step * 2 + base[0] * 0.02))
        blade = smooth(
            [tuple(base), (base[0] + bend * 0.3, base[1] - size * 0.6), (base[0] + bend, base[1] - size)], False, 4
        )
        blades.append(ribbon(blade, np.linspace(canvas.unit * 0.0035, 0.4, len(blade))))
    canvas.shapes(blades[::2], shade(mood.grass, 0.7))
    canvas.shapes(blades[1::2], shade(mood.grass, 1.15))


def _people_and_kites(canvas: Canvas, view: View, mood: Mood, line: float, shore: float) -> None:
    dice = view.dice("flyers")
    count = 2 + int(dice.integers(3))
    centre = 0.3 + 0.4 * dice.random()
    for number in range(count):
        x = canvas.width * (centre + (number - (count - 1) / 2) * 0.17 + 0.1 * dice.normal() - view.lean)
        depth = dice.random()
        foot = shore + canvas.unit * 0.02 + (canvas.height * 0.95 - shore) * depth * 0.55
        height = canvas.unit * (0.07 + 0.13 * depth)
        coat, cap = shade(_CLOTH[number % 5][0], 0.8), _CLOTH[(number + 2) % 5][1]
        hands = figure(
            canvas,
            x,
            foot,
            height,
            mix(coat, mood.sand[2], 0.15),
            cap,
            0.15 * math.sin(view.step * 2 + number),
            (dice.random() * 0.6, 0.35 + 0.4 * dice.random()),
        )
        _shadow(canvas, mood, x, foot, height)
        _kite(canvas, view, hands[1], line, dice)


def _shadow(canvas: Canvas, mood: Mood, x: float, foot: float, height: float) -> None:
    cast = points(
        (x - height * 0.1, foot),
        (x + height * 0.1, foot),
        (x + height * 0.7, foot + height * 0.12),
        (x + height * 0.5, foot + height * 0.13),
    )
    canvas.shape(cast, shade(mood.sand[2], 0.6), 0.35, canvas.unit * 0.004)


def _strollers(canvas: Canvas, view: View, mood: Mood, shore: float) -> None:
    """People who only walk along the water, far off."""
    dice = view.dice("strollers")
    for number in range(int(dice.integers(4))):
        x = canvas.width * (dice.random() - view.lean * 0.5) + view.step * canvas.unit * 0.01
        height = canvas.unit * (0.05 + 0.02 * dice.random())
        foot = shore + canvas.unit * (0.03 + 0.02 * dice.random())
        for aside, size in ((0.0, 1.0), (0.42, 0.62 + 0.4 * dice.random())):
            _shadow(canvas, mood, x + aside * height, foot, height * size)
            figure(
                canvas,
                x + aside * height,
                foot,
                height * size,
                mix(_CLOTH[(number + 3) % 5][2], mood.sand[2], 0.3),
                _CLOTH[number][0],
                0.3 * math.sin(view.step * 4 + x),
                (0.05, 0.05),
            )


def _kite(canvas: Canvas, view: View, hand: Points, line: float, dice: np.random.Generator) -> None:
    phase = dice.random() * 6
    drift = (
        np.array((math.sin(view.step * 0.9 + phase) * 0.035, math.cos(view.step * 0.7 + phase) * 0.022)) * canvas.unit
    )
    spot = (
        np.array((hand[0] + canvas.width * (dice.random() * 0.34 - 0.05), line * (0.12 + 0.55 * dice.random()))) + drift
    )
    spot[0] = min(max(spot[0], canvas.width * 0.07), canvas.width * 0.93)
    size = canvas.unit * (0.035 + 0.055 * dice.random())
    lean = 0.35 * math.sin(view.step * 1.3 + phase) + 0.3
    cloth = _CLOTH[int(dice.integers(5))]
    name = ("diamond", "delta", "diamond", "box")[int(dice.integers(4))]
    sag = smooth([tuple(hand), tuple((hand + spot) / 2 + (0, canvas.unit * 0.03)), tuple(spot)], False, 14)
    canvas.lines([sag], canvas.unit * 0.0011, (0.95, 0.95, 0.92), 0.55)
    corners = turned(np.array(_FORMS[name]) * size + spot, lean, (spot[0], spot[1]))
    _tail(canvas, view, corners[2 if name == "diamond" else 3], size, phase, cloth)
    middle = corners.mean(0)
    for index in range(len(corners)):
        piece = np.array([middle, corners[index], corners[(index + 1) % len(corners)]])
        colour = cloth[index % 2] if name != "delta" else cloth[index % 3]
        canvas.shape(piece, shade(colour, 1.06 - 0.1 * (index % 3)))
    if name == "box":
        canvas.shape(turned(np.array(_FORMS["box"]) * size * 0.42 + spot, lean, (spot[0], spot[1])), cloth[2])
    canvas.lines([corners[[0, 2 if name == "diamond" else 3]]], size * 0.035, shade(cloth[2], 0.55), 0.8)


def _tail(canvas: Canvas, view: View, start: Points, size: float, phase: float, cloth: list[Colour]) -> None:
    t = np.linspace(0, 1, 40)
    wave = np.sin(t * 9 - view.step * 3 + phase) * size * 0.32 * t
    path = np.stack([start[0] + t * size * 1.3 + wave * 0.4, start[1] + t * size * 2.6 + wave], 1)
    canvas.shape(ribbon(path, np.linspace(size * 0.1, size * 0.03, 40)), cloth[2], 0.95)
    for place in (10, 19, 28, 36):
        x, y = path[place]
        bow = points(
            (x - size * 0.2, y - size * 0.1),
            (x, y),
            (x + size * 0.2, y - size * 0.1),
            (x + size * 0.2, y + size * 0.1),
            (x, y),
            (x - size * 0.2, y + size * 0.1),
        )
        canvas.shape(bow, cloth[place % 2])


def _gulls(canvas: Canvas, view: View, line: float) -> None:
    dice = view.dice("gulls")
    for _ in range(int(2 + dice.integers(4))):
        x = dice.random() * canvas.width + view.step * canvas.unit * 0.03
        gull(
            canvas,
            x,
            line * (0.2 + 0.6 * dice.random()),
            canvas.unit * (0.015 + 0.025 * dice.random()),
            view.step * 5 + dice.random() * 6,
        )
