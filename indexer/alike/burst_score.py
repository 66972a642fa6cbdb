"""Whether two photos near in time show one scene: several signals in one score, in log odds. Pure."""

import numpy as np
from numpy.typing import NDArray

from indexer.alike.bits import distances
from indexer.alike.coefficients import BURST, LEAST_GAP, LOG_ODDS_PER_DOUBLING, NEUTRAL_GAP, BurstCoefficients
from indexer.alike.signals import REACH, Floats, Pictures, colour_distance, correlations, layout_distance

#: Pairs at a time: so many volumes of correlations stay in the processor's cache, and the memory stays small.
_BLOCK = 64
#: Log odds: what trying all shifts may still add to a pair that is above the border without, and is not worth trying.
SLACK = 2.0


def burst_scores(one: Pictures, other: Pictures, gaps: Floats, coefficients: BurstCoefficients = BURST) -> Floats:
    """(n,) log odds that the pictures of each row show one scene; 0 is the border. `gaps` are seconds between them.

    Where not even full correlation could bring a pair over the border, the dear signals are not computed, and the score
    is the most it could be, below 0. Pictures that lie over each other so well as they are that shifting one could add
    no more than `SLACK`, as in a time-lapse, are not shifted: the score is then the least it could be, above 0.
    """
    scores = cheap_score(one, other, coefficients) + gap_score(gaps) + coefficients.shifted + coefficients.moved
    hopeful = np.flatnonzero(scores > 0)
    for start in range(0, len(hopeful), _BLOCK):
        rows = hopeful[start : start + _BLOCK]
        lost = _lost(one.grey[rows], other.grey[rows], 0, coefficients)
        tried = np.flatnonzero((lost > SLACK) | (lost >= scores[rows]))
        if len(tried):
            lost[tried] = _lost(one.grey[rows[tried]], other.grey[rows[tried]], REACH, coefficients)
        scores[rows] -= lost
    return scores


def _lost(one: NDArray[np.uint8], other: NDArray[np.uint8], reach: int, coefficients: BurstCoefficients) -> Floats:
    """(n,) log odds by which correlations fall short of full ones; the less, the further parts are looked for."""
    shifted, moved = both_ways(one, other, reach)
    lost: Floats = (coefficients.shifted * (1 - shifted) + coefficients.moved * (1 - moved)).astype(np.float32)
    return lost


def both_ways(one: NDArray[np.uint8], other: NDArray[np.uint8], reach: int = REACH) -> tuple[Floats, Floats]:
    """`correlations` in which neither picture is the first: the better shift, and the mean of the two searches."""
    there, back = correlations(one, other, reach), correlations(other, one, reach)
    return np.maximum(there[0], back[0]), ((there[1] + back[1]) / 2).astype(np.float32)


def cheap_score(one: Pictures, other: Pictures, coefficients: BurstCoefficients = BURST) -> Floats:
    """What hashes, layout and colours say, with the intercept."""
    score: Floats = (
        coefficients.intercept
        + coefficients.phash * distances(one.phash, other.phash)
        + coefficients.dhash * distances(one.dhash, other.dhash)
        + coefficients.layout * layout_distance(one.layout, other.layout)
        + coefficients.colour * colour_distance(one.layout, other.layout)
    ).astype(np.float32)
    return score


def gap_score(gaps: Floats) -> Floats:
    """What the gap in time says."""
    doublings = np.log2(np.maximum(gaps, LEAST_GAP) / NEUTRAL_GAP)
    return (-LOG_ODDS_PER_DOUBLING * doublings).astype(np.float32)
