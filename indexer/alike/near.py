"""Every two codes that differ in few bits: exact, whatever the codes. Pure.

Equal codes are put together first, so that thousands of them cost no more than the pairs they make. What differs is
found by parts (`near_parts`) or, where that would take longer (`near_plan`), by comparing every two.

Each pair comes once. A place is one in the codes as given, from 0. Blocks of pairs come in no order, each of at most
half a million pairs or as many as there are codes: about 120 bytes a code and 100 MB are needed, however many pairs.

Codes that all have an even number of bits set, as those of `imagehash.phash` mostly have, differ in an even number of
bits: an odd radius finds what the next smaller one does.

ValueError when the radius is not within 0..64.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from indexer.alike.bits import Codes, distances
from indexer.alike.near_parts import Places, near_by_parts, spread
from indexer.alike.near_plan import plan

#: Codes by codes that are compared in one go: as much as stays in the processor's cache.
_TILE = (32, 4096)


def near_pairs(codes: Codes, radius: int) -> Places:
    """Every two places whose codes differ in at most `radius` bits: shape (n, 2), the smaller place first, sorted.

    Memory grows with the pairs; `near_pair_blocks` is for when there may be more than fit.
    """
    return _sorted(near_pair_blocks(codes, radius))


def near_pairs_between(new: Codes, known: Codes, radius: int) -> Places:
    """The same of two sets of codes: shape (n, 2), place in `new` and place in `known`, sorted."""
    return _sorted(near_pair_blocks_between(new, known, radius))


def near_pair_blocks(codes: Codes, radius: int) -> Iterator[Places]:
    """`near_pairs` in blocks."""
    _check(radius)
    groups = _Groups.of(codes)
    for numbers, places in spread(*groups.followers()):
        yield _pairs(groups.order[numbers], groups.order[places], smaller_first=True)
    for one, other in _near(groups.codes, groups.codes, radius, within=True):
        for here, there in _members(groups, groups, one, other):
            yield _pairs(here, there, smaller_first=True)


def near_pair_blocks_between(new: Codes, known: Codes, radius: int) -> Iterator[Places]:
    """`near_pairs_between` in blocks."""
    _check(radius)
    ours, theirs = _Groups.of(new), _Groups.of(known)
    for one, other in _near(ours.codes, theirs.codes, radius, within=False):
        for here, there in _members(ours, theirs, one, other):
            yield _pairs(here, there, smaller_first=False)


def nearest_of_each(pairs: Places, ours: Codes, theirs: Codes, most: int) -> Places:
    """Of pairs (place in ours, place in theirs) at most so many for each first place: those nearest by code, of equally
    near ones the first."""
    order = np.lexsort((pairs[:, 1], distances(ours[pairs[:, 0]], theirs[pairs[:, 1]]), pairs[:, 0]))
    ordered = pairs[order]
    rank = np.arange(len(ordered)) - np.searchsorted(ordered[:, 0], ordered[:, 0])
    return ordered[rank < most]


def first_of_each(codes: Codes, most: int) -> Places:
    """The places of at most so many of each code, ascending: no others can be among the `most` nearest to any code."""
    order = np.argsort(codes, kind="stable")
    ordered = codes[order]
    rank = np.arange(len(ordered)) - np.searchsorted(ordered, ordered)
    return np.sort(order[rank < most])


@dataclass(frozen=True, slots=True)
class _Groups:
    """Equal codes put together: the codes that occur, ascending, and whose places they are."""

    codes: Codes
    order: Places  # the places, sorted by code
    firsts: Places  # of each code, where its places begin in `order`
    counts: Places  # and how many there are

    @classmethod
    def of(cls, codes: Codes) -> "_Groups":
        order = np.argsort(codes, kind="stable")
        different, firsts, counts = np.unique(codes[order], return_index=True, return_counts=True)
        return cls(different, order, firsts, counts)

    def followers(self) -> tuple[Places, Places]:
        """For each place in `order`, where those of the same code behind it begin, and how many there are."""
        after = np.arange(1, len(self.order) + 1)
        return after, np.repeat(self.firsts + self.counts, self.counts) - after


def _members(ours: _Groups, theirs: _Groups, one: Places, other: Places) -> Iterator[tuple[Places, Places]]:
    """The places of every two different codes: each place of the one with each of the other."""
    for pair, here in spread(ours.firsts[one], ours.counts[one]):
        partners = other[pair]
        for row, there in spread(theirs.firsts[partners], theirs.counts[partners]):
            yield ours.order[here[row]], theirs.order[there]


def _near(one: Codes, other: Codes, radius: int, within: bool) -> Iterator[tuple[Places, Places]]:
    """Places of every two codes within the radius; `within`: of one set of different codes, each two once."""
    parts = plan(one, other, radius, within)
    return near_by_parts(one, other, radius, parts, within) if parts else near_by_scan(one, other, radius, within)


def near_by_scan(one: Codes, other: Codes, radius: int, within: bool) -> Iterator[tuple[Places, Places]]:
    """The same by comparing every two, a tile at a time."""
    rows, columns = _TILE
    for top in range(0, len(one), rows):
        for left in range(top + 1 if within else 0, len(other), columns):
            apart = distances(one[top : top + rows, None], other[left : left + columns])
            here, there = np.divmod(np.flatnonzero(apart <= radius), apart.shape[1])
            here, there = here + top, there + left
            if within:
                later = here < there
                here, there = here[later], there[later]
            if len(here):
                yield here, there


def _pairs(one: Places, other: Places, smaller_first: bool) -> Places:
    """Two columns of places as pairs."""
    if smaller_first:
        one, other = np.minimum(one, other), np.maximum(one, other)
    return np.column_stack((one, other))


def _sorted(blocks: Iterable[Places]) -> Places:
    """All pairs of the blocks, ascending."""
    pairs = np.concatenate([np.empty((0, 2), np.int64), *blocks])
    return pairs[np.lexsort((pairs[:, 1], pairs[:, 0]))]


def _check(radius: int) -> None:
    if not 0 <= radius <= 64:
        raise ValueError(f"radius {radius} is not within 0..64 bits")
