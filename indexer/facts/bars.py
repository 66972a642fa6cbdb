"""Bars and frames of one colour around a picture: a square canvas, a letterbox, a border. Pure.

What is cut must end at a line along the picture's whole edge. So nothing is cut off a night sky, a white wall, a
studio's background or a page: there the colour ends where the things in the picture begin, here and there.
"""

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Grid = NDArray[np.bool_]

#: A pixel is of the bar's colour when no channel is further off, 0..255: saving as JPEG changes colours by less.
_NEAR = 24
#: Of a bar's row so small a share may be of another colour, and of the picture's first row so large a one must be.
_SPECKS, _EDGE = 0.02, 0.5
#: Rows between: mixed of both by scaling, or where JPEG rings along the edge.
_MIXED = 3
#: Rows; thinner bars are no bars. And of a side so much must be left.
_THINNEST, _LEAST_LEFT = 2, 0.3


def without_bars(image: Image.Image) -> Image.Image:
    """The part of an RGB picture, a few hundred pixels a side, within its bars: above and below, left and right, or
    all round; the same picture where there are none."""
    for _ in range(2):
        pixels = np.asarray(image).astype(np.int16)
        top, bottom = _bars(pixels)
        left, right = _bars(pixels[top : len(pixels) - bottom].swapaxes(0, 1))
        if not top + left:
            break
        image = image.crop((left, top, image.width - right, image.height - bottom))
    return image


def _bars(pixels: NDArray[np.int16]) -> tuple[int, int]:
    """How many rows at either end are bars; none where only one end has such, or the two differ in colour."""
    colour = np.median(pixels[0], axis=0)
    # Cheap before dear: hardly any picture begins and ends with rows of one colour.
    if max(_strange(pixels[:1], colour)[0], _strange(pixels[-1:], colour)[0]) > _SPECKS:
        return 0, 0
    strange = _strange(pixels, colour)
    before, after = _bar(strange), _bar(strange[::-1])
    left = len(pixels) - before - after
    return (before, after) if before and after and left >= _LEAST_LEFT * len(pixels) else (0, 0)


def _bar(strange: NDArray[np.float64]) -> int:
    """The rows of the bar with which a picture begins, given each row's share of other colours; 0 for none."""
    rows = int(np.argmax(strange > _SPECKS))
    edge = np.flatnonzero(strange[rows : rows + _MIXED + 1] >= _EDGE)
    return rows + int(edge[0]) if rows >= _THINNEST and len(edge) else 0


def _strange(pixels: NDArray[np.int16], colour: NDArray[np.float64]) -> NDArray[np.float64]:
    shares: NDArray[np.float64] = (np.abs(pixels - colour).max(2) > _NEAR).mean(1)
    return shares
