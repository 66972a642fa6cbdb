"""Fit the burst coefficients anew and print them, as they stand in `indexer/alike/coefficients.py`.

    python -m tests.benchmarks.alike.fit_bursts

Needs the real photos (`tests/real_photos/fetch.py --only all`). A logistic regression: every kind of pair (a clip at
one distance, the second tries, the strangers) weighs alike, however many pairs it has. The intercept is then set so
that of the strangers for fitting, dealt times in the same ten minutes, no more than one in `STRANGERS_PER_FALSE` pairs
counts as alike.
"""

from dataclasses import astuple, fields

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize

from indexer.alike.bits import distances
from indexer.alike.burst_score import both_ways, gap_score
from indexer.alike.coefficients import BURST, LONGEST_GAP, BurstCoefficients
from indexer.alike.signals import Floats, Pictures, colour_distance, layout_distance
from tests.benchmarks.alike.burst_pairs import BurstData, Pairs, burst_data

#: Pull towards zero, in units of one pair's weight, on signals scaled to a spread of 1: without it clips whose frames
#: hardly differ would push the coefficients up without end.
_PULL = 0.02
STRANGERS_PER_FALSE = 200_000
#: Seconds within which strangers are dealt their times.
TEN_MINUTES = 600.0
#: How often the strangers are dealt times.
_DEALS = 20
#: A distance never speaks for a burst, a correlation never against it.
_SIGNS = (-1, -1, -1, -1, 1, 1)


def signals(pictures: Pictures, one: NDArray[np.int64], other: NDArray[np.int64]) -> Floats:
    """(n, 6): the six signals of each pair, in the order of `BurstCoefficients` after its intercept."""
    blocks = []
    for start in range(0, len(one), 64):
        a, b = pictures.rows(one[start : start + 64]), pictures.rows(other[start : start + 64])
        columns = (
            distances(a.phash, b.phash),
            distances(a.dhash, b.dhash),
            layout_distance(a.layout, b.layout),
            colour_distance(a.layout, b.layout),
            *both_ways(a.grey, b.grey),
        )
        blocks.append(np.stack([column.astype(np.float32) for column in columns], axis=1))
    return np.concatenate(blocks)


def fit(together: list[Floats], strangers: Floats) -> BurstCoefficients:
    """The coefficients from the signals of pairs, one array a kind of pair."""
    values = np.concatenate([*together, strangers]).astype(np.float64)
    is_together = np.concatenate([np.ones(sum(map(len, together))), np.zeros(len(strangers))])
    weights = np.concatenate([np.full(len(kind), 1 / len(kind) / len(together)) for kind in together])
    weights = np.concatenate([weights, np.full(len(strangers), 1 / len(strangers))]) / 2
    spread = values.std(0)
    scaled = values / spread

    def loss(guess: NDArray[np.float64]) -> tuple[float, NDArray[np.float64]]:
        score = scaled @ guess[1:] + guess[0]
        error = weights * (1 / (1 + np.exp(-score)) - is_together)
        value = (weights * (np.logaddexp(0, score) - is_together * score)).sum() + _PULL / 100 * (guess[1:] ** 2).sum()
        return value, np.concatenate([[error.sum()], error @ scaled + _PULL / 50 * guess[1:]])

    bounds = [(None, None), *((None, 0) if sign < 0 else (0, None) for sign in _SIGNS)]
    found = minimize(loss, np.zeros(7), jac=True, bounds=bounds, method="L-BFGS-B")
    return BurstCoefficients(float(found.x[0]), *(float(value) for value in found.x[1:] / spread))


def calibrated(fitted: BurstCoefficients, strangers: Floats) -> BurstCoefficients:
    """The same with the intercept at which few enough strangers in the same ten minutes count as alike."""
    _, *slopes = astuple(fitted)
    scores = strangers @ np.array(slopes, np.float32)
    random = np.random.default_rng(1)
    dealt = []
    for _ in range(_DEALS):
        gaps = np.abs(random.uniform(0, TEN_MINUTES, len(scores)) - random.uniform(0, TEN_MINUTES, len(scores)))
        timed = scores + gap_score(gaps.astype(np.float32))
        dealt.append(np.where(gaps <= LONGEST_GAP, timed, -np.inf))
    everything = np.sort(np.concatenate(dealt))[::-1]
    return BurstCoefficients(-float(everything[len(everything) // STRANGERS_PER_FALSE]), *slopes)


def signals_of(data: BurstData, pairs: Pairs) -> Floats:
    return signals(data.pictures, pairs.one, pairs.other)


def main() -> None:
    data = burst_data(for_fitting=True)
    together = [signals_of(data, pairs) for pairs in data.together]
    strangers = signals(data.pictures, *data.strangers())
    fitted = calibrated(fit(together, strangers), strangers)
    print(f"fitted on {sum(map(len, together)):,} pairs of one scene and {len(strangers):,} of strangers")
    print(f"{'':10} {'fitted':>8} {'in use':>8}")
    for field in fields(BurstCoefficients):
        print(f"{field.name:10} {getattr(fitted, field.name):8.3f} {getattr(BURST, field.name):8.3f}")


if __name__ == "__main__":
    main()
