"""Round corners with soft edges."""

import numpy as np
from PIL import Image

#: A pixel on the arc is covered by as much as so many points by so many in it are.
_FINER = 8


def covered(width: int, height: int, radius: float) -> Image.Image:
    """How far each pixel of a cell lies inside of its round corners, 0..255, mode L; the radius in pixels."""
    mask = np.full((height, width), 255, np.uint8)
    radius = min(radius, width / 2, height / 2)
    side = int(np.ceil(radius))
    if side == 0:
        return Image.fromarray(mask)
    places = radius - (np.arange(side * _FINER) + 0.5) / _FINER  # from the arc's middle, which is 0
    inside = (places[:, None] <= 0) | (places[None, :] <= 0) | (np.hypot(places[:, None], places) <= radius)
    tile = np.rint(255 * inside.reshape(side, _FINER, side, _FINER).mean((1, 3))).astype(np.uint8)
    mask[:side, :side] = np.minimum(mask[:side, :side], tile)
    mask[:side, -side:] = np.minimum(mask[:side, -side:], tile[:, ::-1])
    mask[-side:, :side] = np.minimum(mask[-side:, :side], tile[::-1])
    mask[-side:, -side:] = np.minimum(mask[-side:, -side:], tile[::-1, ::-1])
    return Image.fromarray(mask)
