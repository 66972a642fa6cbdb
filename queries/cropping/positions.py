"""Where along one axis a window is laid: at what there is to see, drawn to a place of its own. Pure.

Every place of the window is worth the share of the detail that it shows, the more the nearer to the window's middle,
less a penalty that grows with the square of the distance from where it is drawn to. The offset is the mean of all
places weighted by exp(worth / sharpness): a soft maximum, which a little noise moves but little.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

_PLACES = 201
_SAMPLES = 512
#: Of all that is to be seen, so much counts at a window's edge, where 1 counts in its middle.
_AT_THE_EDGE = 0.4
#: The less room there is to move, the less a difference has to be to count.
_SHARPNESS = 0.04


@dataclass(frozen=True, slots=True)
class Prior:
    """Where a window's middle is drawn to, a share of the picture's side, and what a distance of a whole window from
    there costs, where all the detail there is is worth 1."""

    place: float
    pull: float


def best_offset(length: float, profile: NDArray[Any] | None, prior: Prior) -> float:
    """Where a window of this length begins. `profile` is the detail along the axis, from its begin to its end.

    Lengths and offsets are shares of the picture's side.
    """
    offsets = np.linspace(0.0, 1 - length, _PLACES)
    middles = offsets + length / 2
    worth = -prior.pull * ((middles - prior.place) / max(length, 0.2)) ** 2
    if profile is not None and profile.sum() > 0:
        worth = worth + _shown(profile, middles, length)
    weights = np.exp((worth - worth.max()) / (_SHARPNESS * (1 - length)))
    return float((weights * offsets).sum() / weights.sum())


def _shown(profile: NDArray[Any], middles: NDArray[np.float64], length: float) -> NDArray[np.float64]:
    """The share of all detail in a window about each of the middles, what lies at the window's edges counting less."""
    cells = (np.arange(len(profile)) + 0.5) / len(profile)
    samples = (np.arange(_SAMPLES) + 0.5) / _SAMPLES
    detail = np.interp(samples, cells, profile)
    seen_length = max(length, 4 / _SAMPLES)  # a sliver of a panorama still meets some samples
    from_middle = (samples[None, :] - middles[:, None]) / (seen_length / 2)
    kernel = np.where(np.abs(from_middle) <= 1, 1 - (1 - _AT_THE_EDGE) * from_middle**2, 0.0)
    shown: NDArray[np.float64] = kernel @ (detail / detail.sum())
    return shown
