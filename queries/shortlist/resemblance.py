"""How alike the photos of a week are, from 0 to 1: by what they show, and by when they were taken. Pure."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from queries.shortlist import weights
from queries.shortlist.values import Candidate, Occasion

Matrix = NDArray[np.float32]


def looks_alike(ones: Sequence[Candidate], others: Sequence[Candidate]) -> Matrix:
    """By look: a row for each of `ones`, a column for each of `others`.

    The mean of two likenesses, of the perceptual hashes and of the colour layouts; a photo that lacks them is like
    none.
    """
    both: Matrix = (_alike_in_hash(ones, others) + _alike_in_colour(ones, others)) / np.float32(2)
    return both


def near_in_time(ones: Sequence[Occasion], others: Sequence[Occasion]) -> Matrix:
    """1 for the same occasion, less for the same day, 0 for different days."""
    numbers = {occasion: number for number, occasion in enumerate(dict.fromkeys([*ones, *others]))}
    same = _equal([numbers[one] for one in ones], [numbers[other] for other in others])
    same_day = _equal([one.day.toordinal() for one in ones], [other.day.toordinal() for other in others])
    near: Matrix = np.maximum(same, same_day * np.float32(weights.SAME_DAY))
    return near


def _equal(ones: Sequence[int], others: Sequence[int]) -> Matrix:
    equal: Matrix = (np.array(ones, np.int64)[:, None] == np.array(others, np.int64)[None, :]).astype(np.float32)
    return equal


def _alike_in_hash(ones: Sequence[Candidate], others: Sequence[Candidate]) -> Matrix:
    """1 for equal hashes, 0 from the distance of strangers on."""
    rows, columns = _signs(ones), _signs(others)
    bits: Matrix = (np.float32(64) - rows @ columns.T) / np.float32(2)
    known = _known([one.phash for one in ones], [other.phash for other in others])
    alike: Matrix = np.maximum(1 - bits / np.float32(weights.HASH_FAR), 0) * known
    return alike


def _signs(candidates: Sequence[Candidate]) -> Matrix:
    """64 values of -1 or 1 each: the product of two hashes is the bits that agree less those that do not."""
    packed = b"".join(candidate.phash or bytes(8) for candidate in candidates)
    bits = np.unpackbits(np.frombuffer(packed, np.uint8)).reshape(len(candidates), 64)
    return bits.astype(np.float32) * 2 - 1


def _alike_in_colour(ones: Sequence[Candidate], others: Sequence[Candidate]) -> Matrix:
    """A bell over the distance of the layouts."""
    rows, columns = _layouts(ones), _layouts(others)
    squares = (rows**2).sum(1)[:, None] + (columns**2).sum(1)[None, :] - 2 * (rows @ columns.T)
    mean = np.maximum(squares, 0) / 64
    known = _known([one.layout for one in ones], [other.layout for other in others])
    alike: Matrix = np.exp(-mean / np.float32(weights.LAYOUT_FAR**2)) * known
    return alike


def _layouts(candidates: Sequence[Candidate]) -> Matrix:
    """64 cells of L*, a*, b* in a row each."""
    packed = b"".join(candidate.layout or bytes(192) for candidate in candidates)
    stored = np.frombuffer(packed, np.uint8).reshape(len(candidates), 64, 3).astype(np.float32)
    stored[..., 0] /= np.float32(2.55)
    return stored.reshape(len(candidates), 192)


def _known(ones: Sequence[bytes | None], others: Sequence[bytes | None]) -> Matrix:
    rows, columns = ([value is not None for value in values] for values in (ones, others))
    return np.outer(rows, columns).astype(np.float32)
