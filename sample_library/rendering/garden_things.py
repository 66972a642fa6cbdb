"""Shed and tools."""

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade, tone
from .outlines import box, ellipse, points, ribbon, smooth
from .paint import sideways, stripes, upright


def shed(canvas: Canvas, x: float, foot: float, size: float, wall: Colour, sky: Colour, snow: float) -> None:
    """A shed of boards, door and window to the front."""
    top = foot - size * 0.72
    canvas.shadow(
        points(
            (x, foot - size * 0.1), (x + size * 0.9, foot), (x + size * 0.8, foot + size * 0.1), (x, foot + size * 0.06)
        ),
        0.35,
        size * 0.04,
    )
    canvas.shape(
        box(x - size * 0.5, top, x + size * 0.5, foot),
        stripes(
            size * 0.09,
            upright(top, foot, [shade(wall, 1.1), shade(wall, 0.8)]),
            shade(wall, 0.86),
            lambda r, c: c + r * 0,
        ),
    )
    roof = points(
        (x - size * 0.58, top + size * 0.04),
        (x - size * 0.46, top - size * 0.26),
        (x + size * 0.5, top - size * 0.26),
        (x + size * 0.6, top + size * 0.04),
    )
    canvas.shape(
        roof,
        upright(
            top - size * 0.26,
            top,
            [mix(tone("6c5c54"), (0.95, 0.96, 1.0), min(snow * 1.6, 0.95)), tone("4c423e")],
        ),
    )
    canvas.shape(box(x - size * 0.34, top + size * 0.18, x - size * 0.06, foot), shade(wall, 0.62))
    canvas.shape(
        box(x + size * 0.1, top + size * 0.2, x + size * 0.38, top + size * 0.42), mix(tone("2c3844"), sky, 0.3)
    )
    canvas.lines(
        [
            points((x + size * 0.24, top + size * 0.2), (x + size * 0.24, top + size * 0.42)),
            points((x + size * 0.1, top + size * 0.31), (x + size * 0.38, top + size * 0.31)),
        ],
        size * 0.018,
        (0.9, 0.9, 0.86),
    )
    canvas.dabs(points((x - size * 0.1, foot - size * 0.26)), size * 0.014, tone("d8c078"))


def watering_can(canvas: Canvas, x: float, foot: float, size: float) -> None:
    """A can of zinc, spout to the right."""
    zinc = tone("8ca0a4")
    canvas.shadow(ellipse(x + size * 0.2, foot, size * 0.6, size * 0.09), 0.45, size * 0.05)
    spout = smooth(
        [
            (x + size * 0.28, foot - size * 0.25),
            (x + size * 0.6, foot - size * 0.5),
            (x + size * 0.78, foot - size * 0.85),
        ],
        False,
        6,
    )
    canvas.shape(ribbon(spout, np.linspace(size * 0.16, size * 0.07, len(spout))), shade(zinc, 0.8))
    canvas.shape(
        points(
            (x + size * 0.7, foot - size * 0.8),
            (x + size * 0.76, foot - size * 0.95),
            (x + size * 0.94, foot - size * 0.86),
            (x + size * 0.84, foot - size * 0.76),
        ),
        shade(zinc, 0.65),
    )
    canvas.lines(
        [
            smooth(
                [
                    (x - size * 0.3, foot - size * 0.2),
                    (x - size * 0.62, foot - size * 0.5),
                    (x - size * 0.3, foot - size * 0.78),
                ],
                False,
                8,
            ),
            smooth(
                [(x - size * 0.25, foot - size * 0.72), (x, foot - size * 1.0), (x + size * 0.25, foot - size * 0.72)],
                False,
                8,
            ),
        ],
        size * 0.055,
        shade(zinc, 0.62),
    )
    body = points(
        (x - size * 0.34, foot),
        (x - size * 0.3, foot - size * 0.75),
        (x + size * 0.3, foot - size * 0.75),
        (x + size * 0.34, foot),
    )
    canvas.shape(
        body,
        sideways(
            x - size * 0.34,
            x + size * 0.34,
            [shade(zinc, 0.95), shade(zinc, 1.35), shade(zinc, 0.9), shade(zinc, 0.55)],
        ),
    )
    canvas.shape(ellipse(x, foot - size * 0.75, size * 0.3, size * 0.07), shade(zinc, 0.5))
