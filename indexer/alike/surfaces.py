"""Whether two pictures that look alike show the same surfaces: where structure matches, colours must too. Pure.

Look-alikes (two pieces made as a pair, one place in two seasons) match in structure, and so do the frames of a burst.
But in a burst what matches is the same surface in the same light, and once the camera's own adjustment (brightness and
tint, one line a channel) is taken away, its colours are the same part by part. In look-alikes they are not. Parts that
are clipped say nothing, for there no line leads from one exposure to another.
"""

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from indexer.alike.coefficients import FEWEST_PARTS, MOST_CLIPPED, SAME_PART
from indexer.alike.found_again import PART, Floats, Places, found_again, structure_of

#: Colours are kept at half the size of the structure.
_SIDE = PART // 2
#: Which part of the differences speaks: what moved between the frames must not.
_QUARTILE = 0.25
#: The line is fitted by least absolute deviation, in so many rounds of weights; differences below count as one another.
_ROUNDS, _LEAST = 6, 0.5
#: Pull of the line towards none at all: of its slope and of its offset.
_PULL = np.diag([4.0, 0.01])


class Close(Protocol):
    """An upright picture without bars: `luma` (h, w), its longer side 192 pixels, both even and 48 at the least;
    `lab` (h / 2, w / 2, 3) CIELAB; `clipped` (h / 2, w / 2) the share of pixels that are clipped, 0..255."""

    @property
    def luma(self) -> NDArray[np.uint8]: ...
    @property
    def lab(self) -> NDArray[np.float16]: ...
    @property
    def clipped(self) -> NDArray[np.uint8]: ...


@dataclass(frozen=True, slots=True)
class Surfaces:
    """A picture ready to be laid beside others: its structure, and the sums above and left of places of its
    colours and of what is clipped."""

    structure: Floats
    colours: NDArray[np.float64]


def surfaces_of(picture: Close) -> Surfaces:
    """At most 0.5 MB."""
    layers = np.dstack([picture.lab.astype(np.float64), picture.clipped / 255])
    table = np.pad(layers, ((1, 0), (1, 0), (0, 0))).cumsum(0).cumsum(1)
    return Surfaces(structure_of(picture.luma), table)


def surface_difference(one: Surfaces, other: Surfaces) -> float | None:
    """CIELAB units (CIE 1976) by which the surfaces that are in both differ in colour: the lower quartile of the parts,
    the mean of both directions. None where too few parts are found again to say anything."""
    both = [value for value in (_difference(one, other), _difference(other, one)) if value is not None]
    return sum(both) / len(both) if both else None


def _difference(one: Surfaces, other: Surfaces) -> float | None:
    found = found_again(one.structure, other.structure)
    ours, theirs = _means(one.colours, found.places), _means(other.colours, found.there)
    told = (found.scores > SAME_PART) & (ours[:, 3] <= MOST_CLIPPED) & (theirs[:, 3] <= MOST_CLIPPED)
    if told.sum() < FEWEST_PARTS:
        return None
    left = _left_over(ours[told, :3], theirs[told, :3])
    return float(np.quantile(np.linalg.norm(left, axis=1), _QUARTILE))


def _means(colours: NDArray[np.float64], places: Places) -> NDArray[np.float64]:
    """(n, 4): the mean colours of the parts and how much is clipped; NaN for a part that leaves the picture."""
    corner = np.rint(places / 2).astype(np.int64)
    most = np.array(colours.shape[:2]) - 1 - _SIDE
    outside = ((corner < 0) | (corner > most)).any(1)
    y, x = corner.clip(0, most).T
    below, right = y + _SIDE, x + _SIDE
    sums = colours[below, right] - colours[y, right] - colours[below, x] + colours[y, x]
    means: NDArray[np.float64] = sums / _SIDE**2
    means[outside] = np.nan
    return means


def _left_over(ours: NDArray[np.float64], theirs: NDArray[np.float64]) -> NDArray[np.float64]:
    """(n, 3): what a line a channel leaves of the differences."""
    differences = theirs - ours
    left, weights = differences, np.ones(len(ours), np.float64)
    for _ in range(_ROUNDS):
        left = np.stack([_off_line(ours[:, c], differences[:, c], weights) for c in range(3)], axis=1)
        weights = 1 / np.maximum(np.sqrt((left**2).sum(1)), _LEAST)
    return left


def _off_line(x: NDArray[np.float64], y: NDArray[np.float64], weights: NDArray[np.float64]) -> NDArray[np.float64]:
    """(n,): what the weighed line through (x, y) leaves of y."""
    terms = np.stack([x, np.ones(len(x))], axis=1)
    weighed = terms.T * weights
    line = np.linalg.solve(weighed @ terms + _PULL, weighed @ y)
    off: NDArray[np.float64] = y - terms @ line
    return off
