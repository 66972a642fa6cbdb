"""Whether two pictures are one shot on which something was laid: a mark, letters, a sticker. Pure.

Such a thing changes a part of the picture, and much; two shots of one scene differ a little everywhere. So the finest
structure is correlated part by part, and the best parts count. Both pictures are whole.
"""

import numpy as np
from numpy.typing import NDArray

from indexer.alike.signals import Floats

#: Cells of a picture's side, of a part's, and from one part's beginning to the next.
_SIDE, _PART, _STEP = 64, 8, 4
#: The share of all texture that the best parts hold.
_BEST = 0.3
#: Grey levels squared: weaker structure is noise and must not correlate. And stronger does not count for more.
_NOISE, _MOST_TEXTURE = 1.0, 10.0


def mark_scores(one: NDArray[np.uint8], other: NDArray[np.uint8]) -> Floats:
    """(n,) -1..1: the correlation that the best parts of each pair of (n, 64, 64), `_BEST` of its texture, reach."""
    a, b = _finest(one), _finest(other)
    squares = _parts(a * a), _parts(b * b)
    found = _parts(a * b) / (np.sqrt(squares[0] * squares[1]) + _NOISE)
    texture = np.minimum(np.sqrt(np.minimum(*squares)), _MOST_TEXTURE)
    order = np.argsort(-found, axis=1)
    held = np.take_along_axis(texture, order, 1).cumsum(1)
    last = (held >= _BEST * held[:, -1:]).argmax(1)
    scores: Floats = found[np.arange(len(found)), order[np.arange(len(found)), last]].astype(np.float32)
    return scores


def _finest(grey: NDArray[np.uint8]) -> Floats:
    """What is left when the mean of each cell and the eight around it is taken away."""
    cells = grey.astype(np.float32)
    wide = np.pad(cells, ((0, 0), (1, 1), (1, 1)), mode="edge")
    rows = wide[:, :-2] + wide[:, 1:-1] + wide[:, 2:]
    fine: Floats = cells - (rows[:, :, :-2] + rows[:, :, 1:-1] + rows[:, :, 2:]) / np.float32(9)
    return fine


def _parts(cells: Floats) -> Floats:
    """(n, 225): the means over the parts, each half over the next, of (n, 64, 64)."""
    count = _SIDE // _STEP
    quarters = cells.reshape(len(cells), count, _STEP, count, _STEP).mean((2, 4))
    rows = quarters[:, :-1] + quarters[:, 1:]
    means: Floats = ((rows[:, :, :-1] + rows[:, :, 1:]) / np.float32(4)).reshape(len(cells), (count - 1) ** 2)
    return means
