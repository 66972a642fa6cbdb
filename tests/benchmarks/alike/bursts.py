"""How many frames of one scene are found, and how few strangers with them: the score, each signal alone, plain pHash.

    python -m tests.benchmarks.alike.bursts

On clips and photographs that took no part in fitting. Strangers are dealt times in the same ten minutes, many times
over; a signal alone is given the border at which it takes one pair of strangers in 10,000 for one scene. Then pairs
that only look alike, indexed as files.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from indexer.alike.burst_score import burst_scores, gap_score
from indexer.alike.coefficients import LONGEST_GAP
from indexer.alike.signals import Floats
from tests.benchmarks.alike import look_alikes
from tests.benchmarks.alike.burst_pairs import MEASURED_APART, BurstData, Pairs, burst_data
from tests.benchmarks.alike.fit_bursts import TEN_MINUTES, signals, signals_of

SIGNALS = ("pHash", "dHash", "layout", "colours", "one shift", "moved parts")
#: A pair of strangers in so many may count as one scene, and a photo in so many may stand in a set with a stranger.
PAIRS_PER_FALSE, PHOTOS_PER_FALSE = 10_000, 1_000
_DEALS = 200
#: The common rule of thumb: pHash within so many bits.
_PLAIN_BITS = 10


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table: shares found by how many frames lie between, and what it costs in strangers."""

    name: str
    found: dict[int, float]
    false_pairs: float


@dataclass(frozen=True, slots=True)
class Result:
    """`false_pairs`: share of stranger pairs; `photos_with_strangers`: share of photographs alike to a stranger."""

    rows: tuple[Row, ...]
    by_clip: dict[str, dict[int, float]]
    false_pairs: float
    photos_with_strangers: float
    photographs: int
    stranger_pairs: int


def measure(data: BurstData) -> Result:
    """The whole table."""
    one, other = data.strangers()
    strange = signals(data.pictures, one, other)
    together = {(pairs.name, pairs.apart): signals_of(data, pairs) for pairs in data.together}
    rows = []
    for column, name in enumerate(SIGNALS):
        sign = -1 if column < 4 else 1
        border = np.sort(sign * strange[:, column])[::-1][len(strange) // PAIRS_PER_FALSE]
        found = {key: float((sign * values[:, column] > border).mean()) for key, values in together.items()}
        rows.append(Row(name, _by_distance(found), float((sign * strange[:, column] > border).mean())))
    plain = {key: float((values[:, 0] <= _PLAIN_BITS).mean()) for key, values in together.items()}
    rows.append(Row(f"plain pHash within {_PLAIN_BITS} bits", _by_distance(plain), float((strange[:, 0] <= 10).mean())))
    ours = {(pairs.name, pairs.apart): _share_found(data, pairs) for pairs in data.together}
    visual = _scores(data, one, other)
    false_pairs, photos = _among_strangers(visual, one, other, len(data.photographs))
    rows.append(Row("all together, with the gap in time", _by_distance(ours), false_pairs))
    by_clip: dict[str, dict[int, float]] = {}
    for (name, apart), share in ours.items():
        by_clip.setdefault(name, {})[apart] = share
    return Result(tuple(rows), by_clip, false_pairs, photos, len(data.photographs), len(one))


def _share_found(data: BurstData, pairs: Pairs) -> float:
    gaps = np.full(len(pairs.one), pairs.seconds, np.float32)
    scores = burst_scores(data.pictures.rows(pairs.one), data.pictures.rows(pairs.other), gaps)
    return float((scores > 0).mean())


def _scores(data: BurstData, one: NDArray[np.int64], other: NDArray[np.int64]) -> Floats:
    """Scores at the gap that says nothing; where they are far below, only a bound."""
    least = np.ones(len(one), np.float32)  # the gap that speaks loudest, so that no bound cuts a pair off too early
    return burst_scores(data.pictures.rows(one), data.pictures.rows(other), least) - gap_score(least)


def _among_strangers(
    visual: Floats, one: NDArray[np.int64], other: NDArray[np.int64], photographs: int
) -> tuple[float, float]:
    """(share of the pairs, share of the photographs): how many count as one scene with a stranger, over many deals."""
    random = np.random.default_rng(5)
    pairs = photos = 0
    everyone = max(int(one.max()), int(other.max())) + 1
    for _ in range(_DEALS):
        moments = random.uniform(0, TEN_MINUTES, everyone)
        gaps = np.abs(moments[one] - moments[other]).astype(np.float32)
        alike = (visual + gap_score(gaps) > 0) & (gaps <= LONGEST_GAP)
        pairs += int(alike.sum())
        touched = np.unique(np.concatenate([one[alike], other[alike]]))
        photos += int((touched < photographs).sum())
    return pairs / _DEALS / len(one), photos / _DEALS / photographs


def _by_distance(found: dict[tuple[str, int], float]) -> dict[int, float]:
    """The mean of the clips at each distance."""
    return {
        apart: float(np.mean([share for (_, distance), share in found.items() if distance == apart]))
        for apart in MEASURED_APART
    }


def lines(result: Result) -> list[str]:
    """The table, ready to print."""
    heads = "".join(f"{apart:>7}" for apart in MEASURED_APART)
    told = [f"{'found, frames apart':38}{heads}   false pairs"]
    for row in result.rows:
        cells = "".join(f"{row.found[apart]:7.1%}" for apart in MEASURED_APART)
        told.append(f"{row.name:38}{cells}   {row.false_pairs * PAIRS_PER_FALSE:.2f} in {PAIRS_PER_FALSE:,}")
    for name, found in result.by_clip.items():
        told.append(f"{'  ' + name:38}" + "".join(f"{found[apart]:7.1%}" for apart in MEASURED_APART))
    told.append(
        f"photographs in a set with a stranger: {result.photos_with_strangers * PHOTOS_PER_FALSE:.2f} in"
        f" {PHOTOS_PER_FALSE:,} ({result.photographs} photographs, {result.stranger_pairs:,} pairs of strangers, dealt"
        f" times in the same ten minutes {_DEALS} times)"
    )
    return [*told, *look_alikes.rows()]


if __name__ == "__main__":
    print("\n".join(lines(measure(burst_data(for_fitting=False)))))
