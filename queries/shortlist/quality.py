"""How good a photo is to look at, from 0 to 1, as far as numbers tell. Pure.

Sharpness has no scale of its own (a harbour in fog has less than gravel), so that it is held against what the same
occasion shows: the one photo of a quiet day is as sharp as its day, a blurred one among better ones is not.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from queries.shortlist import weights
from queries.shortlist.values import Candidate, Occasion


def qualities(candidates: Sequence[Candidate], occasions: Sequence[Occasion]) -> NDArray[np.float64]:
    """The quality of each candidate; never 0, as a photo of a week is worth more than none."""
    usual = _usual_sharpness(candidates, occasions)
    found = [
        _sharp(candidate.sharpness, usual.get(occasion)) * _exposed(candidate) * _rich(candidate) * _large(candidate)
        for candidate, occasion in zip(candidates, occasions, strict=True)
    ]
    return np.array(found, np.float64)


def _usual_sharpness(candidates: Sequence[Candidate], occasions: Sequence[Occasion]) -> dict[Occasion, float]:
    """The upper quartile of each occasion: of two photos the sharper one, of many not the one of gravel."""
    measured: dict[Occasion, list[float]] = {}
    for candidate, occasion in zip(candidates, occasions, strict=True):
        if candidate.sharpness is not None:
            measured.setdefault(occasion, []).append(candidate.sharpness)
    return {occasion: float(np.quantile(values, 0.75, method="higher")) for occasion, values in measured.items()}


def _sharp(sharpness: float | None, usual: float | None) -> float:
    """By the logarithm of the share: half as sharp is one step, whatever the scene."""
    if sharpness is None:
        return weights.UNKNOWN_LEAVES
    if not usual:
        return 1.0
    share = max(sharpness / usual, weights.WHOLLY_BLURRED)
    return _between(1 - np.log(share) / np.log(weights.WHOLLY_BLURRED), weights.BLURRED_LEAVES)


def _exposed(candidate: Candidate) -> float:
    if candidate.dark is None or candidate.bright is None:
        return weights.UNKNOWN_LEAVES
    none_lost, all_lost = weights.CLIPPED
    return _between((all_lost - candidate.dark - candidate.bright) / (all_lost - none_lost), weights.CLIPPED_LEAVES)


def _rich(candidate: Candidate) -> float:
    if candidate.contrast is None:
        return weights.UNKNOWN_LEAVES
    return _between(candidate.contrast / weights.FULL_CONTRAST, weights.FLAT_LEAVES)


def _large(candidate: Candidate) -> float:
    """By the length of the sides: what counts is dots per inch."""
    share = (candidate.width * candidate.height / weights.PRINT_PIXELS) ** 0.5
    return _between(share, weights.SMALL_LEAVES)


def _between(share: float, least: float) -> float:
    """From `least` at 0 to 1 at 1."""
    return float(least + (1 - least) * min(max(share, 0.0), 1.0))
