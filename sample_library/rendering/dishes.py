"""Things on a table seen from above, with their shadows."""

import math
from dataclasses import dataclass

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade, tone
from .noise import field
from .outlines import Points, box, ellipse, moved, points, rounded, scaled, smooth, turned
from .paint import grained, round_about, slanted, stripes
from .view import View


@dataclass(frozen=True, slots=True)
class Setting:
    table: Colour
    cloth: Colour
    ware: Colour
    light: Colour
    shadow: Colour
    bright: float = 1.0


def cast(canvas: Canvas, setting: Setting, outline: Points, height: float, strength: float = 0.5) -> None:
    canvas.shadow(moved(outline, height * 0.7, height), strength, height * 0.7, setting.shadow)


def plate(
    canvas: Canvas, setting: Setting, x: float, y: float, radius: float, colour: Colour, height: float, rim: float = 0.8
) -> None:
    cast(canvas, setting, ellipse(x, y, radius, radius), height)
    canvas.shape(
        ellipse(x, y, radius, radius),
        slanted((x - radius, y - radius), (x + radius, y + radius), [shade(colour, 1.12), shade(colour, 0.84)]),
    )
    canvas.shape(
        ellipse(x, y, radius * rim, radius * rim),
        slanted((x - radius, y - radius), (x + radius, y + radius), [shade(colour, 0.84), shade(colour, 1.08)]),
    )


def cup(
    canvas: Canvas,
    setting: Setting,
    x: float,
    y: float,
    radius: float,
    colour: Colour,
    drink: Colour,
    angle: float,
) -> None:
    plate(canvas, setting, x, y, radius * 1.6, shade(setting.ware, 0.97), radius * 0.15, 0.72)
    handle = ellipse(
        x + math.cos(angle) * radius * 1.1, y + math.sin(angle) * radius * 1.1, radius * 0.42, radius * 0.2, angle
    )
    cast(canvas, setting, ellipse(x, y, radius, radius), radius * 0.35, 0.45)
    canvas.shape(handle, shade(colour, 0.85))
    canvas.shape(ellipse(x, y, radius, radius), shade(colour, 1.05))
    canvas.shape(
        ellipse(x, y, radius * 0.86, radius * 0.86),
        round_about(x + radius * 0.2, y + radius * 0.2, radius, [shade(drink, 1.2), drink, shade(drink, 0.6)]),
    )
    gleam = smooth(
        [
            (x - radius * 0.5, y - radius * 0.3),
            (x - radius * 0.2, y - radius * 0.58),
            (x + radius * 0.1, y - radius * 0.6),
            (x - radius * 0.2, y - radius * 0.44),
        ]
    )
    canvas.shape(gleam, (1, 1, 1), 0.3, radius * 0.05)


def napkin(canvas: Canvas, setting: Setting, x: float, y: float, size: float, angle: float) -> None:
    cloth = turned(box(x - size, y - size * 0.7, x + size, y + size * 0.7), angle, (x, y))
    cast(canvas, setting, cloth, size * 0.03, 0.4)
    canvas.shape(
        cloth,
        stripes(
            size * 0.22,
            slanted(
                (x - size, y - size), (x + size, y + size), [shade(setting.cloth, 1.1), shade(setting.cloth, 0.85)]
            ),
            mix(setting.cloth, (1, 1, 1), 0.35),
            lambda rows, columns: columns * math.cos(angle) + rows * math.sin(angle) + 4000,
        ),
    )
    fold = turned(points((x - size, y - size * 0.7), (x, y - size * 0.7), (x - size, y + size * 0.5)), angle, (x, y))
    canvas.shape(fold, shade(setting.cloth, 0.8), 0.5, size * 0.01)


def cutlery(canvas: Canvas, setting: Setting, x: float, y: float, size: float, angle: float, kind: str) -> None:
    steel = mix((0.78, 0.79, 0.8), setting.light, 0.2)
    stem = turned(
        rounded(x - size * 0.035, y - size * 0.2, x + size * 0.035, y + size * 0.5, size * 0.035), angle, (x, y)
    )
    if kind == "spoon":
        head = ellipse(x, y - size * 0.34, size * 0.095, size * 0.16)
    elif kind == "fork":
        head = smooth(
            [
                (x - size * 0.08, y - size * 0.5),
                (x - size * 0.09, y - size * 0.25),
                (x, y - size * 0.14),
                (x + size * 0.09, y - size * 0.25),
                (x + size * 0.08, y - size * 0.5),
            ],
            True,
            5,
        )
    else:
        head = smooth(
            [
                (x - size * 0.045, y - size * 0.15),
                (x - size * 0.05, y - size * 0.5),
                (x + size * 0.03, y - size * 0.44),
                (x + size * 0.045, y - size * 0.15),
            ],
            True,
            5,
        )
    head = turned(head, angle, (x, y))
    for part in (stem, head):
        cast(canvas, setting, part, size * 0.02, 0.4)
    canvas.shapes(
        [stem, head],
        slanted((x - size * 0.1, y), (x + size * 0.1, y), [shade(steel, 0.8), shade(steel, 1.2), shade(steel, 0.75)]),
    )
    if kind == "fork":
        slots = [
            turned(
                box(x + a * size - size * 0.012, y - size * 0.55, x + a * size + size * 0.012, y - size * 0.3),
                angle,
                (x, y),
            )
            for a in (-0.035, 0.035)
        ]
        canvas.shapes(slots, shade(setting.table, 0.7))
    elif kind == "spoon":
        canvas.shape(
            turned(ellipse(x, y - size * 0.34, size * 0.07, size * 0.13), angle, (x, y)),
            shade(steel, 0.72),
            0.8,
            size * 0.01,
        )


def berry(canvas: Canvas, x: float, y: float, radius: float, colour: Colour) -> None:
    canvas.shape(
        ellipse(x, y, radius, radius, count=24),
        round_about(
            x - radius * 0.35,
            y - radius * 0.35,
            radius * 1.6,
            [mix(colour, (1, 1, 1), 0.4), colour, shade(colour, 0.4)],
        ),
    )


def biscuit(
    canvas: Canvas,
    setting: Setting,
    x: float,
    y: float,
    size: float,
    kind: int,
    hole: bool,
    colour: Colour = (0.9, 0.74, 0.5),
) -> None:
    if kind % 3 == 0:
        outline = np.array(
            [
                (
                    x + math.sin(n * math.pi / 5) * size * (1.15 if n % 2 == 0 else 0.62),
                    y - math.cos(n * math.pi / 5) * size * (1.15 if n % 2 == 0 else 0.62),
                )
                for n in range(10)
            ]
        )
    elif kind % 3 == 1:
        outline = smooth(
            [
                (x, y + size),
                (x - size * 0.95, y - size * 0.1),
                (x - size * 0.6, y - size * 0.8),
                (x, y - size * 0.45),
                (x + size * 0.6, y - size * 0.8),
                (x + size * 0.95, y - size * 0.1),
            ],
            True,
            6,
        )
    else:
        outline = ellipse(x, y, size, size)
    if hole:
        canvas.shape(outline, mix(setting.table, (0.95, 0.92, 0.86), 0.45))
        canvas.lines([np.concatenate([outline, outline[:1]])], size * 0.08, tone("c8a468"))
        return
    canvas.shape(moved(outline, size * 0.06, size * 0.09), shade(colour, 0.6), 0.7, size * 0.06)
    canvas.shape(
        outline, slanted((x - size, y - size), (x + size, y + size), [shade(colour, 1.1), shade(colour, 0.85)])
    )


def rolling_pin(canvas: Canvas, setting: Setting, x: float, y: float, size: float, angle: float) -> None:
    wood = tone("c8945c")
    body = turned(rounded(x - size, y - size * 0.17, x + size, y + size * 0.17, size * 0.06), angle, (x, y))
    grips = [
        turned(
            rounded(
                x + side * size * 1.22 - size * 0.22,
                y - size * 0.07,
                x + side * size * 1.22 + size * 0.22,
                y + size * 0.07,
                size * 0.07,
            ),
            angle,
            (x, y),
        )
        for side in (-1, 1)
    ]
    for part in (body, *grips):
        cast(canvas, setting, part, size * 0.09, 0.5)
    across = (
        (x + math.sin(angle) * size * 0.17, y - math.cos(angle) * size * 0.17),
        (x - math.sin(angle) * size * 0.17, y + math.cos(angle) * size * 0.17),
    )
    canvas.shapes(grips, slanted(*across, [shade(wood, 0.9), shade(wood, 0.55)]))
    canvas.shape(body, slanted(*across, [shade(wood, 1.0), shade(wood, 1.3), shade(wood, 0.95), shade(wood, 0.55)]))


def bread(canvas: Canvas, view: View, setting: Setting, x: float, y: float, size: float, angle: float) -> None:
    board = turned(rounded(x - size * 1.3, y - size * 0.75, x + size * 1.3, y + size * 0.75, size * 0.2), angle, (x, y))
    cast(canvas, setting, board, size * 0.1)
    canvas.shape(
        board, stripes(size * 0.3, tone("a8744c"), tone("9c6a44"), lambda rows, columns: rows + 4000 + columns * 0.1)
    )
    for number in range(4):
        cx = x + (number - 1.5) * size * 0.5
        slice_ = turned(
            smooth(
                [
                    (cx - size * 0.2, y - size * 0.45),
                    (cx + size * 0.24, y - size * 0.5),
                    (cx + size * 0.3, y + size * 0.4),
                    (cx - size * 0.16, y + size * 0.45),
                ],
                True,
                6,
            ),
            angle + 0.08 * number,
            (x, y),
        )
        cast(canvas, setting, slice_, size * 0.06)
        canvas.shape(slice_, tone("9c5c28"))
        canvas.shape(
            scaled(slice_, 0.87),
            grained(
                tone("f0d4a0"),
                field(view.dice("crumb"), (canvas.height, canvas.width), (size * 0.1, size * 0.1), 2),
                0.3,
            ),
        )


def small_print(canvas: Canvas, setting: Setting, outline: Points, sky_colour: Colour, land: Colour) -> None:
    cast(canvas, setting, outline, canvas.unit * 0.006, 0.4)
    canvas.shape(outline, (0.98, 0.97, 0.95))
    inner = scaled(outline, (0.93, 0.91))
    canvas.shape(
        inner,
        slanted(tuple(inner[0]), tuple(inner[3]), [shade(sky_colour, 1.2), mix(sky_colour, (1, 0.95, 0.85), 0.5)]),
    )
    a, b, c, d = inner
    hill = np.array([a + (d - a) * 0.62, a + (b - a) * 0.35 + (d - a) * 0.45, b + (c - b) * 0.66, c, d])
    canvas.shape(hill, slanted(tuple(a), tuple(d), [land, shade(land, 0.6)]))
