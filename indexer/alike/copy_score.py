"""Whether two pictures are one shot: re-saved, resized, lightly edited, framed, or cut by a little at the edges. Pure.

One picture is laid over a window of the other that leaves out up to 4.5 % at each side, and the fine structure of the
two is correlated: coarse light and dark, which strangers may share, is taken away first.
"""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from indexer.alike.bits import Codes
from indexer.alike.coefficients import COPY_BORDER, MARKED_PARTS, MARKED_SCORE, MARKED_WHOLE
from indexer.alike.mark_score import mark_scores
from indexer.alike.signals import Floats

#: Shares of a side that a window leaves out at either end: a crop of 2.5 or 5 %, a border of 2 %.
_CUTS = (0.0, 0.0225, 0.045)
#: Cells of the grid that windows are brought to, and of the neighbourhood whose mean is taken away.
_SIDE, _AROUND = 32, 9
#: Grey levels squared: fine structure weaker than this is noise and must not correlate.
_NOISE = 1.0
#: Pairs at a time.
_BLOCK = 16

#: Windows whose hashes are looked for among the whole pictures: (left, right, top, bottom) of the cuts above.
_HASHED_WINDOWS = ((1, 1, 1, 1), (2, 2, 2, 2), (2, 0, 0, 0), (0, 2, 0, 0), (0, 0, 2, 0), (0, 0, 0, 2))


def copy_scores(one: NDArray[np.uint8], other: NDArray[np.uint8]) -> Floats:
    """(n,) correlation, -1..1, of the fine structure of each pair of (n, 64, 64), in the windows that fit best;
    `MARKED_SCORE` where all but a part of it does."""
    scores = np.empty(len(one), np.float32)
    for start in range(0, len(one), _BLOCK):
        a, b = (block[start : start + _BLOCK].astype(np.float32) for block in (one, other))
        scores[start : start + _BLOCK] = np.maximum(_best_window(a, b), _best_window(b, a))
    unsure = np.flatnonzero((scores >= MARKED_WHOLE) & (scores < COPY_BORDER))
    scores[unsure[mark_scores(one[unsure], other[unsure]) >= MARKED_PARTS]] = MARKED_SCORE
    return scores


def plain_scores(one: NDArray[np.uint8], other: NDArray[np.uint8]) -> Floats:
    """(n,): the same with both pictures whole, which costs a fraction: enough for all that was not cut or framed."""
    plain = _window(0, 0)
    a, b = (_fine(plain @ block.astype(np.float32) @ plain.T) for block in (one, other))
    spread = np.sqrt((a * a).mean((1, 2)) * (b * b).mean((1, 2)))
    scores: Floats = ((a * b).mean((1, 2)) / (spread + _NOISE)).astype(np.float32)
    return scores


def window_codes(grey: NDArray[np.uint8]) -> Codes:
    """(n, 6): the hashes that pictures (n, 64, 64) would have if they were cut at all sides or at one."""
    cells = grey.astype(np.float32)
    columns = []
    for left, right, top, bottom in _HASHED_WINDOWS:
        down, across = _window(_CUTS[top], _CUTS[bottom]), _window(_CUTS[left], _CUTS[right])
        columns.append(_hashed(down @ cells @ across.T))
    return np.stack(columns, axis=1)


def turned_codes(grey: NDArray[np.uint8]) -> Codes:
    """(n, 3): the hashes that pictures (n, 64, 64) would have if they were turned by 90, 180 and 270 degrees."""
    whole = _window(0, 0)
    cells = whole @ grey.astype(np.float32) @ whole.T
    return np.stack([_hashed(np.rot90(cells, quarter, (1, 2))) for quarter in (1, 2, 3)], axis=1)


def _best_window(windowed: Floats, whole: Floats) -> Floats:
    ways = np.stack([_window(before, after) for before in _CUTS for after in _CUTS])
    rows = np.einsum("krh,nhw->nkrw", ways, windowed, optimize=True)
    windows = _fine(np.einsum("nkrw,mcw->nkmrc", rows, ways, optimize=True))
    plain = _window(0, 0)
    target = _fine(plain @ whole @ plain.T)[:, None, None]
    product = (windows * target).mean((3, 4))
    spread = np.sqrt((windows * windows).mean((3, 4)) * (target * target).mean((3, 4)))
    best: Floats = (product / (spread + _NOISE)).max((1, 2)).astype(np.float32)
    return best


def _fine(cells: NDArray[Any]) -> Floats:
    """What is left of (..., 32, 32) when the mean of each cell's neighbourhood is taken away."""
    smooth = _smoothing()
    fine: Floats = (cells - smooth @ cells @ smooth.T).astype(np.float32)
    return fine


def _smoothing() -> Floats:
    """(32, 32): the mean over the cells around, as far as they are in the picture."""
    apart = np.abs(np.arange(_SIDE)[:, None] - np.arange(_SIDE))
    near = (apart <= _AROUND // 2).astype(np.float32)
    mean: Floats = near / near.sum(1, keepdims=True)
    return mean


def _window(before: float, after: float) -> Floats:
    """(32, 64): brings 64 cells, but for the shares cut off at both ends, to 32 by their mean."""
    edges = np.linspace(64 * before, 64 * (1 - after), _SIDE + 1)
    overlap = np.minimum(edges[1:, None], np.arange(1, 65)) - np.maximum(edges[:-1, None], np.arange(64))
    shares = np.maximum(overlap, 0)
    means: Floats = (shares / shares.sum(1, keepdims=True)).astype(np.float32)
    return means


def _hashed(cells: NDArray[Any]) -> Codes:
    """(n,): the perceptual hash of (n, 32, 32), as imagehash takes it of the same cells: the 8 x 8 lowest frequencies
    of the discrete cosine transform (type 2), each above or below their median."""
    wave = np.cos(np.pi / _SIDE * np.outer(np.arange(8), np.arange(_SIDE) + 0.5)).astype(np.float32)
    low = (wave @ cells @ wave.T).reshape(len(cells), 64)
    bits = low > np.median(low, axis=1, keepdims=True)
    codes: Codes = np.packbits(bits, axis=1).view(">u8")[:, 0].astype(np.uint64)
    return codes
