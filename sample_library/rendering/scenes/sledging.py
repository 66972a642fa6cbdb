"""The sledging hill under snow."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..figures import figure
from ..light import bloom, haze
from ..noise import ground
from ..outlines import Points, down_to, ellipse, moved, points, ribbon, ridge, smooth
from ..paint import grained, slanted
from ..plants import fir
from ..sky import clouds, sky, sun
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    sky: list[Colour]
    snow: list[Colour]
    fir: Colour
    air: Colour
    sun: Colour | None = None
    fall: float = 0.0


MOODS = {
    "bright": Mood(
        tones("2c7ccc 74b4e8 c0dff2 f0f4f4"),
        tones("fdfcfa dce8f6 b4cce8"),
        tone("2c5a4c"),
        tone("d4e4f2"),
        tone("fff4d8"),
    ),
    "pink": Mood(
        tones("5c74b4 a894c4 f0b0b4 ffe0c4"),
        tones("fff0ec e0d0e4 a4a4d0"),
        tone("3c4c60"),
        tone("e8ccd8"),
        tone("ffdca8"),
    ),
    "snowing": Mood(
        tones("a0acbc bcc4d0 d4d8e0"), tones("f4f6fa dce2ec c0cad8"), tone("4c6468"), tone("d0d6e0"), None, 1.0
    ),
}
_COATS = tones("d83c34 2c6cac e8a82c 3c8c64 8c4c94 e8703c")


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("sledging")
    line = canvas.height * (0.44 + 0.08 * dice.random())
    left = bool(dice.random() < 0.5)
    sky(canvas, line, mood.sky)
    clouds(canvas, view, line, (1, 1, 1), mix(mood.sky[0], mood.sky[-1], 0.6), 0.35, 0.6)
    if mood.sun:
        sun(canvas, canvas.width * (0.75 if left else 0.25), line * 0.5, canvas.unit * 0.02, mood.sun)
    for number, depth in enumerate((0.16, 0.1)):
        hill = ridge(
            view.dice(f"hill{number}"),
            -20,
            canvas.width + 20,
            line + canvas.unit * 0.03 * number,
            canvas.unit * depth,
            7,
        )
        canvas.shape(down_to(hill, canvas.height), mix(mood.snow[1], mood.air, 0.5))
        _wood(canvas, view, mood, hill, number)
    haze(canvas, line - canvas.unit * 0.2, line + canvas.unit * 0.2, mood.air, 0.45)
    slope = _slope(canvas, view, mood, line, left)
    _tracks(canvas, view, mood, slope, left)
    _sledgers(canvas, view, mood, slope, left)
    for number in range(2):
        x = (
            canvas.width * ((0.04 if left else 0.96) + (0.1 if left else -0.1) * number)
            - view.lean * canvas.width * 1.6
        )
        fir(
            canvas,
            x,
            np.interp(x, slope[:, 0], slope[:, 1]) + canvas.unit * (0.16 + 0.1 * number),
            canvas.unit * (0.5 + 0.1 * dice.random()),
            mood.fir,
            0.9,
            dice,
        )
    if mood.fall:
        for count, radius in ((300, 0.002), (80, 0.005)):
            spots = dice.random((count, 2)) * (canvas.width, canvas.height) + (0, view.step * canvas.unit * 0.07)
            canvas.dabs(spots, radius * canvas.unit, (1, 1, 1), 0.8, radius * canvas.unit * 0.4)
    bloom(canvas, 0.88, 0.3)


def _wood(canvas: Canvas, view: View, mood: Mood, hill: Points, number: int) -> None:
    dice = view.dice(f"wood{number}")
    for _ in range(16 - 4 * number):
        at = hill[int(dice.integers(len(hill)))]
        fir(
            canvas,
            at[0] + dice.normal() * 20,
            at[1] + canvas.unit * 0.03 * dice.random(),
            canvas.unit * (0.07 + 0.06 * dice.random() + 0.05 * number),
            mix(mood.fir, mood.air, 0.6 - 0.2 * number),
            0.6,
        )


def _slope(canvas: Canvas, view: View, mood: Mood, line: float, left: bool) -> Points:
    """The near hillside, falling from one side to the other; gives back its crest."""
    dice = view.dice("slope")
    knots = [(-0.1, -0.03), (0.12, 0.0), (0.36, 0.14 + 0.05 * dice.random()), (0.62, 0.29), (0.85, 0.34), (1.1, 0.33)]
    crest = smooth(
        [((share if left else 1 - share) * canvas.width, line + drop * canvas.unit) for share, drop in knots], False, 16
    )
    if not left:
        crest = crest[::-1]
    texture = np.full((canvas.height, canvas.width), 0.5, np.float32)
    top = int(line)
    texture[top:] += ground(view.dice("snow"), (canvas.height - top, canvas.width), canvas.unit * 0.22, 2.5)
    sunny, dark = ((canvas.width, line), (0, canvas.height)) if left else ((0, line), (canvas.width, canvas.height))
    canvas.shape(down_to(crest, canvas.height + 9), grained(slanted(sunny, dark, mood.snow), texture, 0.14))
    canvas.shape(ribbon(moved(crest, 0, canvas.unit * 0.006), canvas.unit * 0.012), (1, 1, 1), 0.6, canvas.unit * 0.004)
    return crest


def _tracks(canvas: Canvas, view: View, mood: Mood, slope: Points, left: bool) -> None:
    dice = view.dice("tracks")
    way = 1 if left else -1
    for _ in range(5):
        x = canvas.width * (0.2 if left else 0.8) + dice.normal() * canvas.unit * 0.06
        y = np.interp(x, slope[:, 0], slope[:, 1]) + canvas.unit * (0.02 + 0.2 * dice.random())
        run = smooth(
            [
                (x, y),
                (x + way * canvas.unit * 0.35, y + canvas.unit * (0.16 + 0.06 * dice.random())),
                (x + way * canvas.unit * 0.85, y + canvas.unit * (0.34 + 0.12 * dice.random())),
            ],
            False,
            16,
        )
        for aside in (-1, 1):
            canvas.shape(
                ribbon(
                    moved(run, 0, aside * canvas.unit * 0.008),
                    np.linspace(canvas.unit * 0.002, canvas.unit * 0.008, len(run)),
                ),
                mood.snow[2],
                0.55,
                canvas.unit * 0.0015,
            )


def _sledgers(canvas: Canvas, view: View, mood: Mood, slope: Points, left: bool) -> None:
    dice = view.dice("sledgers")
    way = 1 if left else -1
    people = []
    for number in range(6):
        share = dice.random()
        riding = number % 3 != 2
        travel = view.step * (0.07 if riding else -0.015)
        along = (0.18 + 0.62 * share + travel) if left else 1 - (0.18 + 0.62 * share + travel)
        x = canvas.width * (along - view.lean)
        depth = dice.random()
        y = (
            np.interp(x, slope[:, 0], slope[:, 1])
            + canvas.unit * (0.03 + 0.26 * depth)
            + abs(travel) * canvas.unit * 0.2
        )
        people.append((y, x, canvas.unit * (0.1 + 0.13 * depth), riding, number, dice.random() * 0.4))
    for y, x, size, riding, number, lift in sorted(people):
        coat, cap = _COATS[(number + view.seed) % 6], _COATS[(number + view.seed + 2) % 6]
        canvas.shadow(
            ellipse(x + way * size * 0.1, y + size * 0.03, size * 0.45, size * 0.07), 0.35, size * 0.04, mood.snow[2]
        )
        if riding:
            _sledge(canvas, x, y, size, way, coat, cap, lift)
        else:
            hands = figure(
                canvas, x, y, size * 1.1, coat, cap, 0.25 * math.sin(view.step * 4 + number), (0.1, 0.15), 0.2
            )
            canvas.lines(
                [np.array([hands[0], (x - way * size * 0.75, y - size * 0.06)])], size * 0.012, (0.3, 0.25, 0.2)
            )
            _runners(canvas, x - way * size * 0.95, y + size * 0.02, size * 0.8, way)


def _runners(canvas: Canvas, x: float, y: float, size: float, way: int) -> None:
    wood = tone("a8703c")
    runner = smooth(
        [
            (x - way * size * 0.4, y - size * 0.02),
            (x + way * size * 0.3, y),
            (x + way * size * 0.48, y - size * 0.08),
            (x + way * size * 0.46, y - size * 0.18),
        ],
        False,
        6,
    )
    canvas.lines([runner], size * 0.04, shade(wood, 0.7))
    canvas.shapes(
        [
            points(
                (x + way * a * size, y),
                (x + way * a * size, y - size * 0.15),
                (x + way * (a + 0.04) * size, y - size * 0.15),
                (x + way * (a + 0.04) * size, y),
            )
            for a in (-0.3, 0.2)
        ],
        shade(wood, 0.6),
    )
    canvas.shape(
        points(
            (x - way * size * 0.42, y - size * 0.19),
            (x + way * size * 0.4, y - size * 0.19),
            (x + way * size * 0.4, y - size * 0.13),
            (x - way * size * 0.42, y - size * 0.13),
        ),
        wood,
    )


def _sledge(canvas: Canvas, x: float, y: float, size: float, way: int, coat: Colour, cap: Colour, lift: float) -> None:
    """Somebody sitting on a sledge, leaning back, sideways on."""
    _runners(canvas, x, y, size, way)
    dark = mix(shade(coat, 0.35), tone("20243c"), 0.5)
    leg = smooth(
        [
            (x - way * size * 0.12, y - size * 0.25),
            (x + way * size * 0.2, y - size * 0.34),
            (x + way * size * 0.46, y - size * 0.16),
        ],
        False,
        6,
    )
    canvas.shape(ribbon(leg, np.linspace(size * 0.16, size * 0.1, len(leg))), dark)
    body = smooth(
        [
            (x - way * size * 0.28, y - size * 0.18),
            (x - way * size * 0.36, y - size * 0.5),
            (x - way * size * 0.26, y - size * 0.72),
            (x - way * size * 0.08, y - size * 0.68),
            (x + way * size * 0.02, y - size * 0.2),
        ],
        True,
        6,
    )
    canvas.shape(
        body,
        slanted(
            (x - size * 0.3, y - size * 0.7), (x + size * 0.1, y - size * 0.2), [shade(coat, 1.2), shade(coat, 0.75)]
        ),
    )
    arm = smooth(
        [
            (x - way * size * 0.18, y - size * 0.58),
            (x + way * size * 0.02, y - size * (0.5 + 0.5 * lift)),
            (x + way * size * 0.18, y - size * (0.42 + 1.1 * lift)),
        ],
        False,
        6,
    )
    canvas.shape(ribbon(arm, np.linspace(size * 0.12, size * 0.08, len(arm))), shade(coat, 0.85))
    head = (x - way * size * 0.17, y - size * 0.84)
    canvas.shape(ellipse(head[0], head[1], size * 0.105, size * 0.115), (0.88, 0.7, 0.58))
    canvas.shape(ellipse(head[0] - way * size * 0.012, head[1] - size * 0.045, size * 0.115, size * 0.09), cap)
    tail = smooth(
        [
            (head[0], head[1] + size * 0.11),
            (head[0] - way * size * 0.2, head[1] + size * 0.13),
            (head[0] - way * size * 0.38, head[1] + size * 0.05),
        ],
        False,
        6,
    )
    canvas.shape(ribbon(tail, np.linspace(size * 0.09, size * 0.06, len(tail))), mix(cap, (1, 1, 1), 0.25))
    canvas.dabs(points((head[0], head[1] - size * 0.15)), size * 0.035, mix(cap, (1, 1, 1), 0.5))
