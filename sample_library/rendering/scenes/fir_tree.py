"""The decorated tree in the living room."""

import math
from dataclasses import dataclass

import numpy as np

from ..canvas import Canvas
from ..colour import Colour, mix, shade, tone, tones
from ..light import bloom
from ..noise import field
from ..outlines import Points, box, ellipse, points, ribbon, smooth
from ..paint import grained, round_about, sideways, upright
from ..rooms import bokeh, light_pool, planks, wall, window
from ..view import View


@dataclass(frozen=True, slots=True)
class Mood:
    wall: Colour
    floor: Colour
    needles: Colour
    balls: list[Colour]
    lights: list[Colour]
    light: float


MOODS = {
    "warm": Mood(tone("7c5448"), tone("6c4830"), tone("2c5a40"), tones("c83434 d8a440 e8dcc4"), tones("ffd890"), 0.62),
    "night": Mood(
        tone("34384c"), tone("443438"), tone("1e4438"), tones("b8485c 8c9cc4 e0c484"), tones("ffdca0 ffb878"), 0.42
    ),
    "day": Mood(tone("d0c8b8"), tone("b08860"), tone("4c7c54"), tones("c84c40 e8e0d0 5c84a0"), tones("fff0c0"), 0.95),
}


def paint(canvas: Canvas, view: View) -> None:
    mood = MOODS[view.mood]
    dice = view.dice("fir")
    floor = canvas.height * (0.82 + 0.04 * dice.random())
    x = canvas.width * (0.42 + 0.16 * dice.random() - view.lean)
    wall(canvas, shade(mood.wall, 0.5 + 0.5 * mood.light), (x / canvas.width, 0.45), 0.5)
    side = canvas.width * (0.84 if x < canvas.width / 2 else 0.16) - view.lean * canvas.width * 0.4
    half = canvas.unit * 0.16
    outside = tones("b8d0e4 ece8e0") if mood.light > 0.8 else tones("141c38 2c3458")
    canvas.shape(
        box(side - half, canvas.height * 0.16, side + half, canvas.height * 0.58),
        upright(canvas.height * 0.16, canvas.height * 0.58, outside),
    )
    window(
        canvas,
        side - half,
        canvas.height * 0.16,
        side + half,
        canvas.height * 0.58,
        shade(mix((0.95, 0.93, 0.88), mood.wall, 0.3), 0.5 + 0.5 * mood.light),
        (2, 3),
    )
    if mood.light < 0.8:
        bokeh(canvas, view, 14, mood.lights, (0.0, 0.08, 1.0, 0.75), 0.03, 0.35)
    canvas.soften(canvas.unit * 0.005)
    planks(canvas, view, floor, mood.floor, 0.4 + 0.6 * mood.light, 3)
    light_pool(canvas, x, floor + 8, canvas.unit * 0.7, 0.4)
    height = min(canvas.height * 0.74, canvas.unit * 0.92)
    _tree(canvas, view, mood, x, floor - canvas.unit * 0.015, height, dice)
    _gifts(canvas, view, mood, x, floor + (canvas.height - floor) * 0.42, height)
    bloom(canvas, 0.72, 0.5, 0.025)


def _tree(
    canvas: Canvas, view: View, mood: Mood, x: float, foot: float, height: float, dice: np.random.Generator
) -> None:
    grain = field(view.dice("needles"), (canvas.height, canvas.width), (canvas.unit * 0.02, canvas.unit * 0.03), 3)
    canvas.shadow(ellipse(x, foot + height * 0.03, height * 0.42, height * 0.05), 0.5, height * 0.03)
    canvas.shape(box(x - height * 0.03, foot - height * 0.12, x + height * 0.03, foot + height * 0.03), tone("4c3424"))
    tiers = 8
    tips: list[Points] = []
    for tier in range(tiers):
        low = foot - height * (0.06 + 0.107 * tier)
        wide = height * (0.4 - 0.044 * tier)
        high = low - height * 0.2
        edge = []
        for number in range(13):
            share = number / 12 * 2 - 1
            droop = (
                height * (0.035 if number % 2 else 0.0) + abs(share) * -height * 0.012 + dice.normal() * height * 0.006
            )
            edge.append((x + share * wide * (1.0 if number % 2 else 0.93), low + droop))
        tips.append(np.array(edge))
        skirt = np.concatenate([points((x, high)), np.array(edge)[::-1]])
        tint = shade(mood.needles, (0.55 + 0.05 * tier) * (0.6 + 0.5 * mood.light))
        canvas.shape(
            skirt,
            grained(
                sideways(x - wide, x + wide, [shade(tint, 0.7), shade(tint, 1.35), tint, shade(tint, 0.6)]), grain, 0.7
            ),
            1.0,
            height * 0.0025,
        )
        canvas.shape(
            np.concatenate([np.array(edge), (np.array(edge) - (0, height * 0.02))[::-1]]),
            shade(tint, 1.5),
            0.3,
            height * 0.006,
        )
    _trim(canvas, view, mood, height, tips)
    _star(canvas, x, foot - height * 1.03, height * 0.05)


def _trim(canvas: Canvas, view: View, mood: Mood, height: float, tips: list[Points]) -> None:
    dice = view.dice("trim")
    for tier, edge in enumerate(tips[:-1]):
        cord = smooth(
            [
                tuple(edge[0] - (0, height * 0.03)),
                tuple((edge[3] + edge[8]) / 2 + (0, height * 0.012)),
                tuple(edge[12] - (0, height * 0.05)),
            ],
            False,
            12,
        )
        canvas.shape(ribbon(cord, height * 0.006), mix(mood.balls[1], (1, 1, 1), 0.3), 0.55)
        for at in cord[2::4]:
            pulse = 0.75 + 0.25 * math.sin(view.step * 2 + at[0])
            canvas.glow(at[0], at[1], height * 0.055, mood.lights[tier % len(mood.lights)], 0.7 * pulse)
            canvas.dabs(at[None, :], height * 0.0075, (1.0, 0.96, 0.82))
        for at in edge[1::3]:
            if dice.random() < 0.8:
                _ball(
                    canvas,
                    at[0],
                    at[1] - height * 0.005,
                    height * (0.02 + 0.008 * dice.random()),
                    mood.balls[int(dice.integers(len(mood.balls)))],
                )


def _ball(canvas: Canvas, x: float, y: float, radius: float, colour: Colour) -> None:
    canvas.shape(ellipse(x, y - radius * 1.05, radius * 0.2, radius * 0.18, count=16), tone("c8b080"))
    canvas.shape(
        ellipse(x, y, radius, radius),
        round_about(
            x - radius * 0.3,
            y - radius * 0.35,
            radius * 1.6,
            [mix(colour, (1, 1, 1), 0.6), colour, shade(colour, 0.35)],
        ),
    )


def _star(canvas: Canvas, x: float, y: float, size: float) -> None:
    corners = [
        (
            x + math.sin(n * math.pi / 5) * size * (1 if n % 2 == 0 else 0.42),
            y - math.cos(n * math.pi / 5) * size * (1 if n % 2 == 0 else 0.42),
        )
        for n in range(10)
    ]
    canvas.glow(x, y, size * 4.5, (1.0, 0.84, 0.5), 0.6)
    canvas.shape(np.array(corners), upright(y - size, y + size, [(1.0, 0.95, 0.7), (0.95, 0.75, 0.35)]))


def _gifts(canvas: Canvas, view: View, mood: Mood, x: float, foot: float, height: float) -> None:
    dice = view.dice("gifts")
    papers = tones("a83c40 3c6474 d8b45c e8dcc8 5c7c54")
    for number in range(5):
        wide, high = height * (0.06 + 0.05 * dice.random()), height * (0.08 + 0.1 * dice.random())
        gx = x + height * (-0.36 + 0.18 * number + 0.04 * dice.normal())
        level = foot + height * 0.02 * dice.random()
        paper = shade(papers[(number + view.seed) % 5], 0.45 + 0.55 * mood.light)
        band = shade(mix(papers[(number + view.seed + 2) % 5], (1, 1, 1), 0.3), 0.5 + 0.5 * mood.light)
        canvas.shadow(ellipse(gx, level, wide * 1.3, height * 0.02), 0.5, height * 0.012)
        canvas.shape(
            box(gx - wide, level - high, gx + wide, level),
            sideways(gx - wide, gx + wide, [shade(paper, 1.15), shade(paper, 0.72)]),
        )
        canvas.shape(box(gx - wide * 0.13, level - high, gx + wide * 0.13, level), band)
        canvas.shape(box(gx - wide, level - high * 0.6, gx + wide, level - high * 0.5), shade(band, 0.92))
        for way in (-1, 1):
            canvas.shape(
                smooth(
                    [
                        (gx, level - high),
                        (gx + way * wide * 0.55, level - high - wide * 0.5),
                        (gx + way * wide * 0.75, level - high - wide * 0.1),
                    ],
                    True,
                    5,
                ),
                shade(band, 1.05 if way < 0 else 0.8),
            )
