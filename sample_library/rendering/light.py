"""What light does to the whole picture: bloom, haze, vignette, and the look of each device."""

from dataclasses import dataclass

import numpy as np
from PIL import Image

from .canvas import Canvas, blurred
from .colour import Colour
from .noise import Field, ease


@dataclass(frozen=True, slots=True)
class Look:
    """How one device renders light: `warmth` and `contrast` about 0, `colour` 1 = as painted, `grain` in 1/255."""

    warmth: float = 0.0
    contrast: float = 0.06
    colour: float = 1.0
    lift: float = 0.0
    grain: float = 0.0
    vignette: float = 0.16


def bloom(canvas: Canvas, threshold: float = 0.78, strength: float = 0.35, radius: float = 0.022) -> None:
    """Let bright places spill a little light around them."""
    bright = np.clip(canvas.rgb - np.float32(threshold), 0, 1) / np.float32(1 - threshold)
    spill = blurred(bright, radius * canvas.unit) * np.float32(strength)
    canvas.rgb += (1 - np.minimum(canvas.rgb, 1)) * spill


def haze(canvas: Canvas, top: float, bottom: float, colour: Colour, strength: float) -> None:
    """A bank of mist, thickest half-way between two levels."""
    rows, columns = canvas.grid()
    place = (rows - top) / (bottom - top)
    thick = np.clip(1 - np.abs(place * 2 - 1), 0, 1) ** 1.5 * np.float32(strength)
    canvas.veil(thick + columns * 0, colour)


def shafts(canvas: Canvas, x: float, y: float, colour: Colour, strength: float, dice: np.random.Generator) -> None:
    """Beams that fan out from a low sun."""
    rows, columns = canvas.grid()
    angle = np.arctan2(rows - y, columns - x)
    table = np.convolve(dice.random(256), np.hanning(9) / np.hanning(9).sum(), "same")
    beams = np.interp((angle + np.pi) / (2 * np.pi) * 255, np.arange(256), table).astype(np.float32)
    near = np.exp(-np.hypot(rows - y, columns - x) / (0.9 * canvas.unit)).astype(np.float32)
    canvas.light(ease(beams, 0.45, 0.75) * near * np.float32(strength), colour)


def developed(canvas: Canvas, look: Look, dice: np.random.Generator) -> Image.Image:
    """The finished picture, 8 bits a channel."""
    rgb = np.clip(canvas.rgb, 0, 1)
    grey = (rgb[..., 0] * np.float32(0.3) + rgb[..., 1] * np.float32(0.59) + rgb[..., 2] * np.float32(0.11))[..., None]
    rgb = grey + (rgb - grey) * np.float32(look.colour)
    rgb = rgb + np.float32(look.contrast) * (ease(rgb, 0, 1) - rgb) * 2
    rgb *= np.array([1 + look.warmth, 1.0, 1 - look.warmth], np.float32)
    rgb = rgb * np.float32(1 - look.lift) + np.float32(look.lift)
    rgb *= _falloff(canvas, look.vignette)[..., None]
    noise = dice.standard_normal((canvas.height, canvas.width), np.float32) * np.float32(look.grain)
    levels = np.clip(rgb * 255 + noise[..., None] + 0.5, 0, 255)
    return Image.fromarray(levels.astype(np.uint8))


def _falloff(canvas: Canvas, strength: float) -> Field:
    rows, columns = canvas.grid()
    far = ((columns / canvas.width - 0.5) ** 2 + (rows / canvas.height - 0.5) ** 2) * 2
    return (1 - np.float32(strength) * far**1.3).astype(np.float32)
