"""From a shot to its picture: the scene painted, held by an unsteady hand, with the look of the device."""

from collections.abc import Callable
from functools import lru_cache
from importlib import import_module

import numpy as np
from PIL import Image

from .canvas import Canvas
from .household import Shot
from .light import Look, developed
from .view import View

_LOOKS = {
    "ada": Look(warmth=0.012, contrast=0.07, colour=1.05),
    "ben": Look(warmth=-0.02, contrast=0.12, colour=0.96),
    "compact": Look(warmth=0.0, contrast=0.03, colour=0.9, lift=0.025, vignette=0.24),
    "grandmother": Look(warmth=0.035, contrast=0.0, colour=0.82, lift=0.05, vignette=0.1),
}
#: Painted beyond the frame on every side, as a share of the picture, so that the hand can shake.
_MARGIN = 0.02


def picture(shot: Shot) -> Image.Image:
    """The displayed picture of a shot, RGB, `shot.size` pixels."""
    width, height = shot.size
    field_width, field_height = _field(shot)
    canvas = Canvas(round(field_width * (1 + 2 * _MARGIN)), round(field_height * (1 + 2 * _MARGIN)))
    _scene(shot.scene)(canvas, shot.view)
    dice = shot.view.dice(f"hand {shot.device} {shot.taken.isoformat()}")
    left = (canvas.width - width) // 2 + int(field_width * _MARGIN * dice.uniform(-0.8, 0.8))
    top = (canvas.height - height) // 2 + int(field_height * _MARGIN * dice.uniform(-0.8, 0.8))
    canvas.rgb = canvas.rgb[top : top + height, left : left + width]
    canvas.width, canvas.height = width, height
    return developed(canvas, _LOOKS[shot.device], dice)


def _field(shot: Shot) -> tuple[int, int]:
    """What the lens sees. The compact camera cuts its 3:2 picture out of the same 4:3 view that the phones have."""
    width, height = shot.size
    if shot.device != "compact":
        return width, height
    return (width, width * 3 // 4) if width > height else (height * 3 // 4, height)


@lru_cache
def _scene(name: str) -> Callable[[Canvas, View], None]:
    paint: Callable[[Canvas, View], None] = import_module(f".scenes.{name}", __package__).paint
    return paint


def reduced(image: Image.Image, long_side: int) -> Image.Image:
    """A smaller copy."""
    scale = long_side / max(image.size)
    return image.resize((round(image.width * scale), round(image.height * scale)), Image.Resampling.LANCZOS)


def brightened(image: Image.Image, gain: float, gamma: float) -> Image.Image:
    """As a person would with a slider or two."""
    table = np.clip((np.arange(256) / 255) ** gamma * gain * 255 + 0.5, 0, 255).astype(int).tolist()
    return image.point(table * 3)
