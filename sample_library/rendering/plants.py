"""Trees and small plants."""

import math
from collections.abc import Sequence

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade
from .outlines import Points, moved, points, ribbon, smooth


def branches(
    dice: np.random.Generator, x: float, foot: float, height: float, depth: int = 6, spread: float = 0.5
) -> list[tuple[Points, float]]:
    """A bare tree as strokes with their widths, trunk first."""
    strokes: list[tuple[Points, float]] = []

    def grow(start: tuple[float, float], angle: float, length: float, width: float, level: int) -> None:
        bend = dice.normal() * 0.12
        middle = (start[0] + math.sin(angle) * length * 0.5, start[1] - math.cos(angle) * length * 0.5)
        end = (start[0] + math.sin(angle + bend) * length, start[1] - math.cos(angle + bend) * length)
        strokes.append((points(start, middle, end), width))
        if level == 0:
            return
        for side in (-1, 1) if level < depth else (-1, 0, 1):
            turn = side * spread * (0.55 + 0.6 * dice.random()) + dice.normal() * 0.08
            grow(end, (angle + bend) * 0.9 + turn, length * (0.66 + 0.16 * dice.random()), width * 0.64, level - 1)

    grow((x, foot), dice.normal() * 0.04, height * 0.28, height * 0.035, depth)
    return strokes


def bare_tree(
    canvas: Canvas,
    dice: np.random.Generator,
    x: float,
    foot: float,
    height: float,
    bark: Colour,
    depth: int = 6,
    snow: float = 0.0,
) -> Points:
    """A leafless tree; gives back the tips of its twigs."""
    strokes = branches(dice, x, foot, height, depth)
    canvas.shapes([ribbon(path, [width * 1.1, width, width * 0.75]) for path, width in strokes], bark)
    if snow:
        lying = [
            ribbon(moved(path, 0, -width * 0.4), width * 0.55)
            for path, width in strokes
            if abs(path[-1, 1] - path[0, 1]) < abs(path[-1, 0] - path[0, 0]) * 2
        ]
        if lying:
            canvas.shapes(lying, (0.93, 0.95, 1.0), snow)
    return np.array([path[-1] for path, width in strokes if width < height * 0.008])


def leafy_tree(
    canvas: Canvas,
    dice: np.random.Generator,
    x: float,
    foot: float,
    height: float,
    bark: Colour,
    leaves: Sequence[Colour],
    fullness: float = 1.0,
    sun_side: float = -1.0,
) -> None:
    """A tree in leaf: dark leaves first, lit ones last, shifted to the side of the sun."""
    tips = bare_tree(canvas, dice, x, foot, height, bark, 5)
    count = int(7 * fullness)
    for level, colour in enumerate(leaves):
        cloud = np.repeat(tips, max(1, count), 0) + dice.normal(size=(len(tips) * max(1, count), 2)) * height * (
            0.06 - 0.008 * level
        )
        cloud += np.array((sun_side, -1.0)) * height * 0.014 * level
        keep = dice.random(len(cloud)) < (0.95 - 0.24 * level) * min(fullness, 1.0)
        canvas.dabs(cloud[keep], height * (0.0145 - 0.0025 * level), colour, 0.9, height * 0.002)


def fir(
    canvas: Canvas,
    x: float,
    foot: float,
    height: float,
    colour: Colour,
    snow: float = 0.0,
    dice: np.random.Generator | None = None,
) -> None:
    """A fir in tiers, light from the left, snow lying on every tier."""
    canvas.shape(
        points(
            (x - height * 0.025, foot),
            (x - height * 0.02, foot - height * 0.2),
            (x + height * 0.02, foot - height * 0.2),
            (x + height * 0.025, foot),
        ),
        shade(colour, 0.5),
    )
    for tier in range(5):
        low, high = foot - height * (0.1 + 0.17 * tier), foot - height * (0.38 + 0.155 * tier)
        wide = height * (0.27 - 0.046 * tier) * (1 + (dice.normal() * 0.02 if dice else 0.0))
        skirt = smooth(
            [
                (x, high),
                (x + wide * 0.5, (low + high) / 2),
                (x + wide, low),
                (x + wide * 0.4, low + height * 0.018),
                (x, low - height * 0.005),
                (x - wide * 0.4, low + height * 0.018),
                (x - wide, low),
                (x - wide * 0.5, (low + high) / 2),
            ],
            True,
            4,
        )
        canvas.shape(skirt, mix(shade(colour, 0.78), shade(colour, 1.25), tier / 5))
        shadowed = smooth(
            [
                (x, high),
                (x + wide * 0.5, (low + high) / 2),
                (x + wide, low),
                (x + wide * 0.4, low + height * 0.018),
                (x + wide * 0.1, low),
            ],
            True,
            4,
        )
        canvas.shape(shadowed, shade(colour, 0.55), 0.35)
        if snow:
            cap = smooth(
                [
                    (x, high),
                    (x - wide * 0.28, high + (low - high) * 0.42),
                    (x - wide * 0.85, low - height * 0.015),
                    (x - wide * 0.3, low - height * 0.05),
                    (x + wide * 0.1, low - height * 0.06),
                    (x + wide * 0.3, high + (low - high) * 0.55),
                ],
                True,
                5,
            )
            canvas.shape(cap, (0.94, 0.96, 1.0), snow)


def sprig(
    canvas: Canvas, x: float, foot: float, height: float, leaf: Colour, pairs: int = 2, lean: float = 0.0
) -> None:
    """A seedling: a stem with pairs of leaves."""
    top = (x + lean * height, foot - height)
    stem = smooth([(x, foot), (x + lean * height * 0.3, foot - height * 0.5), top], False, 6)
    canvas.shape(ribbon(stem, height * 0.05), shade(leaf, 0.8))
    for number in range(pairs):
        share = 1 - number * 0.32
        at = stem[int((len(stem) - 1) * share)]
        size = height * (0.3 + 0.08 * number)
        for side in (-1, 1):
            blade = smooth(
                [
                    (at[0], at[1]),
                    (at[0] + side * size * 0.5, at[1] - size * 0.42),
                    (at[0] + side * size, at[1] - size * 0.18),
                    (at[0] + side * size * 0.5, at[1] + size * 0.1),
                ],
                True,
                5,
            )
            canvas.shape(blade, shade(leaf, 1.12 if side < 0 else 0.86))
