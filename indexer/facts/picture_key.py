"""A photo's key: a hash of its picture data, the same wherever they lie in the file and whatever the metadata say."""

import hashlib
from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate
from typing import BinaryIO

from indexer.facts.containers.reader import read_at

#: Picture data up to this length are hashed whole; of longer ones, the beginning and blocks spread over the rest.
HASHED_WHOLE = 128 << 10
BEGINNING = 64 << 10
BLOCKS = 16
BLOCK = 4 << 10

_WHOLE_FILE_BLOCK = 1 << 20


def picture_key(file: BinaryIO, size: int, spans: Sequence[tuple[int, int]]) -> str:
    """32 hexadecimal letters for the data at `spans`, (offset, length) each, or for the whole file if there are none.

    The spans must lie within the `size` bytes of the file; of bytes that are not there, OSError is raised.
    """
    places = list(spans) or [(0, size)]
    ends = list(accumulate(length for _, length in places))
    total = ends[-1]
    digest = hashlib.blake2b(total.to_bytes(8), digest_size=16)
    for start, length in _stretches(total, whole=not spans):
        _feed(digest, file, places, ends, start, length)
    return digest.hexdigest()


def _stretches(total: int, *, whole: bool) -> list[tuple[int, int]]:
    """Which (start, length) of that much data are hashed, counted in the data."""
    if whole or total <= HASHED_WHOLE:
        return [(start, min(_WHOLE_FILE_BLOCK, total - start)) for start in range(0, total, _WHOLE_FILE_BLOCK)]
    room = total - BEGINNING - BLOCK
    spread = [(BEGINNING + room * number // (BLOCKS - 1), BLOCK) for number in range(BLOCKS)]
    return [(0, BEGINNING), *spread]


def _feed(
    digest: hashlib.blake2b,
    file: BinaryIO,
    places: list[tuple[int, int]],
    ends: list[int],
    start: int,
    length: int,
) -> None:
    """Hash `length` bytes of the data from `start` on; `ends` are where each place ends in the data."""
    number = bisect_right(ends, start)
    while length > 0:
        offset, held = places[number]
        skipped = start - (ends[number] - held)
        piece = min(length, held - skipped)
        data = read_at(file, offset + skipped, piece)
        if len(data) < piece:
            raise OSError("the file became shorter while it was read")
        digest.update(data)
        start += piece
        length -= piece
        number += 1
