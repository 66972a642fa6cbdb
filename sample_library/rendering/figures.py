"""People as simple figures seen from afar, mostly from behind; nobody in particular."""

import math

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade
from .outlines import Points, ellipse, placed, points, ribbon, smooth
from .paint import sideways

_COAT = [
    (-0.09, -0.83),
    (0.09, -0.83),
    (0.135, -0.74),
    (0.15, -0.5),
    (0.17, -0.36),
    (0, -0.34),
    (-0.17, -0.36),
    (-0.15, -0.5),
    (-0.135, -0.74),
]
_SKIN = (0.86, 0.68, 0.56)


def figure(
    canvas: Canvas,
    x: float,
    foot: float,
    height: float,
    coat: Colour,
    cap: Colour,
    stride: float = 0.0,
    arms: tuple[float, float] = (0.25, 0.25),
    light: float = 0.35,
) -> tuple[Points, Points]:
    """A person standing on `foot`, `height` pixels tall; gives back where the two hands are.

    `stride` in radians swings the legs, `arms` is how far each arm (left, right) is lifted: 0 hanging, 1 straight up.
    `light` brightens the left side of the coat.
    """
    trousers = mix(shade(coat, 0.35), (0.16, 0.17, 0.24), 0.6)
    for side, swing in ((-1, stride), (1, -stride)):
        hip = (side * 0.06, -0.4)
        end = (side * 0.065 + math.sin(swing) * 0.3, -0.015 - abs(math.sin(swing)) * 0.03)
        leg = placed([hip, ((hip[0] + end[0]) / 2 + 0.01, -0.2), end], x, foot, height)
        canvas.shape(ribbon(leg, [height * 0.105, height * 0.085, height * 0.07]), trousers)
        canvas.shape(
            ellipse(leg[-1, 0] + height * 0.015, foot - height * 0.012, height * 0.055, height * 0.024),
            shade(trousers, 0.6),
        )
    hands = []
    for side, lift in ((-1, arms[0]), (1, arms[1])):
        hands.append(_arm(canvas, x, foot, height, side, lift, shade(coat, 0.86 if side > 0 else 1.0)))
    body = placed(smooth(_COAT, True, 5), x, foot, height)
    reach = height * 0.17
    canvas.shape(body, sideways(x - reach, x + reach, [shade(coat, 1 + light), coat, shade(coat, 0.72)]))
    _head(canvas, x, foot, height, cap, coat)
    return hands[0], hands[1]


def _arm(canvas: Canvas, x: float, foot: float, height: float, side: int, lift: float, coat: Colour) -> Points:
    angle = math.pi * (0.06 + 0.86 * lift)
    elbow = (side * (0.12 + 0.16 * math.sin(angle * 0.8)), -0.77 + 0.17 * math.cos(angle * 0.8))
    hand = (elbow[0] + side * 0.15 * math.sin(angle), elbow[1] + 0.17 * math.cos(angle))
    path = placed(smooth([(side * 0.1, -0.78), elbow, hand], False, 6), x, foot, height)
    canvas.shape(ribbon(path, np.linspace(height * 0.085, height * 0.055, len(path))), coat)
    canvas.shape(
        ellipse(path[-1, 0], path[-1, 1], height * 0.026, height * 0.026), _SKIN if coat[0] > 0.2 else shade(coat, 0.8)
    )
    return np.array(path[-1])


def _head(canvas: Canvas, x: float, foot: float, height: float, cap: Colour, coat: Colour) -> None:
    y = foot - height * 0.91
    size = height * 0.07
    canvas.shape(ellipse(x, y + size * 0.15, size * 0.92, size), mix(_SKIN, coat, 0.3))
    scarf = ellipse(x, y + size * 1.15, size * 1.05, size * 0.42)
    canvas.shape(scarf, mix(cap, (1, 1, 1), 0.2))
    hat = smooth(
        placed(
            [(-1.06, 0.15), (-0.95, -0.6), (-0.45, -1.12), (0.45, -1.12), (0.95, -0.6), (1.06, 0.15), (0, 0.32)],
            x,
            y,
            size,
        ),
        True,
        5,
    )
    canvas.shape(hat, sideways(x - size, x + size, [shade(cap, 1.2), cap, shade(cap, 0.7)]))
    canvas.shape(ellipse(x, y - size * 1.15, size * 0.3, size * 0.3), mix(cap, (1, 1, 1), 0.45))


def child(
    canvas: Canvas,
    x: float,
    foot: float,
    height: float,
    coat: Colour,
    cap: Colour,
    stride: float = 0.0,
    arms: tuple[float, float] = (0.2, 0.2),
) -> tuple[Points, Points]:
    """A smaller figure; the same drawing is sturdy enough."""
    return figure(canvas, x, foot, height, coat, cap, stride, arms, 0.25)


def umbrella(canvas: Canvas, hand: Points, height: float, colour: Colour) -> None:
    x, y = hand[0] - height * 0.03, hand[1] - height * 0.42
    canvas.lines([points((x, y - height * 0.14), (hand[0], hand[1] + height * 0.05))], height * 0.016, (0.1, 0.1, 0.12))
    dome = smooth(
        [
            (x - height * 0.42, y + height * 0.05),
            (x - height * 0.3, y - height * 0.12),
            (x, y - height * 0.2),
            (x + height * 0.3, y - height * 0.12),
            (x + height * 0.42, y + height * 0.05),
        ],
        False,
        8,
    )
    hem = np.concatenate(
        [
            ellipse(x + height * (0.28 - 0.28 * n), y + height * 0.055, height * 0.14, height * 0.05, count=24)[12:][
                ::-1
            ]
            for n in range(3)
        ]
    )
    canvas.shape(
        np.concatenate([dome, hem]),
        sideways(x - height * 0.42, x + height * 0.42, [shade(colour, 1.25), colour, shade(colour, 0.62)]),
    )
    ribs = [
        smooth(
            [
                (x, y - height * 0.2),
                (x + side * height * 0.1, y - height * 0.08),
                (x + side * height * 0.14, y + height * 0.04),
            ],
            False,
            6,
        )
        for side in (-1, 1)
    ]
    canvas.lines(ribs, height * 0.006, shade(colour, 0.6), 0.7)
