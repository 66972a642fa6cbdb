"""Smooth random fields. The same generator gives the same field, whatever the size of the picture around it."""

import math
from typing import Any

import numpy as np
from PIL import Image

Field = np.ndarray[Any, np.dtype[Any]]

_TABLE = 128
#: Pixels of the periodic tile to one grain.
_TILE_STEP = 32


def field(
    dice: np.random.Generator, shape: tuple[int, int], cell: tuple[float, float], octaves: int = 3, gain: float = 0.5
) -> Field:
    """Fractal noise of `shape` (rows, columns) about 0 to 1, its coarsest grain `cell` (rows, columns) pixels large."""
    total = np.zeros(shape, np.float32)
    weight, weights = 1.0, 0.0
    for octave in range(octaves):
        scale = 2.0**octave
        total += weight * _octave(dice, shape, (max(cell[0] / scale, 1.5), max(cell[1] / scale, 1.5)))
        weights += weight
        weight *= gain
    return total / np.float32(weights)


def _octave(dice: np.random.Generator, shape: tuple[int, int], cell: tuple[float, float]) -> Field:
    table = dice.random((_TABLE, _TABLE), np.float32)
    rows, columns = (math.ceil(side / step) + 2 for side, step in zip(shape, cell, strict=True))
    grid = table[np.ix_(np.arange(rows) % _TABLE, np.arange(columns) % _TABLE)]
    box = (0.5, 0.5, 0.5 + shape[1] / cell[1], 0.5 + shape[0] / cell[0])
    return np.asarray(Image.fromarray(grid).resize((shape[1], shape[0]), Image.Resampling.BICUBIC, box=box))


def ground(
    dice: np.random.Generator, shape: tuple[int, int], cell: float, stretch: float = 1.0, drift: float = 0.0
) -> Field:
    """Noise lying on a plane that runs from the bottom of `shape` to the horizon at its top, about -0.5 to 0.5.

    `cell` is the grain in pixels at the bottom edge; `stretch` above 1 makes it long across the view, as waves are;
    `drift` moves it towards the viewer by that many cells. It fades to nothing at the horizon.
    """
    height, width = shape
    tile = _periodic_tile(dice)
    near = (np.arange(height, dtype=np.float32) + 0.5) / height
    depth = 1.0 / near
    rows = ((depth * height / cell * 0.55 + drift) * _TILE_STEP).astype(np.int64)
    offset = (np.arange(width, dtype=np.float32) - width / 2) / (cell * stretch) * _TILE_STEP
    columns = (depth[:, None] * offset[None, :]).astype(np.int64)
    values: Field = tile[rows[:, None] % tile.shape[0], columns % tile.shape[1]] - np.float32(0.5)
    return values * np.clip(near * 6 - 0.1, 0, 1)[:, None]


def _periodic_tile(dice: np.random.Generator, cells: int = 32, size: int = 1024) -> Field:
    coarse = np.pad(dice.random((cells, cells), np.float32), 2, mode="wrap")
    fine = np.pad(dice.random((cells * 2, cells * 2), np.float32), 2, mode="wrap")
    low, high = (
        Image.fromarray(grid).resize((size, size), Image.Resampling.BICUBIC, box=(2, 2, side + 2, side + 2))
        for grid, side in ((coarse, cells), (fine, cells * 2))
    )
    return np.asarray((np.asarray(low) * 2 + np.asarray(high)) / 3)


def ease(values: Field, low: float, high: float) -> Field:
    """0 below `low`, 1 above `high`, an S-shaped way between."""
    t: Field = np.clip((values - low) / (high - low), 0, 1)
    return np.asarray(t * t * (3 - 2 * t))
