"""How sharp a picture is: the variance of its Laplacian, at three sizes, so that pictures are compared at one. Pure."""

import numpy as np
from numpy.typing import NDArray
from PIL import Image

#: Longer sides in pixels, each half of the one before.
SIDES = (960, 480, 240)

Sharpness = tuple[float | None, float | None, float | None]

#: There is no threshold that holds for all pictures; only those of one scene are compared.
UNKNOWN: Sharpness = (None, None, None)


#: Rows that are worked on at a time: what is larger than a processor's cache costs twice the time.
_ROWS = 48


def sharpness_of(luma: Image.Image) -> Sharpness:
    """Of a grey picture (mode L) at each of SIDES, in squared grey values; None where it is smaller than that."""
    found: list[float | None] = []
    for side in SIDES:
        if max(luma.size) < side:
            found.append(None)
            continue
        luma = _scaled(luma, side)
        found.append(laplacian_variance(luma))
    return found[0], found[1], found[2]


def laplacian_variance(luma: Image.Image) -> float:
    """Variance of the Laplacian [0 1 0; 1 -4 1; 0 1 0] over the interior; 0 where there is none."""
    count, total, squares = 0, 0.0, 0.0
    for top in range(0, luma.height - 2, _ROWS):
        rows = luma.crop((0, top, luma.width, min(top + _ROWS + 2, luma.height)))
        laplacian = _laplacian(np.asarray(rows).astype(np.int16)).astype(np.float32)
        count += laplacian.size
        total += float(laplacian.sum())
        squares += float(np.square(laplacian, out=laplacian).sum())
    return max(squares / count - (total / count) ** 2, 0.0) if count else 0.0


def _laplacian(values: NDArray[np.int16]) -> NDArray[np.int16]:
    """Of the interior of values up to 255."""
    found = values[:-2, 1:-1] + values[2:, 1:-1]
    found += values[1:-1, :-2]
    found += values[1:-1, 2:]
    found -= values[1:-1, 1:-1] << 2
    return found


def _scaled(luma: Image.Image, side: int) -> Image.Image:
    """The picture with a longer side of that many pixels, by averaging."""
    longest = max(luma.size)
    if longest % side == 0:
        return luma.reduce(longest // side)  # the same, several times as fast
    width, height = (max(round(length * side / longest), 1) for length in luma.size)
    return luma.resize((width, height), Image.Resampling.BOX)
