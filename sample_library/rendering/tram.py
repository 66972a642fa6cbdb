"""A tram coming towards the viewer."""

from dataclasses import dataclass

import numpy as np

from .canvas import Canvas
from .colour import Colour, mix, shade, tone
from .outlines import box, ellipse, points, rounded
from .paint import upright

_DARK = tone("20242c")


@dataclass(frozen=True, slots=True)
class Tram:
    """Where it stands (middle of its front, rails), its size in pixels, and whether its side leads off to the right."""

    x: float
    foot: float
    size: float
    rightward: bool
    body: Colour
    glass: Colour
    stripe: Colour

    @property
    def top(self) -> float:
        return self.foot - self.size * 1.25

    @property
    def half(self) -> float:
        return self.size * 0.44

    @property
    def away(self) -> int:
        return 1 if self.rightward else -1

    @property
    def far_end(self) -> float:
        return self.x + self.away * self.size * 2.6


def tram(canvas: Canvas, it: Tram) -> None:
    """Its front, and the length of its side in flat perspective."""
    _side(canvas, it)
    _front(canvas, it)
    for place in (-0.66, 0.66):
        x, y = it.x + it.half * place, it.foot - it.size * 0.22
        canvas.glow(x, y, it.size * 0.62, (1.0, 0.9, 0.66), 0.8)
        canvas.shape(ellipse(x, y, it.size * 0.05, it.size * 0.05), (1.0, 0.98, 0.9))
    _wire(canvas, it)


def _side(canvas: Canvas, it: Tram) -> None:
    size, near = it.size, it.x + it.away * it.half

    def at(share: float, level: float) -> tuple[float, float]:
        """`share` along the side from the front, `level` down from its upper edge."""
        top = it.top + size * (0.06 + 0.36 * share)
        bottom = it.foot - size * (0.06 + 0.1 * share)
        return near + (it.far_end - near) * share, top + (bottom - top) * level

    outline = points(at(0, 0), at(1, 0), at(1, 1), at(0, 1))
    canvas.shape(outline, upright(it.top, it.foot, [shade(it.body, 0.8), shade(it.body, 0.6)]))
    starts = [0.08 + 0.13 * number for number in range(7)]
    panes = [points(at(a, 0.25), at(a + 0.1, 0.25), at(a + 0.1, 0.58), at(a, 0.58)) for a in starts]
    canvas.shapes(panes, shade(it.glass, 0.92))


def _front(canvas: Canvas, it: Tram) -> None:
    x, top, foot, half, size = it.x, it.top, it.foot, it.half, it.size
    paint = upright(top, foot, [shade(it.body, 1.1), it.body, shade(it.body, 0.7)])
    canvas.shape(rounded(x - half, top, x + half, foot, size * 0.12), paint)
    pane = rounded(x - half * 0.86, top + size * 0.24, x + half * 0.86, top + size * 0.68, size * 0.06)
    canvas.shape(pane, upright(top + size * 0.2, top + size * 0.7, [shade(it.glass, 0.7), it.glass]))
    canvas.shape(box(x - half * 0.03, top + size * 0.24, x + half * 0.03, top + size * 0.68), shade(it.body, 0.6))
    canvas.shape(rounded(x - half * 0.55, top + size * 0.07, x + half * 0.55, top + size * 0.18, size * 0.03), _DARK)
    lamps = np.stack([x + half * np.linspace(-0.38, 0.38, 6), np.full(6, top + size * 0.125)], 1)
    canvas.dabs(lamps, size * 0.018, (1.0, 0.72, 0.3))
    canvas.shape(box(x - half, foot - size * 0.36, x + half, foot - size * 0.32), it.stripe)
    canvas.shape(rounded(x - half * 0.9, foot - size * 0.09, x + half * 0.9, foot + 2, size * 0.03), _DARK)


def _wire(canvas: Canvas, it: Tram) -> None:
    x, top, size, away = it.x, it.top, it.size, it.away
    contact = (x + away * size * 0.14, top - size * 0.3)
    canvas.lines([points((x, top), (x - away * size * 0.1, top - size * 0.16), contact)], size * 0.016, _DARK)
    cable = points((x - away * canvas.width, top - size * 0.8), contact, (it.far_end, top + size * 0.3))
    canvas.lines([cable], size * 0.008, _DARK, 0.8)


def lit_glass(lit: float) -> Colour:
    """Panes between dark and lamplight."""
    return mix(tone("2c3844"), (1.0, 0.86, 0.6), 0.25 + 0.75 * min(1.0, lit * 2))
