"""Water: still enough to mirror what stands above it, or open with waves and glitter."""

from collections.abc import Sequence

import numpy as np
from PIL import Image

from .canvas import Canvas, blurred
from .colour import Colour
from .noise import Field, ease, field, ground
from .paint import upright
from .view import View

_BOX, _BICUBIC = Image.Resampling.BOX, Image.Resampling.BICUBIC


def mirror(canvas: Canvas, view: View, line: float, tint: Colour, depth: float = 0.45, ripple: float = 1.0) -> None:
    """Turn all below `line` into water that mirrors what is above, tinted by `tint` with growing depth.

    `ripple` 0 is a sheet of glass, 1 a quiet harbour, 2 a breeze.
    """
    top = int(line)
    rows = canvas.height - top
    below = np.arange(rows, dtype=np.float32)
    near = below[:, None] / rows
    waves = ground(view.dice("ripple"), (rows, canvas.width), canvas.unit * 0.085, 4.0, view.step * 0.4)
    reach = canvas.unit * (0.004 + 0.05 * near) * np.float32(ripple)
    source = top - 1 - below[:, None] * (top / max(rows, top)) + waves * reach * 2
    aside = np.arange(canvas.width)[None, :] + (np.roll(waves, 37, 1) * reach * 0.35)
    r = np.clip(source, 0, top - 1).astype(np.int32)
    c = np.clip(aside, 0, canvas.width - 1).astype(np.int32)
    mirrored = _smeared(canvas.rgb[r, c], canvas.unit)
    share = np.clip(np.float32(depth) * (0.25 + 0.75 * near) + waves * 0.35 * ripple, 0, 1)[..., None]
    canvas.rgb[top:] = mirrored * np.float32(0.92) * (1 - share) + np.array(tint, np.float32) * share


def sea(
    canvas: Canvas,
    view: View,
    line: float,
    stops: Sequence[Colour],
    swell: float = 0.12,
    cell: float = 0.16,
    crest: float = 0.0,
) -> None:
    """Open water below `line`: colours from horizon to viewer, waves `swell` strong, white crests if `crest` > 0."""
    top = int(line)
    rows = canvas.height - top
    waves = ground(view.dice("sea"), (rows, canvas.width), canvas.unit * cell, 3.2, view.step * 0.5)
    small = ground(view.dice("chop"), (rows, canvas.width), canvas.unit * cell * 0.4, 3.0, view.step * 0.9)
    height = waves * 0.8 + small * 0.75
    canvas.rgb[top:] = upright(top, canvas.height, stops)(*(part for part in _below(canvas, top)))
    canvas.rgb[top:] *= (1 + height * np.float32(swell) * 3)[..., None]
    if crest:
        foam = ease(height, 0.44 - 0.1 * crest, 0.56 - 0.1 * crest)
        part = canvas.rgb[top:]
        part += (np.array((0.93, 0.96, 0.97), np.float32) - part) * (foam * np.float32(0.75))[..., None]


def glitter(
    canvas: Canvas, view: View, line: float, x: float, width: float, colour: Colour, strength: float = 0.8
) -> None:
    """The sun's path on open water: sparks in a column below x that widens towards the viewer."""
    top = int(line)
    rows = canvas.height - top
    waves = ground(view.dice("glitter"), (rows, canvas.width), canvas.unit * 0.034, 4.5, view.step)
    near = np.linspace(0, 1, rows, dtype=np.float32)[:, None]
    aside = (np.arange(canvas.width, dtype=np.float32)[None, :] - x) / (width * (0.45 + near))
    column = np.exp(-aside * aside) * (1 - 0.65 * near)
    sparks = ease(waves + 0.34 * column, 0.22, 0.42) * column
    mask = np.zeros((canvas.height, canvas.width), np.float32)
    mask[top:] = np.clip(sparks + column * 0.22, 0, 1) * np.float32(strength)
    canvas.light(mask, colour)


def foam_line(canvas: Canvas, view: View, level: float, sway: float, colour: Colour, opacity: float = 0.8) -> None:
    """A thin wave running out on the sand along `level` (pixels)."""
    noise = field(view.dice(f"foam{level:.0f}"), (1, canvas.width), (4, canvas.unit * 0.25), 4)[0]
    edge = level + (noise - 0.5) * sway
    rows, _ = canvas.grid()
    distance = rows - edge[None, :]
    body = np.clip(1 - np.abs(distance) / (canvas.unit * 0.006), 0, 1)
    film = np.clip(1 + distance / (canvas.unit * 0.05), 0, 1) * (distance < 0)
    canvas.veil(np.clip(body + film * 0.35, 0, 1) * np.float32(opacity), colour)


def mirror_thing(
    canvas: Canvas, view: View, before: Field, level: float, tint: Colour, strength: float = 0.8, breeze: float = 1.0
) -> None:
    """Mirror what was painted since `before` (a copy of the picture) at the waterline `level`, in broken water."""
    top = int(level)
    rows = min(canvas.height - top, top)
    changed = np.clip(np.abs(canvas.rgb[:top] - before[:top]).max(2) * 12, 0, 1)
    waves = ground(
        view.dice("thing ripple"), (canvas.height, canvas.width), canvas.unit * 0.1 / breeze, 3.5, view.step * 0.4
    )[top : top + rows]
    reach = canvas.unit * 0.05 * breeze * np.linspace(0.2, 1, rows, dtype=np.float32)[:, None]
    r = np.clip(top - 1 - np.arange(rows)[:, None] + waves * reach, 0, top - 1).astype(np.int32)
    c = np.clip(np.arange(canvas.width)[None, :] + waves * reach * 1.6, 0, canvas.width - 1).astype(np.int32)
    share = blurred(changed[r, c], 2) * np.linspace(strength, strength * 0.25, rows, dtype=np.float32)[:, None]
    part = canvas.rgb[top : top + rows]
    mirrored = canvas.rgb[r, c] * np.float32(0.7) + np.array(tint, np.float32) * np.float32(0.3)
    part += (_smeared(mirrored, canvas.unit) - part) * share[..., None]


def _smeared(rgb: Field, unit: float) -> Field:
    """Blurred a little along the columns, as moving water does."""
    height, width = rgb.shape[:2]
    smaller = (width, max(2, round(height / max(1.5, unit * 0.006))))
    channels = [Image.fromarray(np.ascontiguousarray(rgb[..., channel])) for channel in range(3)]
    return np.stack(
        [np.asarray(channel.resize(smaller, _BOX).resize((width, height), _BICUBIC)) for channel in channels], 2
    )


def _below(canvas: Canvas, top: int) -> tuple[np.ndarray, np.ndarray]:
    rows, columns = canvas.grid()
    return rows[top:], columns
