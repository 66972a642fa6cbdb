"""Made pictures of surfaces: the light and dark of them, which has structure, and their colours, which have none."""

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

HEIGHT, WIDTH = 240, 320

Paint = NDArray[np.float64]


def grain(seed: int, height: int = HEIGHT + 40, width: int = WIDTH + 40) -> Paint:
    """(h, w): what the surfaces have of light and dark: soft spots of many sizes."""
    random = np.random.default_rng(seed)
    spots = sum(ndimage.gaussian_filter(random.normal(size=(height, width)), size) * size for size in (2.0, 4.0, 8.0))
    return np.asarray(spots * 25 / np.std(spots))


def colours(seed: int, height: int = HEIGHT + 40, width: int = WIDTH + 40) -> Paint:
    """(h, w, 3): which colour the surfaces have, so soft that it has no structure of its own."""
    random = np.random.default_rng(seed + 1000)
    layers = [ndimage.gaussian_filter(random.normal(size=(height, width)), 40) for _ in range(3)]
    return np.stack([15 * layer / np.std(layer) for layer in layers], axis=-1)


def painted(light: Paint, colour: Paint, down: int = 0, across: int = 0) -> Image.Image:
    """The picture of it, seen from so many pixels further down and to the right."""
    colour = colour - (colour @ [0.299, 0.587, 0.114])[..., None]  # as bright as before (ITU-R BT.601)
    whole = (120 + light[..., None] + colour)[20 + down : 20 + down + HEIGHT, 20 + across : 20 + across + WIDTH]
    return Image.fromarray(whole.clip(0, 255).astype(np.uint8))
