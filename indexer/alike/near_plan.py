"""How to find near codes with the least work: by which parts, or by comparing every two. Pure."""

from math import comb, expm1, log1p

import numpy as np

from indexer.alike.bits import Codes, bit_counts
from indexer.alike.near_parts import BLOCK, FEWEST_PARTS, MOST_PARTS, Part, cut

# Nanoseconds, measured on one machine with tests/benchmarks/near_search.py. Only their proportions matter, and they
# decide about time alone, never about what is found.
_COMPARE = 0.7  # two codes, when every two are compared
_SORT = 130.0  # a code, by a part
_TABLE = 12.0  # a value of a part
_LOOK_UP = 3.0  # a value under a difference
_MEET = 25.0  # a value that is there under a difference
_CANDIDATE = 7.0  # two codes brought together by a part
_CALLS = 80_000.0  # numpy's own, for each lot of differences

#: Pairs drawn to see how many a part brings together: drawing takes some milliseconds ...
_DRAWN = 1 << 17
#: ... in which so many pairs of codes are compared as well.
FEW = 1 << 22


def plan(one: Codes, other: Codes, radius: int, within: bool) -> tuple[Part, ...]:
    """The parts to search by; none when comparing every two codes is faster.

    Real codes lie closer together than random ones, so how many pairs a part brings together is counted on pairs drawn
    from the codes, always the same ones.
    """
    pairs = len(one) * len(other) // (2 if within else 1)
    if pairs < FEW:
        return ()
    random = np.random.default_rng(1)
    drawn = one[random.integers(0, len(one), _DRAWN)] ^ other[random.integers(0, len(other), _DRAWN)]
    # The same code drawn twice is no pair.
    drawn = drawn[drawn != 0] if within else drawn
    costs: dict[tuple[Part, ...], float] = {(): pairs * _COMPARE}
    for count in range(FEWEST_PARTS, MOST_PARTS + 1):
        parts = cut(count, radius)
        costs[parts] = sum(_cost(part, len(one), len(other), pairs, drawn) for part in parts if part.reach >= 0)
    return min(costs, key=costs.__getitem__)


def _cost(part: Part, ones: int, others: int, pairs: int, drawn: Codes) -> float:
    """Nanoseconds that a part is likely to take."""
    width = len(part.bits)
    differences = sum(comb(width, bits) for bits in range(part.reach + 1))
    lookups = differences * _filled(ones, width)
    together = float(np.mean(bit_counts(drawn & part.mask) <= part.reach)) if len(drawn) else 0.0
    return (
        _SORT * (ones + others)
        + _TABLE * (1 << width)
        + _LOOK_UP * lookups
        + _MEET * lookups * _filled(others, width) / (1 << width)
        + _CANDIDATE * pairs * together
        + _CALLS * (1 + differences // max(1, BLOCK // ones))
    )


def _filled(codes: int, width: int) -> float:
    """How many values of a part so many random codes take."""
    return -expm1(codes * log1p(-(0.5**width))) * (1 << width)
