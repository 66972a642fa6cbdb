"""Scenes that two cameras saw, whatever their clocks say: what a camera whose clock is off is found out by. Pure.

Photos of different cameras are compared when their hashes are near, and by pictures alone, since their times may be
off by years. One such pair may be chance or another day in the same place; many that agree on a shift are not.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from indexer.alike.burst_score import burst_scores
from indexer.alike.coefficients import LONGEST_GAP, MOST_SCENES, NEUTRAL_GAP, SCENE_BORDER, SCENE_RADIUS
from indexer.alike.near import first_of_each, near_pair_blocks_between, nearest_of_each
from indexer.alike.signals import Pictures
from indexer.alike.values import Looked

Places = NDArray[np.int64]

#: Pairs scored at a time.
_BLOCK = 512


def scenes(
    photos: Sequence[Looked], pictures: Pictures, is_fresh: NDArray[np.bool_]
) -> Iterator[tuple[int, int, float]]:
    """(smaller place, larger place, log odds) of photos of different named cameras, one of them fresh, that show one
    scene; those so near in time that they may be a burst are left to it."""
    pairs = _candidates(_cameras(photos), pictures.phash, is_fresh)
    moments = np.array([np.nan if photo.moment is None else photo.moment for photo in photos])
    pairs = pairs[~(np.abs(moments[pairs[:, 0]] - moments[pairs[:, 1]]) <= LONGEST_GAP)]
    for start in range(0, len(pairs), _BLOCK):
        one, other = pairs[start : start + _BLOCK].T
        scores = burst_scores(pictures.rows(one), pictures.rows(other), np.full(len(one), NEUTRAL_GAP, np.float32))
        for row in np.flatnonzero(scores >= SCENE_BORDER):
            yield int(one[row]), int(other[row]), float(scores[row])


def _cameras(photos: Sequence[Looked]) -> NDArray[np.int64]:
    """A number for each camera, below 0 for a photo that names none."""
    numbers = {camera: number for number, camera in enumerate(sorted({photo.camera for photo in photos} - {""}))}
    return np.array([numbers.get(photo.camera, -1) for photo in photos], np.int64)


def _candidates(cameras: Places, codes: NDArray[np.uint64], is_fresh: NDArray[np.bool_]) -> Places:
    """Pairs of places, the smaller first, of different cameras and near by hash, of each fresh photo the nearest."""
    blocks = [np.empty((0, 2), np.int64)]
    for camera in np.unique(cameras[is_fresh & (cameras >= 0)]):
        ours = np.flatnonzero(is_fresh & (cameras == camera))
        # of two fresh photos the one of the earlier camera looks for the other
        theirs = np.flatnonzero((cameras > camera) | (~is_fresh & (cameras >= 0) & (cameras != camera)))
        theirs = theirs[first_of_each(codes[theirs], MOST_SCENES)]
        for block in near_pair_blocks_between(codes[ours], codes[theirs], SCENE_RADIUS):
            pairs = np.column_stack((ours[block[:, 0]], theirs[block[:, 1]]))
            blocks.append(nearest_of_each(pairs, codes, codes, MOST_SCENES))
    return np.unique(np.sort(nearest_of_each(np.concatenate(blocks), codes, codes, MOST_SCENES), axis=1), axis=0)
