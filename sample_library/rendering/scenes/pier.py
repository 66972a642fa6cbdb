"""The wooden pier running out into the water, lamps along it."""

from dataclasses import dataclass

import numpy as np

from ..boats import gull, sailing_boat
from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..figures import figure
from ..light import bloom, haze
from ..noise import field
from ..outlines import down_to, ellipse, moved, points, ridge
from ..paint import grained, upright
from ..sky import clouds, moon, sky, sun
from ..view import View
from ..water import glitter, sea


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    lit: Colour
    dark: Colour
    sea: list[Colour]
    land: Colour
    wood: Colour
    lamp: float = 0.0
    sun: Colour | None = None
    cover: float = 0.5
    mist: float = 0.0
    snow: float = 0.0


MOODS = {
    "sunset": Mood(
        tones("3c4484 a8689c f48c74 ffcc7c"),
        tone("ffb494"),
        tone("6c5488"),
        tones("f4b084 9c7494 4c4878"),
        tone("54486c"),
        tone("6c4c48"),
        0.5,
        tone("ffc46c"),
    ),
    "blue": Mood(
        tones("0e1c44 24427c 5078a8 a8a8b8"),
        tone("7c8cb0"),
        tone("1c3060"),
        tones("88a0b8 34588c 142c58"),
        tone("243c60"),
        tone("3c4458"),
        1.0,
    ),
    "mist": Mood(
        tones("b4c0c6 c8d0d2 dadcd8"),
        tone("e8eae8"),
        tone("bcc6ca"),
        tones("ccd2d2 a8b4b8 8898a0"),
        tone("a8b4b8"),
        tone("847c78"),
        0.2,
        None,
        0.2,
        0.9,
    ),
    "clear": Mood(
        tones("3488cc 7cbce4 c4e2ee f4f2e4"),
        tone("ffffff"),
        tone("c0d4e4"),
        tones("80bccc 3c8cac 28688c"),
        tone("6c948c"),
        tone("b09470"),
        0.0,
        None,
        0.45,
    ),
    "snow": Mood(
        tones("94a8c8 bccadc e4e0e4"),
        tone("f8f4f4"),
        tone("b0bcd0"),
        tones("bcc8d4 7c98b0 54708c"),
        tone("9cacc0"),
        tone("7c7478"),
        0.3,
        tone("ffe8d0"),
        0.5,
        0.3,
        0.9,
    ),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("pier")
    line = canvas.height * (0.4 + 0.14 * dice.random())
    vanish = canvas.width * (0.25 + 0.5 * dice.random() - view.lean * 0.15)
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, mood.lit, mood.dark, mood.cover, 0.5 + 0.5 * dice.random(), (0.5, 0.8))
    light = canvas.width * (0.2 if vanish > canvas.width / 2 else 0.8)
    if mood.sun:
        sun(canvas, light, line - canvas.unit * (0.05 + 0.1 * dice.random()), canvas.unit * 0.022, mood.sun)
    elif mood.lamp > 0.8:
        moon(canvas, light, line * 0.4, canvas.unit * 0.03)
    coast = ridge(view.dice("coast"), -20, canvas.width + 20, line, canvas.unit * 0.06, 11)
    canvas.shape(down_to(coast, line + 3), mix(mood.land, mood.sky[-1], 0.4))
    sea(canvas, view, line, mood.sea, 0.1, 0.12, 0.15)
    if mood.sun or mood.lamp > 0.8:
        glitter(canvas, view, line, light, canvas.unit * 0.1, mood.sun or tone("c8d4f0"), 0.7)
    for _ in range(2):
        sailing_boat(
            canvas,
            canvas.width * dice.random() + view.step * 3,
            line + canvas.unit * 0.015,
            canvas.unit * (0.05 + 0.04 * dice.random()),
            mix(tone("e8e0d4"), mood.land, 0.4),
            mix(tone("f4f0e8"), mood.sky[-1], 0.35),
            bool(dice.random() < 0.5),
        )
    if mood.mist:
        haze(canvas, line - canvas.unit * 0.4, line + canvas.unit * 0.3, mood.sky[-1], mood.mist)
    _pier(canvas, view, mood, line, vanish, dice)
    bloom(canvas, 0.75, 0.45, 0.025)


def _pier(canvas: Canvas, view: View, mood: Mood, line: float, vanish: float, dice: np.random.Generator) -> None:
    """Decking that narrows to its far end short of the horizon, posts and lamps along both sides."""
    depth = canvas.height - line
    end = line + depth * 0.07
    middle = canvas.width * (0.5 + 0.2 * (0.5 - vanish / canvas.width) - view.lean * 1.2)
    half = canvas.unit * (0.34 + 0.06 * dice.random())

    def at(across: float, y: float) -> tuple[float, float]:
        share = (y - line) / depth
        return vanish + (middle - vanish + across * half) * share, y

    bottom = canvas.height + 9.0
    under = points(at(-1.0, end), at(1.0, end), at(1.0, bottom), at(-1.0, bottom))
    canvas.shadow(
        moved(under, canvas.unit * 0.03, canvas.unit * 0.032), 0.4, canvas.unit * 0.02, shade(mood.sea[2], 0.4)
    )
    grain = field(view.dice("deck"), (canvas.height, canvas.width), (canvas.unit * 0.01, canvas.unit * 0.3), 3)
    wood = [mix(mood.wood, mood.sky[-1], 0.5), shade(mood.wood, 1.1), shade(mood.wood, 0.75)]
    if mood.snow:
        wood = [mix(part, (0.93, 0.95, 1.0), 0.75) for part in wood]
    canvas.shape(
        points(at(-1, end), at(1, end), at(1, bottom), at(-1, bottom)),
        grained(upright(end, canvas.height, wood), grain, 0.4),
    )
    steps = 1 / np.linspace(1 / 0.075, 1 / 1.1, 46)
    gaps = [points(at(-1, line + depth * step), at(1, line + depth * step)) for step in steps]
    for step, gap in zip(steps, gaps, strict=True):
        canvas.lines([gap], canvas.unit * 0.006 * step, shade(mood.wood, 0.3), 0.75)
    places = 1 / np.linspace(1 / 0.09, 1 / 0.86, 7)
    walker = int(dice.integers(2, 5))
    for number, step in enumerate(places):
        y = line + depth * step
        for side in (-1, 1):
            _post(canvas, mood, at(side * 1.03, y), canvas.unit * 0.5 * step, number % 2 == 0 and side == 1)
        if number == walker and view.form != "empty":
            _walkers(canvas, view, mood, at(-0.3, y + depth * 0.02), canvas.unit * 0.62 * step)
    for _ in range(3):
        gull(
            canvas,
            canvas.width * dice.random() + view.step * 30,
            line * (0.3 + 0.6 * dice.random()),
            canvas.unit * (0.02 + 0.03 * dice.random()),
            view.step * 5 + dice.random() * 6,
            mix((0.95, 0.95, 0.95), mood.sky[0], 0.3),
        )


def _post(canvas: Canvas, mood: Mood, foot: tuple[float, float], size: float, lamp: bool) -> None:
    x, y = foot
    dark = shade(mood.wood, 0.55)
    canvas.shape(
        points(
            (x - size * 0.05, y + size * 0.3),
            (x - size * 0.045, y - size * 0.32),
            (x + size * 0.045, y - size * 0.32),
            (x + size * 0.05, y + size * 0.3),
        ),
        upright(y - size * 0.3, y + size * 0.3, [shade(mood.wood, 0.9), dark]),
    )
    canvas.shape(
        ellipse(x, y - size * 0.32, size * 0.045, size * 0.016),
        mix(shade(mood.wood, 1.2), (0.95, 0.96, 1.0), mood.snow),
    )
    if lamp:
        canvas.lines([points((x, y - size * 0.3), (x, y - size * 1.25))], size * 0.03, shade(dark, 0.7))
        canvas.shape(
            points(
                (x - size * 0.07, y - size * 1.36),
                (x + size * 0.07, y - size * 1.36),
                (x + size * 0.05, y - size * 1.22),
                (x - size * 0.05, y - size * 1.22),
            ),
            mix(tone("5c646c"), (1.0, 0.9, 0.64), max(0.2, mood.lamp)),
        )
        canvas.shape(
            points((x - size * 0.09, y - size * 1.36), (x, y - size * 1.46), (x + size * 0.09, y - size * 1.36)),
            shade(dark, 0.6),
        )
        if mood.lamp:
            canvas.glow(x, y - size * 1.28, size * 0.9, (1.0, 0.8, 0.46), 0.75 * mood.lamp)
            canvas.glow(x, y, size * 0.8, (1.0, 0.75, 0.42), 0.45 * mood.lamp, 0.3)


def _walkers(canvas: Canvas, view: View, mood: Mood, foot: tuple[float, float], height: float) -> None:
    coats = tones("a83c38 2c5474 c89434 486450")
    for number in range(1 + view.seed % 2):
        x = foot[0] + number * height * 0.34
        canvas.shadow(ellipse(x, foot[1], height * 0.18, height * 0.03), 0.4, height * 0.02)
        figure(
            canvas,
            x,
            foot[1],
            height * (1 - 0.08 * number),
            mix(coats[(view.seed + number) % 4], mood.land, 0.2),
            coats[(view.seed + number + 2) % 4],
            0.2 * float(np.sin(view.step * 5 + number)),
            (0.05, 0.05),
        )
