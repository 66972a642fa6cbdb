"""Pairs of near codes through equal parts: multi-index hashing. Pure.

Two codes within a radius lie nearer still in some part of their bits, so only those have to be compared whose part is
near (Norouzi, Punjani and Fleet, "Fast search in Hamming space with multi-index hashing", CVPR 2012). Here each part
has a reach of its own (as in Qin et al., "GPH: similarity search in Hamming space", ICDE 2018, cited from memory): two
codes that differ in each part by more than its reach differ by at least sum(reach + 1) in all. So where the reaches add
up to radius - parts + 1, every pair within the radius is within reach in some part. A part of reach -1 is not searched.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from indexer.alike.bits import Codes, bit_counts

Places = NDArray[np.int64]

#: Candidates that are looked at in one go: what they need stays below 50 MB, and numpy's calls cost little beside it.
BLOCK = 1 << 19
#: A table of 2**22 numbers is the largest that is kept, so 64 bits are cut into at least three parts ...
FEWEST_PARTS = 3
#: ... and parts of fewer than 8 bits sort nothing out.
MOST_PARTS = 8


@dataclass(frozen=True, slots=True)
class Part:
    """Some bits of a code, and in how many of them two codes may differ to be compared as a whole."""

    bits: tuple[int, ...]
    reach: int

    @property
    def mask(self) -> np.uint64:
        """The bits as a code."""
        return np.uint64(sum(1 << bit for bit in self.bits))

    def of(self, codes: Codes) -> NDArray[np.uint32]:
        """The bits of each code moved together, as a number."""
        values = np.zeros(len(codes), np.uint32)
        for place, bit in enumerate(self.bits):
            values |= ((codes >> np.uint64(bit) & np.uint64(1)) << np.uint64(place)).astype(np.uint32)
        return values

    def nearby(self) -> NDArray[np.uint32]:
        """Every difference of two values that are within reach, 0 first."""
        every = np.arange(1 << len(self.bits), dtype=np.uint64)
        return every[bit_counts(every) <= self.reach].astype(np.uint32)


def cut(count: int, radius: int) -> tuple[Part, ...]:
    """64 bits cut into so many parts, the reach shared out evenly.

    Each part takes every count-th bit: neighbours in a perceptual hash say much the same, and in one part would tell
    fewer codes apart (at worst half as slow again, with 39,000 hashes of cuttings from real photographs).
    """
    total = radius - count + 1
    return tuple(
        Part(tuple(range(number, 64, count)), max(-1, (total + count - 1 - number) // count)) for number in range(count)
    )


def near_by_parts(
    one: Codes, other: Codes, radius: int, parts: tuple[Part, ...], within: bool
) -> Iterator[tuple[Places, Places]]:
    """Places in `one` and in `other` of every two codes within the radius, each pair once, block by block.

    `within`: both are the same codes, all of them different; then each two are given once, either place first.
    """
    for number, part in enumerate(parts):
        if part.reach < 0:
            continue
        left = _Sorted.by(part, one)
        right = left if within else _Sorted.by(part, other)
        for here, there in _candidates(left, right, part, within):
            differing = left.codes[here] ^ right.codes[there]
            near = np.flatnonzero(bit_counts(differing) <= radius)
            near = near[~_found_by(parts[:number], differing[near])]
            if len(near):
                yield left.order[here[near]], right.order[there[near]]


def spread(starts: Places, lengths: Places, block: int = BLOCK) -> Iterator[tuple[Places, Places]]:
    """Ranges written out: the number of the range and the place, for every place of every range, in order.

    Block by block: each holds at most `block` places, or one range.
    """
    ends = np.cumsum(lengths)
    first, done = 0, 0
    while first < len(lengths):
        last = max(first + 1, int(np.searchsorted(ends, done + block, side="right")))
        numbers, places = spread_at_once(starts[first:last], lengths[first:last])
        yield numbers + first, places
        first, done = last, int(ends[last - 1])


def spread_at_once(starts: Places, lengths: Places) -> tuple[Places, Places]:
    """Ranges written out as `spread` does, in one block."""
    numbers = np.repeat(np.arange(len(lengths)), lengths)
    return numbers, np.arange(len(numbers)) + (starts - (np.cumsum(lengths) - lengths))[numbers]


@dataclass(frozen=True, slots=True)
class _Sorted:
    """Codes sorted by the value of a part: those of one value lie from `bounds[value]` up to `bounds[value + 1]`."""

    order: Places
    codes: Codes
    values: NDArray[np.uint32]  # those that occur, ascending
    bounds: Places
    occurs: NDArray[np.bool_]  # by value: small enough to stay in the processor's cache

    @classmethod
    def by(cls, part: Part, codes: Codes) -> "_Sorted":
        of_codes = part.of(codes)
        order = np.argsort(of_codes, kind="stable")
        counts = np.bincount(of_codes, minlength=1 << len(part.bits))
        occurs = counts > 0
        bounds = np.concatenate((np.zeros(1, np.int64), np.cumsum(counts)))
        return cls(order, codes[order], np.flatnonzero(occurs).astype(np.uint32), bounds, occurs)

    def ranges(self, values: NDArray[np.uint32]) -> tuple[Places, Places]:
        """Where the codes of each value begin, and how many there are."""
        places = values.astype(np.int64)
        starts = self.bounds.take(places)
        return starts, self.bounds.take(places + 1) - starts


def _candidates(left: _Sorted, right: _Sorted, part: Part, within: bool) -> Iterator[tuple[Places, Places]]:
    """Places, in both as sorted, of every two codes within the part's reach; of the same codes each two once."""
    differences = part.nearby()
    firsts, counts = left.ranges(left.values)
    if within:
        # Under difference 0: each code with those of the same value behind it.
        after = np.arange(1, len(left.codes) + 1)
        yield from spread(after, np.repeat(firsts + counts, counts) - after)
        differences = differences[1:]
    # So many that no more codes come together than BLOCK, or than there are.
    at_once = max(1, BLOCK // max(1, len(left.codes)))
    for first in range(0, len(differences), at_once):
        sought = differences[first : first + at_once, None] ^ left.values
        met = right.occurs.take(sought)
        if within:
            met &= sought > left.values
        hits = np.flatnonzero(met)
        mine = hits % max(1, len(left.values))
        starts, lengths = right.ranges(sought.ravel()[hits])
        number, here = spread_at_once(firsts[mine], counts[mine])
        for row, there in spread(starts[number], lengths[number]):
            yield here[row], there


def _found_by(parts: tuple[Part, ...], differing: Codes) -> NDArray[np.bool_]:
    """Whether an earlier part has found a pair that differs in these bits."""
    found = np.zeros(len(differing), np.bool_)
    for part in parts:
        # As a Python number a reach of -1 is below every count.
        found |= bit_counts(differing & part.mask) <= part.reach
    return found
