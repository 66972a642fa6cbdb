"""Outlines as arrays of points (x, y) in pixels."""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

Points = np.ndarray[Any, np.dtype[Any]]


def points(*pairs: tuple[float, float]) -> Points:
    return np.array(pairs, np.float64)


def box(left: float, top: float, right: float, bottom: float) -> Points:
    return points((left, top), (right, top), (right, bottom), (left, bottom))


def ellipse(x: float, y: float, across: float, down: float, turn: float = 0.0, count: int = 48) -> Points:
    """`across` and `down` are half axes, `turn` in radians."""
    angle = np.linspace(0, 2 * math.pi, count, endpoint=False)
    return turned(np.stack([x + across * np.cos(angle), y + down * np.sin(angle)], 1), turn, (x, y))


def rounded(left: float, top: float, right: float, bottom: float, radius: float) -> Points:
    """A box with round corners."""
    radius = min(radius, (right - left) / 2, (bottom - top) / 2)
    corners = []
    for x, y, start in (
        (right - radius, bottom - radius, 0.0),
        (left + radius, bottom - radius, 0.5),
        (left + radius, top + radius, 1.0),
        (right - radius, top + radius, 1.5),
    ):
        angle = np.linspace(start, start + 0.5, 9) * math.pi
        corners.append(np.stack([x + radius * np.cos(angle), y + radius * np.sin(angle)], 1))
    return np.concatenate(corners)


def smooth(knots: Sequence[tuple[float, float]] | Points, closed: bool = True, count: int = 10) -> Points:
    """A soft curve (Catmull and Rom's spline) through the knots."""
    given = np.asarray(knots, np.float64)
    ends = (given[-1:], given[:2]) if closed else (given[:1], given[-1:])
    ring = np.concatenate([ends[0], given, ends[1]])
    t = np.linspace(0, 1, count, endpoint=False)[:, None]
    parts = []
    for a, b, c, d in zip(ring[:-3], ring[1:-2], ring[2:-1], ring[3:], strict=True):
        parts.append(0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3))
    if not closed:
        parts.append(given[-1:])
    return np.concatenate(parts)


def placed(
    unit: Sequence[tuple[float, float]] | Points, x: float, y: float, size: float, mirror: bool = False
) -> Points:
    """Points drawn in a small frame of their own (y down, 1 = `size` pixels), set down at x, y."""
    shape = np.array(unit, np.float64)
    if mirror:
        shape[:, 0] = -shape[:, 0]
    return moved(shape * size, x, y)


def moved(shape: Points, right: float, down: float) -> Points:
    """The same outline somewhere else."""
    return np.stack([shape[:, 0] + right, shape[:, 1] + down], 1)


def scaled(shape: Points, factor: float | tuple[float, float]) -> Points:
    """Larger or smaller about its middle, by one factor or by two (across, down)."""
    middle = shape.mean(0)
    return np.asarray((shape - middle) * factor + middle)


def turned(shape: Points, angle: float, centre: tuple[float, float]) -> Points:
    """Turned by `angle` radians about `centre`, clockwise on the screen."""
    cos, sin = math.cos(angle), math.sin(angle)
    x, y = shape[:, 0] - centre[0], shape[:, 1] - centre[1]
    return np.stack([centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos], 1)


def ribbon(path: Points, width: float | Sequence[float] | Points) -> Points:
    """The outline of a stroke along a path, its width given once or for every point."""
    step = np.gradient(path, axis=0)
    length = np.maximum(np.hypot(step[:, 0], step[:, 1]), 1e-6)
    side = np.stack([-step[:, 1] / length, step[:, 0] / length], 1)
    half = np.broadcast_to(np.asarray(width, np.float64), (len(path),))[:, None] / 2
    return np.concatenate([path + side * half, (path - side * half)[::-1]])


def ridge(dice: np.random.Generator, left: float, right: float, base: float, height: float, knots: int = 9) -> Points:
    """A hilly skyline from left to right, at most `height` above `base`, smooth."""
    x = np.linspace(left, right, knots)
    y = base - height * dice.random(knots)
    return smooth(np.stack([x, y], 1), closed=False, count=14)


def down_to(line: Points, bottom: float) -> Points:
    """The area between a line that runs from left to right and a level below it."""
    return np.concatenate([line, points((line[-1, 0], bottom), (line[0, 0], bottom))])
