"""The score of a week: its terms from the photos that may be chosen. Pure."""

from collections import Counter
from collections.abc import Hashable, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from queries.shortlist import weights
from queries.shortlist.quality import qualities
from queries.shortlist.resemblance import looks_alike, near_in_time
from queries.shortlist.score import Groups, Score
from queries.shortlist.values import Candidate, Occasion
from queries.shortlist.weights import Weights


def score_of(
    candidates: Sequence[Candidate],
    occasions: Sequence[Occasion],
    by: Weights,
    wanted_portrait_share: float | None = None,
) -> Score:
    """The score by which these are chosen from.

    A photo stands for another the better the more alike they are and the better it is itself. A larger occasion gets
    more, by its size; days get alike. Shapes are worth most when they are in the proportion of all candidates, or with
    the wanted share of portraits: sum of sqrt(share * chosen) is largest where `chosen` is in proportion to `share`.
    """
    if not candidates:
        return Score(np.zeros((0, 0), np.float32), np.zeros(0))
    quality = qualities(candidates, occasions)
    sizes = Counter(occasions)
    largest = max(sizes.values())
    shares = shape_shares([candidate.shape for candidate in candidates], wanted_portrait_share)
    return Score(
        _cover(candidates, occasions, quality) * np.float32(by.cover),
        quality * by.quality,
        (
            _groups([candidate.day for candidate in candidates], {}, by.day_spread, by.day),
            _groups(
                occasions,
                {occasion: (size / largest) ** 0.5 for occasion, size in sizes.items()},
                by.occasion_spread,
                by.occasion,
            ),
            _groups(
                [candidate.shape for candidate in candidates],
                {shape: share**0.5 for shape, share in shares.items()},
                by.shape,
            ),
        ),
    )


def shape_shares(shapes: Sequence[str], wanted_portrait_share: float | None) -> dict[str, float]:
    """The share of each shape to aim at, 0..1; where portraits are wanted otherwise, the others keep their proportion.

    Raises ValueError for a wanted share outside 0..1.
    """
    counts = Counter(shapes)
    if wanted_portrait_share is None:
        return {shape: count / len(shapes) for shape, count in counts.items()}
    if not 0 <= wanted_portrait_share <= 1:
        raise ValueError(f"a share of portraits is from 0 to 1, not {wanted_portrait_share}")
    others = len(shapes) - counts["portrait"]
    shares = {shape: count / others * (1 - wanted_portrait_share) for shape, count in counts.items() if others}
    return {**shares, "portrait": wanted_portrait_share}


def _cover(
    candidates: Sequence[Candidate], occasions: Sequence[Occasion], quality: NDArray[np.float64]
) -> NDArray[np.float32]:
    """How well each candidate stands for each photo seen; what one photo gets is at most 1 / their number."""
    seen = np.unique(np.linspace(0, len(candidates) - 1, weights.SEEN_AT_MOST).round().astype(int))
    alike = looks_alike(candidates, [candidates[place] for place in seen])
    near = near_in_time(occasions, [occasions[place] for place in seen])
    alike[seen, np.arange(len(seen))] = 1  # whatever is not known of it, a photo is like itself
    both = alike * np.float32(weights.LOOK_PART) + near * np.float32(weights.TIME_PART)
    cover: NDArray[np.float32] = both * (quality[:, None] / len(seen)).astype(np.float32)
    return cover


def _groups(labels: Sequence[Hashable], rates: Mapping[Hashable, float], rate: float, first: float = 0.0) -> Groups:
    numbers = {label: number for number, label in enumerate(dict.fromkeys(labels))}
    return Groups(
        tuple(numbers[label] for label in labels), tuple(rate * rates.get(label, 1.0) for label in numbers), first
    )
