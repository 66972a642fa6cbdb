"""New Year's night over the harbour."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas, blurred
from ..colour import Colour, mix, tones
from ..houses import Street, house_row
from ..light import bloom
from ..noise import ease, field
from ..outlines import box, points, smooth
from ..sky import sky, stars
from ..view import View
from ..water import mirror


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    fires: list[Colour]
    water: Colour


MOODS = {
    "gold": Mood(tones("060918 0e1530 1c2444 3a3450"), tones("ffd27a ffb04c fff0c8 ff8c5c"), (0.03, 0.04, 0.1)),
    "colours": Mood(
        tones("070a1e 121a3c 222a55 3c3c64"), tones("ff5c6c 6cc8ff ffe08c 8cff9c d08cff"), (0.03, 0.05, 0.13)
    ),
    "late": Mood(tones("0a0c14 14182a 242840 34344c"), tones("c8e0ff ffa0a0 fff0d0"), (0.04, 0.05, 0.08)),
    "red": Mood(tones("10081a 241030 401c3c 5c3444"), tones("ff6c4c ff3c5c ffc060"), (0.07, 0.03, 0.08)),
}
_SLATE = tones("2a2c40 33303e 282a38")


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("fireworks")
    line = canvas.height * (0.66 + 0.12 * dice.random())
    sky(canvas, line, mood.sky)
    stars(canvas, view, line * 0.7, 90)
    _smoke(canvas, view, mood, line)
    for number in range(3 + int(dice.integers(3))):
        _burst(canvas, view, mood, number, line, dice)
    street = Street(_SLATE, tones("181a2a 1c1a28"), (0.08, 0.09, 0.14), 0.55, air=mood.sky[-1], far=0.1)
    house_row(
        canvas,
        view.dice("houses"),
        street,
        -10 - view.lean * 300,
        canvas.width + 10,
        line - 4,
        canvas.unit * (0.1 + 0.06 * dice.random()),
    )
    canvas.shape(box(-9, line - canvas.unit * 0.012, canvas.width + 9, line + 9), (0.05, 0.05, 0.09))
    mirror(canvas, view, line, mood.water, 0.35, 1.0)
    if view.form == "people":
        _onlookers(canvas, view)
    bloom(canvas, 0.6, 0.5, 0.015)


def _burst(canvas: Canvas, view: View, mood: Mood, number: int, line: float, dice: np.random.Generator) -> None:
    x, y = canvas.width * (0.12 + 0.76 * dice.random() - view.lean * 0.2), line * (0.12 + 0.42 * dice.random())
    age = 0.35 + 0.65 * ((dice.random() + view.step * 0.28) % 1.0)
    size = canvas.unit * (0.14 + 0.14 * dice.random()) * age**0.5
    colour = mood.fires[number % len(mood.fires)]
    rays = 26 + int(dice.integers(18))
    canvas.glow(x, y, size * 2.4, colour, 0.3 * (1.2 - age))
    willow = dice.random() < 0.35
    for shell, share in ((colour, 1.0), (mix(colour, mood.fires[(number + 1) % len(mood.fires)], 0.8), 0.58)):
        paths, tips = _rays(dice, x, y, size * share, rays, 0.55 * age * (2.2 if willow else 1.0))
        canvas.lines([path[len(path) // 2 :] for path in paths], canvas.unit * 0.0016, shell, 0.65 * (1.25 - age))
        canvas.lines(
            [path[-len(path) // 3 :] for path in paths], canvas.unit * 0.0022, mix(shell, (1, 1, 1), 0.35), 0.9
        )
        canvas.dabs(tips, canvas.unit * 0.0026, mix(shell, (1, 1, 1), 0.6))
    canvas.glow(x, y, size * 0.35, mix(colour, (1, 1, 1), 0.8), 1.1 * max(0.0, 0.75 - age))


def _rays(
    dice: np.random.Generator, x: float, y: float, size: float, count: int, drop: float
) -> tuple[list[np.ndarray], np.ndarray]:
    t = np.linspace(0, 1, 14)
    paths = []
    for number in range(count):
        angle = 2 * math.pi * (number + 0.4 * dice.random()) / count
        reach = size * (0.75 + 0.3 * dice.random()) * math.sqrt(dice.random() * 0.6 + 0.4)
        paths.append(
            np.stack([x + np.cos(angle) * reach * t, y + np.sin(angle) * reach * t + drop * size * t * t * 0.5], 1)
        )
    return paths, np.array([path[-1] for path in paths])


def _smoke(canvas: Canvas, view: View, mood: Mood, line: float) -> None:
    noise = field(view.dice("smoke"), (canvas.height, canvas.width), (canvas.unit * 0.2, canvas.unit * 0.4), 4)
    rows, _ = canvas.grid()
    band = np.clip(1 - np.abs(rows / line - 0.55) * 2.2, 0, 1)
    canvas.light(ease(blurred(noise, 6), 0.5, 0.85) * band * np.float32(0.32), mix(mood.fires[0], mood.sky[-1], 0.6))


def _onlookers(canvas: Canvas, view: View) -> None:
    dice = view.dice("people")
    dark = (0.025, 0.025, 0.045)
    x = -0.05 * canvas.width
    while x < canvas.width * 1.05:
        size = canvas.unit * (0.16 + 0.1 * dice.random())
        foot = canvas.height + size * 0.25
        head = points((x, foot - size * 0.94))
        canvas.dabs(head, size * 0.115, dark)
        body = smooth(
            points(
                (x - size * 0.28, foot),
                (x - size * 0.24, foot - size * 0.62),
                (x - size * 0.1, foot - size * 0.8),
                (x + size * 0.1, foot - size * 0.8),
                (x + size * 0.24, foot - size * 0.62),
                (x + size * 0.28, foot),
            ),
            True,
            5,
        )
        canvas.shape(body, dark, 1.0, canvas.unit * 0.0015)
        if dice.random() < 0.3:
            hand = points((x + size * 0.2, foot - size * 0.6), (x + size * 0.36, foot - size * 1.05))
            canvas.lines([hand], size * 0.09, dark)
            canvas.glow(hand[1, 0], hand[1, 1], size * 0.6, (1.0, 0.8, 0.45), 0.8)
            canvas.dabs(hand[1:] + dice.normal(size=(26, 2)) * size * 0.07, canvas.unit * 0.0017, (1.0, 0.92, 0.7))
        x += size * (0.5 + 0.9 * dice.random())
