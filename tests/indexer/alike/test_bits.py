"""64-bit codes and their distances."""

import imagehash
import numpy as np
import pytest

from indexer.alike.bits import bit_counts, codes_of, counts_by_table, distances
from tests.indexer.alike.near_codes import random_codes

SOME = np.array([0, 1, 1 << 63, (1 << 64) - 1, 0x8000_0001_0001_0000], np.uint64)


def test_bits_are_counted_as_python_counts_them() -> None:
    """Both ways to count bits agree with int.bit_count for the extremes and for random codes, in any shape."""
    codes = np.concatenate((SOME, random_codes(499))).reshape(7, -1)
    expected = [[int(code).bit_count() for code in row] for row in codes]
    assert bit_counts(codes).tolist() == expected
    assert counts_by_table(codes).tolist() == expected


def test_strided_codes_are_counted_by_the_table() -> None:
    """Codes that do not lie side by side in memory are counted as they are."""
    codes = np.asfortranarray(random_codes(60).reshape(6, 10))[::2, ::3]
    assert counts_by_table(codes).tolist() == [[int(code).bit_count() for code in row] for row in codes]


def test_distances_are_those_of_the_hashes() -> None:
    """Hashes packed to bytes differ as much as imagehash says, and the codes are the hashes' own hexadecimal digits."""
    random = np.random.default_rng(5)
    hashes = [imagehash.ImageHash(random.random((8, 8)) < 0.5) for _ in range(40)]
    codes = codes_of([np.packbits(one.hash).tobytes() for one in hashes])
    assert [f"{code:016x}" for code in codes.tolist()] == [str(one) for one in hashes]
    found = distances(codes[:, None], codes)
    assert found.tolist() == [[one - other for other in hashes] for one in hashes]


def test_no_hashes_are_no_codes() -> None:
    """An empty list gives no code."""
    assert codes_of([]).shape == (0,)


def test_hash_of_another_length_is_refused() -> None:
    """Two hashes that are 8 bytes long only on average are not taken for codes."""
    with pytest.raises(ValueError, match="8 bytes"):
        codes_of([bytes(7), bytes(9)])
