"""Which photos show one picture (copies) or one scene in quick succession (bursts). Pure.

Copies are looked for everywhere: by hashes within a radius, exactly, of the whole pictures, of pictures cut at the
edges and of turned ones; each candidate is then laid over the other. Bursts are looked for among photos near in time,
scenes that two cameras saw everywhere.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from datetime import datetime, timedelta
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from indexer.alike.burst_score import burst_scores
from indexer.alike.coefficients import (
    COPY_BORDER,
    COPY_RADIUS,
    FLAT,
    LONGEST_GAP,
    MOST_FOLLOWING,
    MOST_NEAREST,
    SAME_SECOND_BORDER,
)
from indexer.alike.copy_score import copy_scores, plain_scores, turned_codes, window_codes
from indexer.alike.near import first_of_each, near_pair_blocks_between, nearest_of_each
from indexer.alike.scenes import scenes
from indexer.alike.signals import Pictures, pictures_of
from indexer.alike.values import Kind, Likeness, Looked, times_agree

Places = NDArray[np.int64]

#: Below this share of the larger picture's pixels the smaller was cut: raw data and its JPEG differ by less.
_CUT_SHARE = 0.95
#: Frames of one burst, and all that may be told in one set with them, are closer in time.
_DATED_ANEW = timedelta(days=1)
#: Pairs judged at a time: what they need stays in the processor's cache.
_BLOCK = 512


def likenesses(photos: Sequence[Looked], fresh: Collection[str]) -> list[Likeness]:
    """All likenesses in which at least one of the two is fresh, a pair once; a copy is no burst besides.

    About 10 KB of memory a photo.
    """
    told = [photo for photo in photos if photo.contrast >= FLAT]
    if len(told) < 2:
        return []
    pictures = pictures_of(told)
    is_fresh = np.array([photo.key in fresh for photo in told])
    found: dict[tuple[int, int], Likeness] = {}

    def keep(kind: Kind | Literal["scene"], scored: Iterable[tuple[int, int, float]]) -> None:
        for one, other, score in scored:
            found.setdefault((one, other), _likeness(told[one], told[other], kind, score))

    keep("copy", _copies(told, pictures, is_fresh))
    near = [pair for pair in _near_in_time(told, is_fresh) if pair[:2] not in found]
    keep("copy", _judged(told, pictures, [pair[:2] for pair in near if _is_same(told[pair[0]], told[pair[1]])]))
    for one, other, score in _bursts(pictures, [pair for pair in near if pair[:2] not in found]):
        is_cut = _is_one_shot_cut(told[one], told[other])
        keep(*(("copy", [(one, other, COPY_BORDER)]) if is_cut else ("burst", [(one, other, score)])))
    keep("scene", scenes(told, pictures, is_fresh))
    return list(found.values())


def same_picture(one: Looked, other: Looked) -> bool:
    """Whether two photos show the same upright picture, as an edit saved over its original does."""
    pictures = pictures_of([one, other])
    return bool(copy_scores(pictures.grey[:1], pictures.grey[1:])[0] >= COPY_BORDER)


def _likeness(one: Looked, other: Looked, kind: Kind | Literal["scene"], score: float) -> Likeness:
    first, second = sorted((one.key, other.key))
    return Likeness(first, second, kind, round(score, 4))


def _copies(
    photos: Sequence[Looked], pictures: Pictures, is_fresh: NDArray[np.bool_]
) -> Iterator[tuple[int, int, float]]:
    """(smaller place, larger place, score) of the copies in which one is fresh."""
    best: dict[tuple[int, int], float] = {}
    for quarters, pairs in _candidates(pictures, is_fresh):
        allowed = [(a, b) for a, b in pairs.tolist() if _may_be_one_shot(photos[a], photos[b])]
        for one, other, score in _judged(photos, pictures, allowed, quarters):
            best[one, other] = max(best.get((one, other), -1.0), score)
    return ((one, other, score) for (one, other), score in best.items())


def _judged(
    photos: Sequence[Looked], pictures: Pictures, pairs: Sequence[tuple[int, int]], quarters: int = 0
) -> Iterator[tuple[int, int, float]]:
    """(smaller place, larger place, score) of the pairs that are copies when the first is turned so many quarters."""
    for start in range(0, len(pairs), _BLOCK):
        block = np.array(pairs[start : start + _BLOCK], np.int64)
        turned, others = np.rot90(pictures.grey[block[:, 0]], quarters, (1, 2)), pictures.grey[block[:, 1]]
        scores = plain_scores(turned, others)
        may_differ = np.array([_do_times_agree(photos[one], photos[other]) for one, other in block.tolist()])
        unsure = np.flatnonzero((scores < SAME_SECOND_BORDER) & may_differ)  # what was dated anew is alike as it is
        scores[unsure] = copy_scores(turned[unsure], others[unsure])
        for (one, other), score in zip(block.tolist(), scores.tolist(), strict=True):
            if score >= _border(photos[one], photos[other]):
                yield min(one, other), max(one, other), score


def _is_same(one: Looked, other: Looked) -> bool:
    """Whether two photos look the same to the last grey level: among thousands of such each has more copies than are
    looked for by hash, and what is a copy need not be compared as a burst."""
    return one.grey == other.grey and times_agree(one.own_time, other.own_time)


def _may_be_one_shot(one: Looked, other: Looked) -> bool:
    """Whether the cameras' own times do not speak against one shot: they agree, or one camera's lie so far apart that
    the two are no frames of one burst. A program may have dated one anew; whoever judges times has to know."""
    if _do_times_agree(one, other) or one.own_time is None or other.own_time is None:
        return True
    is_one_camera = not (one.camera and other.camera and one.camera != other.camera)
    return is_one_camera and abs(_moment(one.own_time) - _moment(other.own_time)) >= _DATED_ANEW


def _do_times_agree(one: Looked, other: Looked) -> bool:
    return times_agree(one.own_time, other.own_time)


def _moment(own_time: str) -> datetime:
    return datetime.fromisoformat(own_time[:19])


def _border(one: Looked, other: Looked) -> float:
    """How alike two copies must be: almost wholly where their cameras' times allow two shots."""
    is_one_size = _size(one) == _size(other)
    is_strict = (_is_one_second(one, other) and is_one_size) or not _do_times_agree(one, other)
    return SAME_SECOND_BORDER if is_strict else COPY_BORDER


def _is_one_shot_cut(one: Looked, other: Looked) -> bool:
    """Whether two photos of one scene are of one second, camera and not of one size: no camera's burst changes its
    size, so one was cut from the other, and by more than copies are searched for."""
    areas = sorted((one.width * one.height, other.width * other.height))
    return _is_one_second(one, other) and areas[0] < _CUT_SHARE * areas[1]


def _is_one_second(one: Looked, other: Looked) -> bool:
    return bool(one.own_time and one.camera) and (one.own_time, one.camera) == (other.own_time, other.camera)


def _size(photo: Looked) -> tuple[int, int]:
    """The sides, the shorter first: turning changes no size."""
    return min(photo.width, photo.height), max(photo.width, photo.height)


def _candidates(pictures: Pictures, is_fresh: NDArray[np.bool_]) -> Iterator[tuple[int, Places]]:
    """(quarters by which the first is to be turned, pairs of places of which one at least is fresh)."""
    windows = window_codes(pictures.grey)
    pairs = [_nearest(windows[:, column], pictures.phash, is_fresh) for column in range(windows.shape[1])]
    pairs.append(_nearest(pictures.phash, pictures.phash, is_fresh))
    yield 0, np.unique(np.sort(np.concatenate(pairs), axis=1), axis=0)
    turned = turned_codes(pictures.grey)
    for quarters in (1, 2, 3):
        yield quarters, _nearest(turned[:, quarters - 1], pictures.phash, is_fresh)


def _nearest(ours: NDArray[np.uint64], theirs: NDArray[np.uint64], is_fresh: NDArray[np.bool_]) -> Places:
    """Pairs (place in ours, place in theirs) within the radius, of two photos, one of them fresh, and of each photo the
    nearest only."""
    fresh, stale = np.flatnonzero(is_fresh), np.flatnonzero(~is_fresh)
    blocks = [np.empty((0, 2), np.int64)]
    for left, right in ((fresh, np.arange(len(theirs))), (stale, fresh)):
        right = right[first_of_each(theirs[right], MOST_NEAREST + 1)]  # one of them may be the photo itself
        for block in near_pair_blocks_between(ours[left], theirs[right], COPY_RADIUS):
            pairs = np.stack([left[block[:, 0]], right[block[:, 1]]], axis=1)
            blocks.append(nearest_of_each(pairs[pairs[:, 0] != pairs[:, 1]], ours, theirs, MOST_NEAREST))
    return nearest_of_each(np.concatenate(blocks), ours, theirs, MOST_NEAREST)


def _bursts(pictures: Pictures, near: Sequence[tuple[int, int, float]]) -> Iterator[tuple[int, int, float]]:
    """(place, place, log odds) of those near in time, given with the seconds between, that show one scene."""
    for start in range(0, len(near), _BLOCK):
        block = near[start : start + _BLOCK]
        one, other = (np.array(column, np.int64) for column in zip(*((a, b) for a, b, _ in block), strict=True))
        gaps = np.array([gap for _, _, gap in block], np.float32)
        scores = burst_scores(pictures.rows(one), pictures.rows(other), gaps)
        yield from ((a, b, float(score)) for (a, b, _), score in zip(block, scores, strict=True) if score > 0)


def _near_in_time(photos: Sequence[Looked], is_fresh: NDArray[np.bool_]) -> Iterator[tuple[int, int, float]]:
    """(smaller place, larger place, seconds between) of photos whose moments are known and near, one of them fresh."""
    ordered = sorted((photo.moment, place) for place, photo in enumerate(photos) if photo.moment is not None)
    for number, (moment, place) in enumerate(ordered):
        for later, next_place in ordered[number + 1 : number + 1 + MOST_FOLLOWING]:
            if later - moment > LONGEST_GAP:
                break
            if is_fresh[place] or is_fresh[next_place]:
                yield min(place, next_place), max(place, next_place), later - moment
