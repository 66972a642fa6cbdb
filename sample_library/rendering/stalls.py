"""Market stalls."""

from dataclasses import dataclass

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade, tone, tones
from .figures import figure
from .outlines import box, ellipse, points, smooth
from .paint import stripes, upright


@dataclass(frozen=True, slots=True)
class MarketDay:
    sky: list[Colour]
    walls: list[Colour]
    stone: list[Colour]
    air: Colour
    light: float = 1.0
    lamps: float = 0.0
    snow: float = 0.0


def stall(
    canvas: Canvas, x: float, foot: float, size: float, cloth: Colour, mood: MarketDay, dice: np.random.Generator
) -> None:
    """One stall: counter with crates, posts, awning. `size` is its width."""
    cloth, cream = shade(mix(cloth, mood.air, 0.12), mood.light), shade((0.95, 0.92, 0.84), mood.light)
    counter, top = foot - size * 0.3, foot - size * 0.82
    wood = shade(mix(tone("8c6440"), mood.air, 0.1), mood.light)
    canvas.shadow(ellipse(x, foot, size * 0.56, size * 0.05), 0.4, size * 0.03, (0.08, 0.07, 0.1))
    canvas.shape(
        box(x - size * 0.44, top + size * 0.1, x + size * 0.44, counter),
        shade(mix(tone("3c3430"), mood.air, 0.08), mood.light),
    )
    if mood.lamps:
        canvas.glow(x, top + size * 0.24, size * 0.55, (1.0, 0.72, 0.38), 0.85)
    shelf = box(x - size * 0.44, top + size * 0.27, x + size * 0.44, top + size * 0.285)
    canvas.shape(shelf, shade(wood, 0.55))
    jars = [
        box(x + a * size, top + size * (0.2 + 0.03 * dice.random()), x + (a + 0.035) * size, top + size * 0.27)
        for a in np.arange(-0.4, 0.4, 0.055)
    ]
    for tint, part in ((tone("7c5c3c"), jars[::3]), (tone("5c6c4c"), jars[1::3]), (tone("8c4c3c"), jars[2::3])):
        canvas.shapes(part, shade(tint, mood.light * 0.8))
    figure(
        canvas,
        x + size * (dice.random() - 0.5) * 0.5,
        foot - size * 0.05,
        size * 0.6,
        shade(mix(cloth, tone("40465a"), 0.4), mood.light),
        shade(cream, 0.9),
        0.0,
        (0.1, 0.1),
    )
    canvas.shapes(
        [box(x + a * size - size * 0.012, top, x + a * size + size * 0.012, foot) for a in (-0.46, 0.46)],
        shade(wood, 0.8),
    )
    canvas.shape(
        box(x - size * 0.48, counter, x + size * 0.48, foot - size * 0.02),
        stripes(
            size * 0.08,
            upright(counter, foot, [shade(wood, 1.1), shade(wood, 0.7)]),
            shade(wood, 0.82),
            lambda rows, columns: columns + rows * 0,
        ),
    )
    _crates(canvas, x, counter, size, wood, mood, dice)
    awning = points(
        (x - size * 0.46, top - size * 0.1),
        (x + size * 0.46, top - size * 0.1),
        (x + size * 0.55, top + size * 0.09),
        (x - size * 0.55, top + size * 0.09),
    )

    def slant(rows: np.ndarray, columns: np.ndarray) -> np.ndarray:
        return (columns - x) / (1 + (rows - top) / size * 1.02) + size * 2

    canvas.shape(
        awning,
        stripes(
            size * 0.153,
            upright(top - size * 0.1, top + size * 0.09, [shade(cream, 1.06), shade(cream, 0.88)]),
            cloth,
            slant,
        ),
    )
    for number in range(14):
        left = x - size * 0.55 + number * size * 1.1 / 14
        scallop = np.concatenate(
            [
                points((left, top + size * 0.085)),
                ellipse(left + size * 0.0393, top + size * 0.1, size * 0.04, size * 0.045, count=20)[:11][::-1],
                points((left + size * 0.0786, top + size * 0.085)),
            ]
        )
        canvas.shape(scallop, shade(cloth if number % 2 else cream, 0.86))
    if mood.snow:
        snow = smooth(
            [
                (x - size * 0.47, top - size * 0.09),
                (x - size * 0.2, top - size * 0.135),
                (x + size * 0.2, top - size * 0.13),
                (x + size * 0.47, top - size * 0.09),
                (x + size * 0.1, top - size * 0.06),
                (x - size * 0.25, top - size * 0.07),
            ]
        )
        canvas.shape(snow, (0.85, 0.88, 0.98), mood.snow)


def _crates(
    canvas: Canvas, x: float, counter: float, size: float, wood: Colour, mood: MarketDay, dice: np.random.Generator
) -> None:
    count = 5
    for number in range(count):
        left = x - size * 0.45 + number * size * 0.18
        right, top = left + size * 0.165, counter - size * 0.075
        fruit = shade(_FRUIT[int(dice.integers(len(_FRUIT)))], mood.light)
        spots = np.array(
            [
                (left + size * (0.02 + 0.042 * column + 0.02 * (row % 2)), top + size * (0.012 - 0.022 * row))
                for row in range(3)
                for column in range(4 - row % 2)
            ]
        )
        canvas.dabs(spots, size * 0.024, shade(fruit, 0.72))
        canvas.dabs(spots - (size * 0.003, size * 0.004), size * 0.02, fruit)
        canvas.dabs(spots - (size * 0.008, size * 0.01), size * 0.006, mix(fruit, (1, 1, 1), 0.5), 0.4, size * 0.002)
        canvas.shape(
            box(left, top + size * 0.012, right, counter + size * 0.004),
            upright(top, counter, [shade(wood, 1.35), shade(wood, 0.9)]),
        )
        canvas.lines(
            [points((left, counter - size * 0.032), (right, counter - size * 0.032))], size * 0.005, shade(wood, 0.55)
        )


CLOTHS = tones("c8443c 2c6c8c 3c7c54 d89030 7c4874 b8586c")
_FRUIT = tones("e8742c d83c34 f0c43c 7cac3c 8c3c5c c8d46c b86430 4c7c3c")
