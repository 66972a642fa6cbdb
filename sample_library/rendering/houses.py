"""Rows of gabled houses, their windows and their lights."""

from dataclasses import dataclass

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade
from .outlines import Points, box, points
from .paint import upright


@dataclass(frozen=True, slots=True)
class Street:
    """How a row of houses looks.

    `walls` and `roofs` are drawn from, `pane` is glass by day, `lit` the share of lit panes; `snow` and `far` go from 0
    to 1, and what is far takes the colour of the air.
    """

    walls: list[Colour]
    roofs: list[Colour]
    pane: Colour = (0.2, 0.24, 0.3)
    lit: float = 0.0
    lamp: Colour = (1.0, 0.78, 0.42)
    snow: float = 0.0
    air: Colour = (0.5, 0.5, 0.55)
    far: float = 0.0


def house_row(
    canvas: Canvas, dice: np.random.Generator, street: Street, left: float, right: float, base: float, size: float
) -> None:
    """Houses from left to right standing on `base`; `size` is the height of a usual one in pixels."""
    x = left - dice.random() * size * 0.4
    while x < right:
        width = size * (0.42 + 0.34 * dice.random())
        height = size * (0.55 + 0.3 * dice.random())
        gable = dice.random() < 0.6
        _house(canvas, dice, street, x, base, width, height, size * (0.26 + 0.12 * dice.random()), gable)
        x += width * (1.0 if dice.random() < 0.8 else 1.12)


def _house(
    canvas: Canvas,
    dice: np.random.Generator,
    street: Street,
    x: float,
    base: float,
    width: float,
    height: float,
    peak: float,
    gable: bool,
) -> None:
    wall = mix(street.walls[int(dice.integers(len(street.walls)))], street.air, street.far)
    roof = mix(street.roofs[int(dice.integers(len(street.roofs)))], street.air, street.far)
    eaves = base - height
    _chimney(
        canvas, x + width * (0.2 + 0.5 * dice.random()), eaves - peak * 0.55, width, peak, shade(wall, 0.7), street
    )
    if gable:
        front = points((x, base), (x, eaves), (x + width / 2, eaves - peak), (x + width, eaves), (x + width, base))
        canvas.shape(front, upright(eaves - peak, base, [shade(wall, 1.04), wall, shade(wall, 0.8)]))
        slopes = [
            points(
                (x - width * 0.05, eaves + peak * 0.06),
                (x + width / 2, eaves - peak),
                (x + width * 1.05, eaves + peak * 0.06),
            )
        ]
        canvas.lines(slopes, width * 0.055, mix(roof, (0.95, 0.97, 1.0), street.snow))
    else:
        canvas.shape(box(x, eaves, x + width, base), upright(eaves, base, [shade(wall, 1.04), wall, shade(wall, 0.8)]))
        slope = points(
            (x - width * 0.03, eaves),
            (x + width * 0.1, eaves - peak * 0.8),
            (x + width * 0.9, eaves - peak * 0.8),
            (x + width * 1.03, eaves),
        )
        snowy = mix(roof, (0.93, 0.95, 1.0), street.snow)
        canvas.shape(slope, upright(eaves - peak, eaves, [shade(snowy, 1.06), shade(snowy, 0.86)]))
    _windows(canvas, dice, street, x, base, width, height)


def _chimney(canvas: Canvas, x: float, y: float, width: float, peak: float, colour: Colour, street: Street) -> None:
    canvas.shape(box(x, y - peak * 0.45, x + width * 0.11, y + peak * 0.6), colour)
    if street.snow:
        canvas.shape(
            box(x - 1, y - peak * 0.52, x + width * 0.11 + 1, y - peak * 0.42), (0.92, 0.94, 0.99), street.snow
        )


def _windows(
    canvas: Canvas, dice: np.random.Generator, street: Street, x: float, base: float, width: float, height: float
) -> None:
    columns = 2 if width < height * 0.7 else 3
    floors = max(2, round(height / (width / columns) / 1.25))
    high, wide = height / floors, width / columns
    dark: list[Points] = []
    bright: list[Points] = []
    for floor in range(floors):
        for column in range(columns):
            left = x + wide * (column + 0.27)
            top = base - height + high * (floor + 0.26)
            pane = box(left, top, left + wide * 0.46, top + high * 0.52)
            (bright if dice.random() < street.lit else dark).append(pane)
    frame = mix(street.air, (0.95, 0.94, 0.9), 0.35)
    canvas.shapes([_grown(pane, wide * 0.045) for pane in dark + bright], mix(frame, street.air, street.far), 0.55)
    canvas.shapes(dark, mix(street.pane, street.air, street.far))
    for pane in bright:
        warm = shade(street.lamp, 0.72 + 0.35 * dice.random())
        canvas.shape(pane, upright(pane[0, 1], pane[2, 1], [shade(warm, 0.9), warm]))
        canvas.glow(pane[:, 0].mean(), pane[:, 1].mean(), wide * 1.3, street.lamp, 0.24)
    bars = [points((pane[:, 0].mean(), pane[0, 1]), (pane[:, 0].mean(), pane[2, 1])) for pane in dark + bright]
    canvas.lines(bars, max(1.0, wide * 0.03), shade(frame, 0.7), 0.6)


def _grown(outline: Points, by: float) -> Points:
    return box(outline[0, 0] - by, outline[0, 1] - by, outline[2, 0] + by, outline[2, 1] + by)
