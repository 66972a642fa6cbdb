"""Paints that change from place to place."""

from collections.abc import Callable, Sequence

import numpy as np

from .canvas import Paint, Shading
from .colour import Colour
from .noise import Field

#: A scale of colours is looked up at this many places, finer than 8 bits can show.
_STEPS = 1024
_PLACES = np.linspace(0, 1, _STEPS + 1)


def upright(top: float, bottom: float, stops: Sequence[Colour]) -> Shading:
    """Colours spread evenly from one level to another, constant beyond."""

    def paint(rows: Field, _: Field) -> Field:
        return _scale(stops, (rows - top) / (bottom - top))

    return paint


def sideways(left: float, right: float, stops: Sequence[Colour]) -> Shading:
    """Colours spread evenly from one column to another."""

    def paint(_: Field, columns: Field) -> Field:
        return _scale(stops, (columns - left) / (right - left))

    return paint


def slanted(start: tuple[float, float], end: tuple[float, float], stops: Sequence[Colour]) -> Shading:
    """Colours spread along the way from one point to another."""
    across, down = end[0] - start[0], end[1] - start[1]
    length = across * across + down * down

    def paint(rows: Field, columns: Field) -> Field:
        return _scale(stops, ((columns - start[0]) * across + (rows - start[1]) * down) / length)

    return paint


def round_about(x: float, y: float, radius: float, stops: Sequence[Colour]) -> Shading:
    """Colours from a centre outwards."""

    def paint(rows: Field, columns: Field) -> Field:
        return _scale(stops, np.hypot(rows - y, columns - x) / np.float32(radius))

    return paint


def grained(paint: Paint, texture: Field, amount: float) -> Paint:
    """A paint made lighter and darker by a field as large as the picture, whose middle is 0.5."""

    def lay(rows: Field, columns: Field) -> Field:
        colours = paint(rows, columns) if callable(paint) else np.array(paint, np.float32)
        top, left = int(rows[0, 0]), int(columns[0, 0])
        part = texture[top : top + rows.shape[0], left : left + columns.shape[1]]
        return colours * (1 + np.float32(amount) * (part - np.float32(0.5)))[..., None]

    return lay


def picture(values: Field) -> Paint:
    """Another picture of the same size, seen through the mask."""

    def paint(rows: Field, columns: Field) -> Field:
        top, left = int(rows[0, 0]), int(columns[0, 0])
        return values[top : top + rows.shape[0], left : left + columns.shape[1]]

    return paint


def stripes(period: float, first: Paint, second: Colour, across: Callable[[Field, Field], Field]) -> Paint:
    """Two paints in turn; `across` says how far along the stripes each place lies, in pixels."""

    def paint(rows: Field, columns: Field) -> Field:
        ground = first(rows, columns) if callable(first) else np.array(first, np.float32)
        phase = np.mod(across(rows, columns), period) / period
        edge = np.clip((0.25 - np.abs(phase - 0.5)) * period, -0.5, 0.5) + 0.5
        return ground + (np.array(second, np.float32) - ground) * edge[..., None]

    return paint


def _scale(stops: Sequence[Colour], place: Field) -> Field:
    where = np.linspace(0, 1, len(stops))
    table = np.stack([np.interp(_PLACES, where, part) for part in zip(*stops, strict=True)], 1).astype(np.float32)
    scaled = np.clip(place, 0, 1) * np.float32(_STEPS)
    return table[(scaled + np.float32(0.5)).astype(np.int32)]
