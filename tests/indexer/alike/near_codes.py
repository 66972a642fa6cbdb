"""Codes of several kinds, and the plainest way to find the near ones among them."""

import numpy as np
from numpy.typing import NDArray

Codes = NDArray[np.uint64]


def random_codes(count: int, seed: int = 1) -> Codes:
    return np.random.default_rng(seed).integers(0, 1 << 64, count, dtype=np.uint64)


def clustered_codes(count: int, seed: int = 1, most: int = 12) -> Codes:
    """Codes that differ from one of a few by up to `most` bits, some of them by none."""
    random = np.random.default_rng(seed)
    centres = random_codes(max(1, count // 12), seed)
    codes = random.choice(centres, count)
    flips = random.integers(0, most + 1, count)
    for turn in range(most):
        bits = np.uint64(1) << random.integers(0, 64, count, dtype=np.uint64)
        codes = np.where(turn < flips, codes ^ bits, codes)
    return codes


def even_codes(count: int, seed: int = 1) -> Codes:
    """Codes with 32 bits set, as `imagehash.phash` gives, drawn together in clusters."""
    random = np.random.default_rng(seed)
    rows = np.tile(random.random((max(1, count // 20), 64)), (20, 1))[:count]
    ranks = np.argsort(rows + random.normal(0, 0.02, rows.shape), axis=1).argsort(axis=1)
    return np.packbits(ranks < 32, axis=1).view(">u8").astype(np.uint64).ravel()


def equal_codes(count: int) -> Codes:
    """Two values three bits apart, each many times, and one alone."""
    return np.array([7, 0] * (count // 2) + [1 << 63], np.uint64)[:count]


def narrow_codes(count: int, seed: int = 1) -> Codes:
    """Codes that share all bits but eleven, so that most of them are near many others."""
    return random_codes(count, seed) & np.uint64(0x0801_0400_2100_5A11)


KINDS = {
    "random": random_codes,
    "clustered": clustered_codes,
    "even": even_codes,
    "equal": equal_codes,
    "narrow": narrow_codes,
}


def plain_distances(one: Codes, other: Codes) -> NDArray[np.int64]:
    """In how many bits each of the one differs from each of the other: by products of single bits, and no bit counted.

    Where a bit is +1 or -1, 64 bits agree as often more than they differ as their product says.
    """
    signs = [np.unpackbits(codes.astype(">u8").view(np.uint8)).reshape(-1, 64) * 2.0 - 1 for codes in (one, other)]
    agreement: NDArray[np.float64] = signs[0] @ signs[1].T
    return np.rint((64 - agreement) / 2).astype(np.int64)


def plain_pairs(apart: NDArray[np.int64], radius: int) -> NDArray[np.int64]:
    """Every two places of one set of codes within the radius, the smaller first, sorted."""
    return np.argwhere(np.triu(apart <= radius, k=1))
