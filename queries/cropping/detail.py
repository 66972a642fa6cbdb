"""How much there is to see in each part of a picture."""

from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from indexer.facts.fingerprint import cielab

#: The longer side of a map, in cells, and of the picture it is made from, in pixels.
CELLS = 48
SIDE = 192
_PIXELS = SIDE // CELLS
#: A contrast of so many units of lightness between neighbouring pixels counts half; a stronger one hardly more.
_HALF_CONTRAST = 12.0
#: Means of noise over a picture of nothing: of the contrast as it is held, and in units of CIELAB.
_NO_CONTRAST, _NO_COLOUR = 0.01, 0.5


def detail_map(picture: Image.Image) -> NDArray[np.float32]:
    """What there is to see, 0 or more, in rows and columns over an RGB picture in sRGB, the longer side `CELLS` cells.

    Half of it is contrast: how the lightness changes from pixel to pixel, strong edges held down so that one of them is
    not all. Half is colour that stands out: the distance in CIELAB of each place from the mean of the largest surround
    that is symmetric about it and inside the picture, so that a sky or a wall at the border does not stand out (Achanta
    and Suesstrunk, "Saliency detection using maximum symmetric surround", ICIP 2010). What lies everywhere is taken off
    both.
    """
    columns, rows = (max(1, round(CELLS * side / max(picture.size))) for side in picture.size)
    small = picture.resize((columns * _PIXELS, rows * _PIXELS), Image.Resampling.BOX)
    colours = cielab(np.asarray(small))
    contrast = _pooled(_contrast(colours[..., 0]))
    standing_out = _standing_out(np.stack([_pooled(colours[..., channel]) for channel in range(3)], axis=-1))
    return _above_the_usual(contrast, _NO_CONTRAST) + _above_the_usual(standing_out, _NO_COLOUR)


def _standing_out(colours: NDArray[np.float32]) -> NDArray[np.float32]:
    rows, columns = colours.shape[:2]
    sums = np.zeros((rows + 1, columns + 1, 3))
    sums[1:, 1:] = colours.cumsum(0, dtype=float).cumsum(1)
    row, column = np.ogrid[:rows, :columns]
    down, across = np.minimum(row, rows - 1 - row), np.minimum(column, columns - 1 - column)
    top, bottom, left, right = row - down, row + down + 1, column - across, column + across + 1
    total = sums[bottom, right] - sums[top, right] - sums[bottom, left] + sums[top, left]
    means = total / ((bottom - top) * (right - left))[..., None]
    distance: NDArray[np.float64] = np.linalg.norm(colours - means, axis=-1)
    return distance.astype(np.float32)


def _contrast(lightness: NDArray[np.float32]) -> NDArray[np.float32]:
    down, across = (np.abs(np.diff(lightness, axis=axis, append=lightness.take([-1], axis))) for axis in (0, 1))
    slope = np.hypot(down, across)
    return (slope / (slope + _HALF_CONTRAST)).astype(np.float32)


def _pooled(pixels: NDArray[np.float32]) -> NDArray[np.float32]:
    rows, columns = (side // _PIXELS for side in pixels.shape)
    means: NDArray[np.float32] = pixels.reshape(rows, _PIXELS, columns, _PIXELS).mean((1, 3))
    return means


def _above_the_usual(cells: NDArray[Any], nothing: float) -> NDArray[np.float32]:
    """What exceeds the lower quartile, as shares of all that does; where that is hardly more than `nothing`, less."""
    above = np.maximum(cells - np.quantile(cells, 0.25), 0)
    shares: NDArray[np.float32] = (above / (above.sum() + nothing * cells.size)).astype(np.float32)
    return shares
