"""Boats and gulls: what floats and what flies over it."""

import math

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade
from .outlines import box, placed, points, ribbon, smooth
from .paint import sideways, upright

_HULL = [
    (-0.5, -0.13),
    (-0.46, 0.0),
    (-0.36, 0.07),
    (0.34, 0.07),
    (0.46, -0.04),
    (0.56, -0.19),
    (0.3, -0.145),
    (0, -0.12),
]
_BAND = [
    (-0.5, -0.13),
    (-0.49, -0.095),
    (0, -0.085),
    (0.3, -0.11),
    (0.545, -0.155),
    (0.56, -0.19),
    (0.3, -0.145),
    (0, -0.12),
]


def fishing_boat(
    canvas: Canvas,
    x: float,
    y: float,
    size: float,
    hull: Colour,
    light: Colour,
    mirror: bool = False,
    lamp: float = 0.0,
) -> None:
    """A small working boat afloat at x, y; `size` is its length in pixels. `lamp` lights the wheelhouse."""

    def put(*pairs: tuple[float, float]) -> np.ndarray:
        return placed(pairs, x, y, size, mirror)

    cabin = mix(light, (0.93, 0.9, 0.84), 0.55)
    canvas.lines(
        [put((-0.12, -0.2), (-0.12, -0.82)), put((-0.12, -0.8), (0.5, -0.2)), put((-0.12, -0.8), (-0.48, -0.14))],
        size * 0.008,
        shade(hull, 0.4),
        0.9,
    )
    canvas.lines([put((-0.12, -0.3), (-0.42, -0.52))], size * 0.014, shade(hull, 0.5))
    canvas.shape(
        put((-0.3, -0.12), (-0.3, -0.38), (-0.02, -0.38), (0.03, -0.12)),
        upright(y - size * 0.38, y - size * 0.12, [cabin, shade(cabin, 0.72)]),
    )
    canvas.shape(put((-0.33, -0.38), (-0.32, -0.415), (0.02, -0.415), (0.01, -0.38)), shade(hull, 0.75))
    pane = mix(shade(hull, 0.35), (1.0, 0.82, 0.46), lamp)
    canvas.shapes(
        [put((a, -0.335), (a + 0.075, -0.335), (a + 0.075, -0.24), (a, -0.24)) for a in (-0.275, -0.18, -0.085)], pane
    )
    outline = placed(smooth(_HULL, True, 6), x, y, size, mirror)
    canvas.shape(outline, upright(y - size * 0.16, y + size * 0.07, [shade(hull, 1.12), shade(hull, 0.55)]))
    canvas.shape(placed(smooth(_BAND, True, 6), x, y, size, mirror), mix(light, (1, 1, 1), 0.35), 0.85)
    if lamp:
        sign = -1 if mirror else 1
        canvas.glow(x - sign * 0.14 * size, y - size * 0.29, size * 0.35, (1.0, 0.75, 0.4), 0.5 * lamp)
        canvas.glow(x - sign * 0.12 * size, y - size * 0.82, size * 0.16, (1.0, 0.85, 0.6), 0.8 * lamp)


def sailing_boat(
    canvas: Canvas, x: float, y: float, size: float, hull: Colour, sail: Colour | None = None, mirror: bool = False
) -> None:
    """A yacht; moored under bare poles, or with sails set in a colour. `size` is its length."""

    def put(*pairs: tuple[float, float]) -> np.ndarray:
        return placed(pairs, x, y, size, mirror)

    canvas.lines([put((0.02, -0.1), (0.02, -1.35))], size * 0.016, shade(hull, 0.55))
    if sail is None:
        canvas.lines(
            [put((0.02, -1.33), (0.52, -0.13)), put((0.02, -1.33), (-0.5, -0.12)), put((-0.14, -0.9), (0.18, -0.9))],
            size * 0.006,
            shade(hull, 0.5),
            0.8,
        )
        canvas.shape(
            put((0.02, -0.25), (-0.43, -0.22), (-0.43, -0.18), (0.02, -0.19)), mix(hull, (0.25, 0.33, 0.45), 0.7)
        )
    else:
        main = np.concatenate(
            [
                put((0.0, -0.2), (0.0, -1.3)),
                placed(smooth([(0, -1.3), (-0.3, -0.8), (-0.46, -0.22)], False), x, y, size, mirror),
            ]
        )
        jib = np.concatenate(
            [
                put((0.04, -1.25)),
                placed(smooth([(0.04, -1.25), (0.3, -0.62), (0.52, -0.16)], False), x, y, size, mirror),
                put((0.1, -0.24)),
            ]
        )
        canvas.shape(main, upright(y - size * 1.3, y - size * 0.2, [shade(sail, 1.05), shade(sail, 0.82)]))
        canvas.shape(jib, upright(y - size * 1.3, y - size * 0.2, [shade(sail, 0.97), shade(sail, 0.72)]))
    canvas.shape(put((-0.22, -0.1), (-0.16, -0.165), (0.16, -0.165), (0.26, -0.1)), shade(hull, 0.8))
    canvas.shape(
        placed(
            smooth([(-0.5, -0.1), (-0.44, 0.03), (0.3, 0.04), (0.55, -0.13), (0.1, -0.1)], True, 6), x, y, size, mirror
        ),
        upright(y - size * 0.12, y + size * 0.05, [hull, shade(hull, 0.6)]),
    )


def rowing_boat(canvas: Canvas, x: float, y: float, size: float, hull: Colour, mirror: bool = False) -> None:
    """A dinghy seen from a little above."""
    rim = placed(
        smooth([(-0.5, -0.1), (-0.2, -0.17), (0.2, -0.17), (0.52, -0.15), (0.25, -0.06), (-0.3, -0.03)], True, 8),
        x,
        y,
        size,
        mirror,
    )
    side = placed(
        smooth([(-0.5, -0.1), (-0.42, 0.06), (0.2, 0.07), (0.52, -0.15), (0.25, -0.06), (-0.3, -0.03)], True, 8),
        x,
        y,
        size,
        mirror,
    )
    canvas.shape(side, upright(y - size * 0.1, y + size * 0.08, [hull, shade(hull, 0.6)]))
    canvas.shape(rim, upright(y - size * 0.17, y - size * 0.03, [shade(hull, 0.35), shade(hull, 0.6)]))
    for place in (-0.2, 0.08):
        canvas.shape(
            placed(
                [(place, -0.165), (place + 0.08, -0.165), (place + 0.03, -0.04), (place - 0.05, -0.04)],
                x,
                y,
                size,
                mirror,
            ),
            mix(hull, (0.75, 0.6, 0.42), 0.7),
        )
    canvas.lines([rim], size * 0.012, mix(hull, (1, 1, 1), 0.45))


def gull(canvas: Canvas, x: float, y: float, size: float, beat: float, colour: Colour = (0.93, 0.94, 0.95)) -> None:
    """A gull in flight; `beat` moves the wings up and down (radians)."""
    lift = math.sin(beat)
    for side in (-1, 1):
        wing = smooth([(0, 0), (side * 0.22, -0.1 - 0.16 * lift), (side * 0.5, -0.02 - 0.3 * lift)], False, 8)
        width = np.linspace(0.1, 0.015, len(wing)) * size
        canvas.shape(ribbon(wing * size + (x, y), width), shade(colour, 0.8 if side < 0 else 0.94))
    canvas.shape(
        placed(smooth([(-0.2, 0.03), (0, -0.035), (0.17, -0.01), (0.2, 0.015), (0, 0.055)], True, 6), x, y, size),
        colour,
    )


def mooring_post(canvas: Canvas, x: float, top: float, bottom: float, width: float, colour: Colour) -> None:
    """A wooden post, lit from the left."""
    canvas.shape(
        box(x - width / 2, top, x + width / 2, bottom),
        sideways(
            x - width / 2,
            x + width / 2,
            [shade(colour, 0.9), shade(colour, 1.25), shade(colour, 0.75), shade(colour, 0.4)],
        ),
    )
    canvas.shape(
        smooth(points((x - width / 2, top), (x, top - width * 0.2), (x + width / 2, top), (x, top + width * 0.2))),
        shade(colour, 1.35),
    )
