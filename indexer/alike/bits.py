"""64-bit codes, and in how many bits they differ. Pure."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

#: Any number of 64-bit codes, one after the other.
Codes = NDArray[np.uint64]

#: How many bits are set in each number below 2**16.
_SET_BITS = np.unpackbits(np.arange(1 << 16, dtype=np.uint16).view(np.uint8)).reshape(-1, 16).sum(1, dtype=np.uint8)


def codes_of(hashes: Sequence[bytes]) -> Codes:
    """Hashes of 8 bytes each, most significant bit first, as numbers. ValueError when one has another length."""
    if any(len(one) != 8 for one in hashes):
        raise ValueError("a hash is not 8 bytes long")
    return np.frombuffer(b"".join(hashes), ">u8").astype(np.uint64)


def distances(one: Codes, other: Codes) -> NDArray[np.uint8]:
    """In how many bits each code differs from its counterpart, 0..64; shapes are broadcast as by any numpy function."""
    return bit_counts(one ^ other)


def counts_by_table(codes: Codes) -> NDArray[np.uint8]:
    """How many bits are set in each code, 16 at a time: for a numpy older than 2.0, which cannot count bits."""
    words = np.ascontiguousarray(codes)[..., None].view(np.uint16)
    counts: NDArray[np.uint8] = _SET_BITS[words].sum(-1, dtype=np.uint8)
    return counts


#: How many bits are set in each code, 0..64, in the shape given.
bit_counts: Callable[[Codes], NDArray[np.uint8]] = getattr(np, "bitwise_count", counts_by_table)
