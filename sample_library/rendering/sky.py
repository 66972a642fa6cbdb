"""Skies: colours from zenith to horizon, clouds lit from the side of the sun, sun and moon, stars."""

from collections.abc import Sequence

import numpy as np

from .canvas import Canvas
from .colour import Colour
from .noise import Field, ease, field
from .outlines import ellipse
from .paint import upright
from .view import View


def sky(canvas: Canvas, horizon: float, stops: Sequence[Colour]) -> None:
    """Fill everything with colours that run from the top down to `horizon` (pixels)."""
    canvas.fill(upright(0, horizon, stops))


def clouds(
    canvas: Canvas,
    view: View,
    horizon: float,
    lit: Colour,
    shaded: Colour,
    cover: float = 0.5,
    scale: float = 0.5,
    sun: tuple[float, float] = (0.7, 0.8),
    opacity: float = 0.9,
) -> None:
    """Clouds that grow flatter and smaller towards the horizon.

    `cover` is the share of the sky they take, `scale` their size as a share of the picture's unit, `sun` the direction
    of the light (right, down), each about -1 to 1.
    """
    height = int(horizon)
    noise = field(
        view.dice("clouds"), (height, canvas.width), (scale * 0.42 * canvas.unit, scale * canvas.unit), 5, 0.52
    )
    rows = np.arange(height, dtype=np.float32) / height
    noise = noise[(_flattened(rows) * (height - 1)).astype(int)]
    thick = ease(noise, 0.62 - cover * 0.3, 0.82 - cover * 0.22)
    step = max(2, int(scale * canvas.unit * 0.07))
    slope = noise - _moved(noise, int(step * sun[1]), int(step * sun[0]))
    bright = np.clip(0.5 + slope * 4.0 - (thick - 0.5) * 0.35, 0, 1)[..., None]
    colours = np.array(shaded, np.float32) + (np.array(lit, np.float32) - np.array(shaded, np.float32)) * bright
    fade = ease(1 - rows, 0.02, 0.3)[:, None] * np.float32(opacity)
    part = canvas.rgb[:height]
    part += (colours - part) * (thick * fade)[..., None]


def _moved(values: Field, down: int, right: int) -> Field:
    rows = np.clip(np.arange(values.shape[0]) + down, 0, values.shape[0] - 1)
    columns = np.clip(np.arange(values.shape[1]) + right, 0, values.shape[1] - 1)
    return values[np.ix_(rows, columns)]


def _flattened(rows: Field) -> Field:
    """Where to look in the noise: the last third of the way to the horizon holds twice as much sky."""
    return (rows + rows**3 * 0.6) / 1.6


def sun(canvas: Canvas, x: float, y: float, size: float, colour: Colour, strength: float = 1.0) -> None:
    """A low sun: disc, near glow, wide glow. `size` is its radius in pixels."""
    canvas.glow(x, y, size * 26, colour, 0.42 * strength)
    canvas.glow(x, y, size * 9, colour, 0.5 * strength)
    canvas.shape(ellipse(x, y, size, size), (1.0, 0.97, 0.86), min(1.0, strength), size * 0.12)


def moon(canvas: Canvas, x: float, y: float, size: float, phase: float = 0.3) -> None:
    """A moon, its dark part moved aside by `phase` of its width."""
    canvas.glow(x, y, size * 7, (0.75, 0.8, 0.95), 0.22)
    before = canvas.rgb.copy()
    canvas.shape(ellipse(x, y, size, size), (0.96, 0.95, 0.88))
    if phase:
        canvas.shape(
            ellipse(x + size * 2 * phase, y - size * 0.3, size, size),
            lambda r, c: _piece(before, r, c),
            1.0,
            size * 0.06,
        )


def _piece(values: Field, rows: Field, columns: Field) -> Field:
    top, left = int(rows[0, 0]), int(columns[0, 0])
    return values[top : top + rows.shape[0], left : left + columns.shape[1]]


def stars(canvas: Canvas, view: View, horizon: float, count: int = 140) -> None:
    """Small points, fewer near the horizon."""
    dice = view.dice("stars")
    spots = np.stack([dice.random(count) * canvas.width, dice.random(count) ** 1.5 * horizon], 1)
    sizes = canvas.unit * (0.0006 + 0.0012 * dice.random(count) ** 4)
    canvas.dabs(spots, sizes, (0.92, 0.94, 1.0), 0.75)
