"""What speaks for two pictures showing one scene: several weak signals, none of which would do alone.

All work on many pairs at once: arrays hold one row a pair. Pictures come as fingerprints have them, squashed to a
square, so that a shift is a share of the picture's sides and not of its pixels.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from indexer.alike.bits import codes_of

Floats = NDArray[np.float32]

#: The grid on which parts of pictures are laid over each other; `grey` is twice as fine.
GRID = 32
#: How far a part is looked for, in cells of that grid: 5 of 32 are 16 % of a side.
REACH = 5
#: A part is 8 x 8 cells, and begins at every fourth.
_PART, _STEP = 8, 4
_PARTS = (GRID - _PART) // _STEP + 1
#: Grey levels: parts with less texture than this say little, and noise must not correlate.
_NOISE = 3.0
#: Texture beyond this does not count for more.
_MOST_TEXTURE = 20.0


@dataclass(frozen=True, slots=True)
class Pictures:
    """Many pictures, a row each: phash and dhash (n,) uint64, grey (n, 64, 64) uint8, layout (n, 8, 8, 3) CIELAB."""

    phash: NDArray[np.uint64]
    dhash: NDArray[np.uint64]
    grey: NDArray[np.uint8]
    layout: Floats

    def rows(self, places: NDArray[np.int64]) -> "Pictures":
        return Pictures(self.phash[places], self.dhash[places], self.grey[places], self.layout[places])


class Fingerprinted(Protocol):
    """What `Fingerprint` and `Looked` have in common."""

    @property
    def phash(self) -> bytes: ...
    @property
    def dhash(self) -> bytes: ...
    @property
    def grey(self) -> bytes: ...
    @property
    def layout(self) -> bytes: ...


def pictures_of(prints: Sequence[Fingerprinted]) -> Pictures:
    """Fingerprints as the rows of arrays, 5 KB a picture."""
    stored = _stacked([one.layout for one in prints], (8, 8, 3)).astype(np.float32)
    offset, scale = np.array([0, 128, 128], np.float32), np.array([2.55, 1, 1], np.float32)
    layout: Floats = ((stored - offset) / scale).astype(np.float32)
    return Pictures(
        codes_of([one.phash for one in prints]),
        codes_of([one.dhash for one in prints]),
        _stacked([one.grey for one in prints], (2 * GRID, 2 * GRID)),
        layout,
    )


def _stacked(blocks: Sequence[bytes], shape: tuple[int, ...]) -> NDArray[np.uint8]:
    return np.frombuffer(b"".join(blocks), np.uint8).reshape(len(blocks), *shape)


def layout_distance(one: Floats, other: Floats) -> Floats:
    """Mean difference in CIELAB (CIE 1976) of the 64 cells, each with the nearest of the nine around its place, both
    ways round: things may have moved by a cell."""
    mean: Floats = ((_slack(one, other) + _slack(other, one)) / 2).astype(np.float32)
    return mean


def colour_distance(one: Floats, other: Floats) -> Floats:
    """Mean difference of the cells' L*, a* and b*, each sorted: which colours are there, wherever they are."""
    by_size = [np.sort(layout.reshape(len(layout), 64, 3), axis=1) for layout in (one, other)]
    return _mean(np.abs(by_size[0] - by_size[1]))


def correlations(one: NDArray[np.uint8], other: NDArray[np.uint8], reach: int = REACH) -> tuple[Floats, Floats]:
    """(shifted, moved), -1..1: the normalised correlation of the parts when all are shifted alike, the best such shift,
    and when each neighbourhood of parts goes where it fits best.

    Parts count by their texture; those that a shift takes out of the picture do not count.
    """
    volume, texture = correlation_volume(one, other, reach)
    inside = _inside(reach)
    weights = texture[:, None] * inside
    shifted = (volume * weights).sum((2, 3)) / weights.sum((2, 3))
    counted = np.maximum(_neighbourhood(inside[None]), 1)
    around = np.where(inside > 0, _neighbourhood(volume * inside) / counted, np.float32(-1))
    moved = (around.max(1) * texture).sum((1, 2)) / texture.sum((1, 2))
    return shifted.max(1), moved.astype(np.float32)


def correlation_volume(one: NDArray[np.uint8], other: NDArray[np.uint8], reach: int = REACH) -> tuple[Floats, Floats]:
    """((n, shifts, 7, 7), (n, 7, 7)): the normalised correlation of each part of `one` with `other` at every shift of
    -reach..reach cells down and across, and the part's weight by its texture (above 0).

    Inside, the pairs are the last axis: sums over a few cells of one pair would keep numpy busy with itself.
    """
    a, b = _coarse(one), _coarse(other)
    padded = np.pad(b, ((reach, reach), (reach, reach), (0, 0)), mode="edge")
    sums, squares = _box(padded), _box(padded * padded)
    mean = _parts(a)
    spread = np.maximum(_parts(a * a) - mean * mean / _PART**2, 0)
    span = 2 * reach + 1
    volume = np.empty((span * span, _PARTS, _PARTS, len(one)), np.float32)
    floor = np.float32(_NOISE**2 * _PART**2)
    end = _STEP * (_PARTS - 1) + 1
    for shift in range(span * span):
        down, across = divmod(shift, span)
        there = (slice(down, down + end, _STEP), slice(across, across + end, _STEP))
        mean_there = sums[there]
        spread_there = np.maximum(squares[there] - mean_there * mean_there / _PART**2, 0)
        product = _parts(a * padded[down : down + GRID, across : across + GRID]) - mean * mean_there / _PART**2
        volume[shift] = product / (np.sqrt(spread * spread_there) + floor)
    texture = np.minimum(np.sqrt(spread) / _PART, _MOST_TEXTURE) + np.float32(0.5)
    return np.moveaxis(volume, -1, 0), np.moveaxis(texture, -1, 0)


def _coarse(grey: NDArray[np.uint8]) -> Floats:
    """(32, 32, n): the means over the cells of the grid."""
    last = np.ascontiguousarray(np.moveaxis(grey, 0, -1))
    pairs = last.reshape(GRID, grey.shape[1] // GRID, GRID, grey.shape[2] // GRID, len(grey))
    means: Floats = pairs.mean((1, 3), dtype=np.float32)
    return means


def _parts(cells: Floats) -> Floats:
    """(7, 7, n): the sums over the parts of (32, 32, n)."""
    rows = cells.reshape(GRID // _STEP, _STEP, GRID, -1).sum(1)
    quarters = rows.reshape(GRID // _STEP, GRID // _STEP, _STEP, -1).sum(2)
    halves = quarters[:-1] + quarters[1:]
    summed: Floats = halves[:, :-1] + halves[:, 1:]
    return summed


def _box(cells: Floats) -> Floats:
    """The sums over every 8 x 8 cells, at every place."""
    table = np.pad(cells, ((1, 0), (1, 0), (0, 0))).astype(np.float64).cumsum(0).cumsum(1)
    p = _PART
    sums: Floats = (table[p:, p:] - table[:-p, p:] - table[p:, :-p] + table[:-p, :-p]).astype(np.float32)
    return sums


def _inside(reach: int) -> NDArray[Any]:
    """(shifts, 7, 7): 1 where the part lies within the other picture at that shift."""
    starts = np.arange(_PARTS) * _STEP
    moves = np.arange(-reach, reach + 1)
    fits = ((starts + moves[:, None] >= 0) & (starts + moves[:, None] + _PART <= GRID)).astype(np.float32)
    inside: NDArray[Any] = fits[:, None, :, None] * fits[None, :, None, :]
    return inside.reshape(-1, _PARTS, _PARTS)


def _neighbourhood(volume: NDArray[Any]) -> NDArray[Any]:
    """The sums over each part and the eight around it."""
    padded = np.pad(volume, ((0, 0), (0, 0), (1, 1), (1, 1)))
    rows = padded[:, :, :-2] + padded[:, :, 1:-1] + padded[:, :, 2:]
    summed: NDArray[Any] = rows[:, :, :, :-2] + rows[:, :, :, 1:-1] + rows[:, :, :, 2:]
    return summed


def _slack(one: Floats, other: Floats) -> Floats:
    padded = np.pad(other, ((0, 0), (1, 1), (1, 1), (0, 0)), mode="edge")
    nearest = np.full(one.shape[:3], np.inf, np.float32)
    for down in range(3):
        for across in range(3):
            difference = one - padded[:, down : down + 8, across : across + 8]
            nearest = np.minimum(nearest, np.sqrt((difference * difference).sum(-1)))
    return _mean(nearest)


def _mean(values: Floats) -> Floats:
    means: Floats = values.mean(tuple(range(1, values.ndim)), dtype=np.float32)
    return means
