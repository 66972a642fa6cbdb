"""Furniture of the living room."""

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade, tone, tones
from .outlines import box, ellipse, points, rounded, smooth
from .paint import sideways, stripes, upright
from .tableware import mug, potted
from .view import View

_SPINES = tones("a83c34 d8a848 2c5c6c 6c8454 e0d4bc 7c4c64 3c4058 c87040 8ca0a4 5c3c30")


def bookcase(canvas: Canvas, dice: np.random.Generator, x: float, floor: float, wood: Colour, light: float) -> None:
    """Five shelves of books and a plant or two, standing on the floor."""
    wide, high = canvas.unit * 0.5, floor - canvas.height * 0.08
    a, top = x - wide / 2, floor - high
    canvas.shadow(box(a + 14, top + 10, a + wide + 14, floor), 0.4, canvas.unit * 0.015)
    canvas.shape(box(a, top, a + wide, floor), shade(wood, 0.42))
    shelves = 5
    for number in range(shelves):
        base = top + high * (number + 1) / shelves - canvas.unit * 0.012
        room = high / shelves - canvas.unit * 0.02
        _shelf(canvas, dice, a + canvas.unit * 0.02, a + wide - canvas.unit * 0.035, base, room, light)
        canvas.shape(box(a, base, a + wide, base + canvas.unit * 0.014), shade(wood, 1.1))
    canvas.shapes(
        [
            box(a - canvas.unit * 0.012, top, a + canvas.unit * 0.008, floor),
            box(a + wide - canvas.unit * 0.008, top, a + wide + canvas.unit * 0.012, floor),
            box(a - canvas.unit * 0.02, top - canvas.unit * 0.02, a + wide + canvas.unit * 0.02, top),
        ],
        wood,
    )


def _shelf(
    canvas: Canvas, dice: np.random.Generator, left: float, right: float, base: float, room: float, light: float
) -> None:
    spot = left
    while spot < right:
        thick = canvas.unit * (0.014 + 0.018 * dice.random())
        tall = room * (0.62 + 0.3 * dice.random())
        if dice.random() < 0.06:
            potted(
                canvas,
                spot + canvas.unit * 0.03,
                base,
                canvas.unit * 0.05,
                tone("b86840"),
                shade(tone("5c8c50"), light),
                dice,
            )
            spot += canvas.unit * 0.065
            continue
        spine = shade(_SPINES[int(dice.integers(10))], 0.9 * light)
        canvas.shape(
            box(spot, base - tall, spot + thick, base),
            sideways(spot, spot + thick, [shade(spine, 0.8), shade(spine, 1.1), shade(spine, 0.7)]),
        )
        canvas.shape(
            box(spot, base - tall * 0.8, spot + thick, base - tall * 0.76), mix(spine, (0.95, 0.85, 0.6), 0.5), 0.8
        )
        spot += thick + (canvas.unit * 0.02 if dice.random() < 0.08 else 1)


def standard_lamp(canvas: Canvas, x: float, foot: float, height: float, glow: float) -> None:
    """A lamp on a stand; `glow` 0 is off, 1 fully on."""
    canvas.shape(ellipse(x, foot, height * 0.12, height * 0.025), shade(tone("3c3430"), 0.9))
    canvas.lines([points((x, foot), (x, foot - height * 0.8))], height * 0.018, tone("4c4038"))
    shade_colour = mix(tone("d8c8a8"), (1.0, 0.84, 0.55), glow)
    hood = points(
        (x - height * 0.12, foot - height),
        (x + height * 0.12, foot - height),
        (x + height * 0.2, foot - height * 0.76),
        (x - height * 0.2, foot - height * 0.76),
    )
    canvas.shape(
        hood,
        sideways(
            x - height * 0.2,
            x + height * 0.2,
            [shade(shade_colour, 0.85), shade(shade_colour, 1.15), shade(shade_colour, 0.8)],
        ),
    )
    if glow:
        canvas.glow(x, foot - height * 0.85, height * 0.42, (1.0, 0.82, 0.5), 0.6 * glow)


def armchair(canvas: Canvas, view: View, x: float, foot: float, size: float, cloth: Colour, way: int) -> None:
    """An armchair with a blanket over its back and an open book; `way` 1 is lit from the left, -1 from the right."""
    canvas.shadow(ellipse(x, foot, size * 0.62, size * 0.08), 0.5, size * 0.04)
    canvas.shapes(
        [
            points(
                (x + a * size, foot - size * 0.2),
                (x + (a + 0.07) * size, foot - size * 0.2),
                (x + (a + 0.05) * size, foot),
                (x + (a + 0.02) * size, foot),
            )
            for a in (-0.46, 0.39)
        ],
        tone("3c2a20"),
    )
    back = smooth(
        [
            (x - size * 0.4, foot - size * 0.3),
            (x - size * 0.44, foot - size * 0.85),
            (x - size * 0.3, foot - size * 1.12),
            (x, foot - size * 1.17),
            (x + size * 0.3, foot - size * 1.12),
            (x + size * 0.44, foot - size * 0.85),
            (x + size * 0.4, foot - size * 0.3),
        ],
        True,
        8,
    )
    canvas.shape(
        back, sideways(x - size * 0.45, x + size * 0.45, [shade(cloth, 1.12), cloth, shade(cloth, 0.7)][::way])
    )
    canvas.dabs(
        np.array([(x + a * size * 0.17, foot - size * (0.7 + 0.17 * b)) for a in (-1, 0, 1) for b in (0, 1)]),
        size * 0.014,
        shade(cloth, 0.45),
    )
    canvas.shape(
        rounded(x - size * 0.4, foot - size * 0.5, x + size * 0.4, foot - size * 0.28, size * 0.08),
        upright(foot - size * 0.5, foot - size * 0.28, [shade(cloth, 1.2), shade(cloth, 0.8)]),
    )
    _blanket(canvas, view, x - way * size * 0.33, foot, size)
    canvas.shape(
        rounded(x - size * 0.44, foot - size * 0.34, x + size * 0.44, foot - size * 0.14, size * 0.05),
        upright(foot - size * 0.34, foot - size * 0.14, [cloth, shade(cloth, 0.55)]),
    )
    for side in (-1, 1):
        arm = rounded(
            x + side * size * 0.47 - size * 0.1,
            foot - size * 0.62,
            x + side * size * 0.47 + size * 0.1,
            foot - size * 0.14,
            size * 0.1,
        )
        canvas.shape(
            arm,
            upright(
                foot - size * 0.62,
                foot - size * 0.14,
                [shade(cloth, 1.22 if side * way < 0 else 1.0), shade(cloth, 0.62)],
            ),
        )
    _open_book(canvas, x, foot, size, tones("a83c34 2c5c6c d8a848")[view.seed % 3])


def _open_book(canvas: Canvas, x: float, foot: float, size: float, book: Colour) -> None:
    canvas.shape(
        points(
            (x - size * 0.16, foot - size * 0.5),
            (x + size * 0.01, foot - size * 0.54),
            (x + size * 0.01, foot - size * 0.47),
            (x - size * 0.14, foot - size * 0.44),
        ),
        (0.95, 0.92, 0.84),
    )
    canvas.shape(
        points(
            (x + size * 0.01, foot - size * 0.54),
            (x + size * 0.18, foot - size * 0.5),
            (x + size * 0.16, foot - size * 0.44),
            (x + size * 0.01, foot - size * 0.47),
        ),
        (0.86, 0.83, 0.75),
    )
    canvas.lines(
        [
            points(
                (x - size * 0.16, foot - size * 0.45),
                (x + size * 0.01, foot - size * 0.475),
                (x + size * 0.18, foot - size * 0.45),
            )
        ],
        size * 0.016,
        book,
    )


def _blanket(canvas: Canvas, view: View, x: float, foot: float, size: float) -> None:
    colours = tones("e8dcc4 c87050 8ca49c")
    fall = smooth(
        [
            (x - size * 0.16, foot - size * 1.06),
            (x + size * 0.15, foot - size * 1.1),
            (x + size * 0.19, foot - size * 0.66),
            (x + size * 0.15, foot - size * 0.46),
            (x - size * 0.14, foot - size * 0.44),
            (x - size * 0.18, foot - size * 0.74),
        ],
        True,
        6,
    )
    canvas.shape(
        fall,
        stripes(
            size * 0.09,
            upright(foot - size * 1.1, foot - size * 0.4, [colours[view.seed % 3], shade(colours[view.seed % 3], 0.7)]),
            shade(colours[(view.seed + 1) % 3], 0.9),
            lambda rows, columns: rows + columns * 0.12,
        ),
    )


def side_table(canvas: Canvas, view: View, x: float, foot: float, size: float, light: float) -> None:
    """A small round table with a mug and two books."""
    wood = shade(tone("8c6444"), light)
    canvas.shadow(ellipse(x, foot, size * 0.55, size * 0.09), 0.45, size * 0.05)
    for lean in (-0.3, 0.0, 0.3):
        canvas.lines(
            [points((x + lean * size, foot), (x + lean * size * 0.5, foot - size * 0.95))],
            size * 0.05,
            shade(wood, 0.6),
        )
    canvas.shape(ellipse(x, foot - size * 0.95, size * 0.5, size * 0.1), shade(wood, 0.7))
    canvas.shape(ellipse(x, foot - size * 0.98, size * 0.5, size * 0.1), shade(wood, 1.15))
    mug(
        canvas,
        x - size * 0.12,
        foot - size * 0.95,
        size * 0.34,
        shade(tones("e0d4bc c86048 4c7484")[view.seed % 3], light),
        view.seed % 2 == 0,
        view.step,
    )
    for number in range(2):
        canvas.shape(
            rounded(
                x + size * 0.1,
                foot - size * (1.01 + 0.06 * number),
                x + size * (0.42 - 0.04 * number),
                foot - size * (0.95 + 0.06 * number),
                3,
            ),
            shade(_SPINES[(view.seed + number) % 10], light),
        )
