"""Pairs of real pictures of one scene, and pairs of strangers, as fingerprints: some to fit by, others to measure on.

Photographs are dealt out by turns: those at even places of the pool are for fitting, the others for measuring.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageEnhance

from indexer.alike.signals import Pictures, pictures_of
from indexer.facts.fingerprint import fingerprint_of
from tests.real_photos import pool

Places = NDArray[np.int64]

#: Frames apart.
MEASURED_APART = (1, 2, 5, 10, 15)
_FITTED_APART = (2, 5, 10, 20, 40)
#: Of the long clips only so many frames are read, and so many pairs taken at each distance.
_MOST_FRAMES, _MOST_PAIRS = 300, 250
_TRIES_PER_PHOTOGRAPH = 3
#: Shares of a photograph's sides, degrees, and factors of brightness between which a second try differs from the first.
_FRAMING, _TURN, _LIGHT = (0.72, 0.86), (-4.0, 4.0), (0.85, 1.2)


@dataclass(frozen=True, slots=True)
class Pairs:
    """Rows of `BurstData.pictures`; `seconds` is the gap between the frames, NaN where nothing tells it."""

    name: str
    apart: int
    one: Places
    other: Places
    seconds: float


@dataclass(frozen=True, slots=True)
class BurstData:
    """All pictures, the pairs of one scene, and where the photographs and frames stand that are strangers to each
    other: places in one group are strangers to those of every other, and photographs to each other."""

    pictures: Pictures
    together: tuple[Pairs, ...]
    photographs: Places
    clips: tuple[Places, ...]

    def strangers(self) -> tuple[Places, Places]:
        """Every pair of photographs, and photographs and other clips beside every tenth frame of each clip."""
        one, other = np.triu_indices(len(self.photographs), 1)
        pairs = [(self.photographs[one], self.photographs[other])]
        for number, clip in enumerate(self.clips):
            against = np.concatenate([self.photographs, *(later[::10] for later in self.clips[number + 1 :])])
            pairs.append((np.repeat(against, len(clip[::10])), np.tile(clip[::10], len(against))))
        return np.concatenate([pair[0] for pair in pairs]), np.concatenate([pair[1] for pair in pairs])


def burst_data(*, for_fitting: bool, photographs: Sequence[Image.Image] | None = None) -> BurstData:
    """The pairs to fit by or to measure on; takes about half a minute."""
    dealt = list(photographs if photographs is not None else pool.strangers())[0 if for_fitting else 1 :: 2]
    prints = [fingerprint_of(picture) for picture in dealt]
    together: list[Pairs] = []
    if for_fitting:
        start = len(prints)
        prints.extend(fingerprint_of(picture) for picture in second_tries(dealt))
        firsts = np.arange(start, len(prints), 2)
        together.append(Pairs("second tries", 0, firsts, firsts + 1, np.nan))
    clips = []
    for clip in (clip for clip in pool.CLIPS if clip.for_fitting == for_fitting):
        start = len(prints)
        prints.extend(fingerprint_of(frame) for frame in _first(pool.frames(clip), _MOST_FRAMES))
        clips.append(np.arange(start, len(prints)))
        together.extend(_frame_pairs(clip, clips[-1], _FITTED_APART if for_fitting else MEASURED_APART))
    return BurstData(pictures_of(prints), tuple(together), np.arange(len(dealt)), tuple(clips))


def _frame_pairs(clip: pool.Clip, places: Places, distances: Iterable[int]) -> Iterator[Pairs]:
    """Frames of one scene, so many apart, spread over the clip."""
    scene = np.array(pool.scenes(clip, len(places)))
    for apart in distances:
        first = np.flatnonzero(scene[:-apart] == scene[apart:])
        if len(first) > _MOST_PAIRS:
            first = first[np.linspace(0, len(first) - 1, _MOST_PAIRS).astype(int)]
        if len(first):
            yield Pairs(clip.name, apart, places[first], places[first + apart], apart / clip.frames_per_second)


def second_tries(photographs: Sequence[Image.Image]) -> Iterator[Image.Image]:
    """Two tries at one scene, one after the other, cut from one photograph: other framing, a little turned, in other
    light."""
    random = np.random.default_rng(2026)
    for picture in photographs:
        for _ in range(2 * _TRIES_PER_PHOTOGRAPH):
            turned = picture.rotate(random.uniform(*_TURN), Image.Resampling.BICUBIC)
            share = random.uniform(*_FRAMING)
            left, top = (random.uniform(0.05, 0.95 - share) * side for side in picture.size)
            box = (left, top, left + share * picture.width, top + share * picture.height)
            cut = turned.crop(tuple(round(edge) for edge in box))
            yield ImageEnhance.Brightness(cut).enhance(random.uniform(*_LIGHT))


def _first(pictures: Iterator[Image.Image], most: int) -> Iterator[Image.Image]:
    return (picture for picture, _ in zip(pictures, range(most), strict=False))
