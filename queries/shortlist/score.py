"""What a choice of photos is worth. Pure.

A sum of terms that never falls when a photo is added (monotone), and in which each photo adds the less the more are
chosen already (submodular): how well the chosen stand for all (facility location), their quality (modular), and for
each day, occasion and shape a concave function of how many are chosen. Such a score allows greedy choice: it reaches at
least 1 - 1/e = 0.632 of the best (Nemhauser, Wolsey, Fisher 1978: from memory).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Groups:
    """One way to sort the candidates: a group with k chosen of it is worth `first` (where k > 0) + `rate` * sqrt(k).

    `of` has the number of the group of each candidate, `rates` a rate for each group.
    """

    of: tuple[int, ...]
    rates: tuple[float, ...]
    first: float = 0.0

    def worth(self, group: int, count: int) -> float:
        return (self.first if count else 0.0) + self.rates[group] * sqrt(count)


@dataclass(frozen=True, slots=True)
class Score:
    """The terms of one week. `cover`: a row for each candidate that says how well it stands for each photo seen, 0 and
    more; its sum over the photos counts. `own`: what each candidate adds whatever else is chosen, 0 and more."""

    cover: NDArray[np.float32]
    own: NDArray[np.float64]
    groups: tuple[Groups, ...] = ()

    def value(self, chosen: Iterable[int]) -> float:
        """What a choice is worth, by the definition; the order does not matter."""
        places = sorted(set(chosen))
        if not places:
            return 0.0
        covered = self.cover[places].max(0).sum(dtype=np.float64)
        return float(covered + self.own[places].sum()) + sum(_worth(groups, places) for groups in self.groups)


def _worth(groups: Groups, places: Sequence[int]) -> float:
    counts = np.bincount([groups.of[place] for place in places], minlength=len(groups.rates))
    return sum(groups.worth(group, int(count)) for group, count in enumerate(counts))


class Growing:
    """A choice that grows photo by photo, with what each other one would add; the same as differences of `value`."""

    def __init__(self, score: Score) -> None:
        self._score = score
        self._covered = np.zeros(score.cover.shape[1], np.float32)
        self._counts = [[0] * len(groups.rates) for groups in score.groups]

    def gain(self, place: int) -> float:
        """What one more photo would add, rounded so that equal ones are equal."""
        score = self._score
        more = np.maximum(score.cover[place] - self._covered, 0).sum(dtype=np.float64) + score.own[place]
        for groups, counts in zip(score.groups, self._counts, strict=True):
            group = groups.of[place]
            more += groups.worth(group, counts[group] + 1) - groups.worth(group, counts[group])
        return round(float(more), 9)

    def take(self, place: int) -> None:
        """Add a photo."""
        np.maximum(self._covered, self._score.cover[place], out=self._covered)
        for groups, counts in zip(self._score.groups, self._counts, strict=True):
            counts[groups.of[place]] += 1
