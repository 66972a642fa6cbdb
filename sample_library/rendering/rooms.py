"""Parts of rooms: walls, windows with what lies outside, table tops, lamps, out-of-focus lights."""

from collections.abc import Sequence

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade, tone
from .noise import ease, field
from .outlines import box, ellipse, points, ribbon, smooth
from .paint import grained, sideways, upright
from .view import View


def wall(canvas: Canvas, colour: Colour, light: tuple[float, float] = (0.5, 0.3), fall: float = 0.45) -> None:
    """A painted wall, lightest about `light` (shares of width and height)."""
    rows, columns = canvas.grid()
    far = (
        np.hypot((columns / canvas.width - light[0]) * canvas.width, (rows / canvas.height - light[1]) * canvas.height)
        / canvas.unit
    )
    bright = 1.08 - np.float32(fall) * np.clip(far, 0, 1.6)
    canvas.rgb[:] = np.array(colour, np.float32) * bright[..., None]


def planks(canvas: Canvas, view: View, top: float, colour: Colour, light: float = 1.0, count: int = 4) -> None:
    """A table top of long boards seen at a flat angle, from `top` to the lower edge."""
    grain = field(view.dice("grain"), (canvas.height, canvas.width), (canvas.unit * 0.012, canvas.unit * 0.5), 4, 0.6)
    paint = grained(
        upright(
            top, canvas.height, [shade(colour, 0.95 * light), shade(colour, 1.12 * light), shade(colour, 0.8 * light)]
        ),
        grain,
        0.5,
    )
    canvas.shape(box(-9, top, canvas.width + 9, canvas.height + 9), paint)
    depth = canvas.height - top
    seams = [top + depth * (number / count) ** 1.4 for number in range(1, count)]
    canvas.lines(
        [points((-9, y), (canvas.width + 9, y)) for y in seams], canvas.unit * 0.0022, shade(colour, 0.4 * light), 0.6
    )
    canvas.shape(box(-9, top - 1, canvas.width + 9, top + canvas.unit * 0.004), shade(colour, 1.3 * light), 0.7)


def window(
    canvas: Canvas,
    left: float,
    top: float,
    right: float,
    bottom: float,
    frame: Colour,
    panes: tuple[int, int] = (2, 2),
    width: float = 0.018,
) -> None:
    """A wooden frame round what is painted already; `panes` across and down."""
    thick = canvas.unit * width
    outer = [
        box(left - thick, top - thick, right + thick, top),
        box(left - thick, bottom, right + thick, bottom + thick),
        box(left - thick, top - thick, left, bottom + thick),
        box(right, top - thick, right + thick, bottom + thick),
    ]
    canvas.shapes(outer, shade(frame, 0.95))
    bars = [
        box(
            left + (right - left) * n / panes[0] - thick * 0.35,
            top,
            left + (right - left) * n / panes[0] + thick * 0.35,
            bottom,
        )
        for n in range(1, panes[0])
    ]
    bars += [
        box(
            left,
            top + (bottom - top) * n / panes[1] - thick * 0.3,
            right,
            top + (bottom - top) * n / panes[1] + thick * 0.3,
        )
        for n in range(1, panes[1])
    ]
    canvas.shapes(bars, shade(frame, 0.88))
    canvas.lines([points((left, bottom), (left, top), (right, top))], thick * 0.16, shade(frame, 0.55), 0.7)


def sill(canvas: Canvas, left: float, right: float, top: float, depth: float, colour: Colour) -> None:
    """The board below a window, with its shadow on the wall."""
    canvas.shadow(box(left, top + depth, right, top + depth * 2.2), 0.3, depth * 0.5)
    canvas.shape(
        box(left, top, right, top + depth),
        upright(top, top + depth, [shade(colour, 1.12), colour, shade(colour, 0.72)]),
    )


def curtain(canvas: Canvas, view: View, left: float, right: float, top: float, bottom: float, colour: Colour) -> None:
    """Hanging cloth in folds."""
    dice = view.dice(f"curtain{left:.0f}")
    folds = [shade(colour, 0.62 + 0.55 * dice.random()) for _ in range(11)]
    inner = right if left < canvas.width / 2 else left
    outer = left if inner == right else right
    edge = smooth(
        [
            (inner, top),
            (inner + (outer - inner) * 0.1, top + (bottom - top) * 0.5),
            (inner - (outer - inner) * 0.06, bottom),
        ],
        False,
        12,
    )
    canvas.shape(
        np.concatenate([edge, points((outer, bottom), (outer, top))]),
        sideways(left, right, folds),
        0.97,
        canvas.unit * 0.002,
    )


def bokeh(
    canvas: Canvas,
    view: View,
    count: int,
    colours: Sequence[Colour],
    area: tuple[float, float, float, float],
    size: float = 0.03,
    strength: float = 0.5,
) -> None:
    """Lights far out of focus inside `area` (shares: left, top, right, bottom)."""
    dice = view.dice("bokeh")
    for number in range(count):
        x = canvas.width * (area[0] + (area[2] - area[0]) * dice.random() - view.lean * 0.2)
        y = canvas.height * (area[1] + (area[3] - area[1]) * dice.random())
        radius = canvas.unit * size * (0.5 + dice.random())
        colour = colours[number % len(colours)]
        canvas.shape(
            ellipse(x, y, radius, radius),
            mix(colour, (1, 1, 1), 0.15),
            strength * (0.25 + 0.5 * dice.random()),
            radius * 0.06,
        )
        canvas.glow(x, y, radius * 2.2, colour, strength * 0.25)


def pendant(canvas: Canvas, x: float, y: float, size: float, colour: Colour, glow: float = 1.0) -> None:
    """A hanging lamp with its shade's lower edge at y."""
    canvas.lines([points((x, -9), (x, y - size * 0.5))], size * 0.025, shade(colour, 0.3))
    canvas.glow(x, y + size * 0.4, size * 4.6, (1.0, 0.78, 0.45), 0.32 * glow)
    canvas.glow(x, y + size * 0.1, size * 1.5, (1.0, 0.85, 0.55), 0.45 * glow)
    bell = smooth(
        [
            (x - size * 0.1, y - size * 0.52),
            (x - size * 0.36, y - size * 0.3),
            (x - size * 0.55, y),
            (x + size * 0.55, y),
            (x + size * 0.36, y - size * 0.3),
            (x + size * 0.1, y - size * 0.52),
        ],
        False,
        8,
    )
    canvas.shape(
        bell, sideways(x - size * 0.55, x + size * 0.55, [shade(colour, 0.75), shade(colour, 1.2), shade(colour, 0.6)])
    )
    canvas.shape(ellipse(x, y, size * 0.545, size * 0.07), mix(shade(colour, 0.8), (1.0, 0.93, 0.72), glow))


def light_pool(canvas: Canvas, x: float, y: float, reach: float, strength: float, squash: float = 0.4) -> None:
    """Lamplight lying on a level surface."""
    canvas.glow(x, y, reach, (1.0, 0.74, 0.42), strength, squash)


def rain_on_glass(canvas: Canvas, view: View, area: tuple[float, float, float, float]) -> None:
    """Drops and runs on a pane; `area` in pixels."""
    dice = view.dice("drops")
    left, top, right, bottom = area
    spots = np.stack([left + dice.random(170) * (right - left), top + dice.random(170) * (bottom - top)], 1)
    sizes = canvas.unit * (0.0015 + 0.0035 * dice.random(170) ** 2)
    canvas.dabs(spots, sizes, tone("2c3848"), 0.25)
    canvas.dabs(spots - sizes[:, None] * 0.35, sizes * 0.6, (0.9, 0.94, 1.0), 0.5)
    runs = [
        ribbon(
            smooth(
                [
                    (x, y),
                    (x + dice.normal() * 3, y + canvas.unit * 0.04),
                    (x + dice.normal() * 4, y + canvas.unit * (0.06 + 0.1 * dice.random())),
                ],
                False,
                6,
            ),
            canvas.unit * 0.002,
        )
        for x, y in spots[:24]
    ]
    inside = [run for run in runs if run[:, 1].max() < bottom]
    if inside:
        canvas.shapes(inside, (0.85, 0.9, 0.98), 0.28)


def dapple(canvas: Canvas, view: View, strength: float, colour: Colour, cell: float = 0.22) -> None:
    """Sunlight broken by leaves or bars, lying over everything."""
    noise = field(view.dice("dapple"), (canvas.height, canvas.width), (canvas.unit * cell, canvas.unit * cell * 1.5), 2)
    canvas.light(ease(noise, 0.5, 0.72) * np.float32(strength), colour)
