"""What grows on an allotment, one plant at a time."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade, tone, tones
from .outlines import ellipse, points, ribbon, smooth
from .paint import upright


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a plant stands and how large it is, in pixels; the colour of the air, and how much snow lies (0 to 1)."""

    x: float
    y: float
    size: float
    dice: np.random.Generator
    air: Colour
    snow: float


def _leek(canvas: Canvas, spot: Spot) -> None:
    x, y, size = spot.x, spot.y, spot.size
    leaf = mix(tone("5c8c6c"), spot.air, 0.15 + 0.3 * spot.snow)
    blades = []
    for number in range(5):
        lean = (number - 2) * 0.32 + spot.dice.normal() * 0.1
        path = smooth(
            [
                (x, y),
                (x + lean * size * 0.5, y - size * 0.8),
                (x + lean * size * 1.2, y - size * (1.3 - 0.25 * abs(lean))),
            ],
            False,
            5,
        )
        blades.append(ribbon(path, np.linspace(size * 0.14, 1.0, len(path))))
    canvas.shapes(blades[::2], shade(leaf, 0.75))
    canvas.shapes(blades[1::2], shade(leaf, 1.1))
    canvas.shape(ellipse(x, y - size * 0.12, size * 0.08, size * 0.2), (0.88, 0.9, 0.82))


def _cabbage(canvas: Canvas, spot: Spot) -> None:
    x, y, size = spot.x, spot.y, spot.size
    leaf = mix(tone("6c9c6c"), spot.air, 0.1 + 0.4 * spot.snow)
    canvas.shadow(ellipse(x + size * 0.1, y + size * 0.06, size * 0.75, size * 0.25), 0.45, size * 0.08)
    for ring, (count, reach) in enumerate(((7, 0.6), (6, 0.42), (4, 0.24))):
        for number in range(count):
            angle = 2 * math.pi * (number + 0.5 * ring) / count
            cx, cy = x + math.cos(angle) * size * reach, y - size * 0.26 + math.sin(angle) * size * reach * 0.5
            canvas.shape(
                ellipse(cx, cy, size * 0.34, size * 0.26, angle),
                shade(leaf, 0.72 + 0.18 * ring - 0.12 * math.cos(angle) + 0.05 * spot.dice.random()),
            )
    canvas.shape(ellipse(x, y - size * 0.32, size * 0.26, size * 0.2), shade(leaf, 1.28))


def _pumpkin(canvas: Canvas, spot: Spot) -> None:
    x, y, size = spot.x, spot.y, spot.size
    skin = tone("e0782c")
    canvas.shadow(ellipse(x + size * 0.15, y + size * 0.04, size * 0.7, size * 0.2), 0.5, size * 0.08)
    for part in (-2, 2, -1, 1, 0):
        canvas.shape(
            ellipse(x + part * size * 0.2, y - size * 0.34, size * 0.28, size * 0.38),
            shade(skin, 1.12 - 0.13 * abs(part + 0.6)),
        )
    canvas.shape(
        points(
            (x - size * 0.05, y - size * 0.68),
            (x - size * 0.02, y - size * 0.9),
            (x + size * 0.08, y - size * 0.88),
            (x + size * 0.06, y - size * 0.66),
        ),
        tone("5c6c34"),
    )


def _shoot(canvas: Canvas, spot: Spot) -> None:
    x, y, size = spot.x, spot.y, spot.size
    leaf = tone("8cc44c")
    for side in (-1, 1):
        blade = smooth(
            [
                (x, y),
                (x + side * size * 0.3, y - size * 0.55),
                (x + side * size * 0.6, y - size * 0.6),
                (x + side * size * 0.3, y - size * 0.22),
            ]
        )
        canvas.shape(blade, shade(leaf, 1.1 if side < 0 else 0.82))


def _tulip(canvas: Canvas, spot: Spot) -> None:
    x, y, size = spot.x, spot.y, spot.size
    bloom_colour = tones("e8503c f0c43c e87c9c")[int(spot.dice.integers(3))]
    canvas.lines([points((x, y), (x, y - size * 1.1))], size * 0.07, tone("5c944c"))
    for side in (-1, 1):
        canvas.shape(
            smooth(
                [
                    (x, y),
                    (x + side * size * 0.3, y - size * 0.5),
                    (x + side * size * 0.2, y - size * 0.75),
                    (x + side * size * 0.06, y - size * 0.3),
                ]
            ),
            shade(tone("6ca454"), 1.1 if side < 0 else 0.8),
        )
    cup = smooth(
        [
            (x - size * 0.2, y - size * 1.5),
            (x - size * 0.1, y - size * 1.38),
            (x, y - size * 1.55),
            (x + size * 0.1, y - size * 1.38),
            (x + size * 0.2, y - size * 1.5),
            (x + size * 0.19, y - size * 1.15),
            (x, y - size * 1.02),
            (x - size * 0.19, y - size * 1.15),
        ]
    )
    canvas.shape(cup, upright(y - size * 1.5, y - size, [shade(bloom_colour, 1.1), shade(bloom_colour, 0.8)]))


#: Plants by name.
PLANTS: dict[str, Callable[[Canvas, Spot], None]] = {
    "leek": _leek,
    "cabbage": _cabbage,
    "pumpkin": _pumpkin,
    "shoot": _shoot,
    "tulip": _tulip,
}
