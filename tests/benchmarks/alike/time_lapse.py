"""What very many photos alike cost to compare, and whether a scene of two cameras is told from strangers.

    python -m tests.benchmarks.alike.time_lapse [COUNT]

A camera that stands still for so many seconds (2,000 unless told): made frames with grain of their own, in changing
light, something small moving through. And the same picture as often, of one second, as scripts and test data have it.
And a camera that turns slowly, a frame every five seconds, whose frames are uncertain: what looking twice at them costs
besides decoding them once more.
Then the pairs that are laid over each other to see whether two cameras saw one scene: of strangers among the real
photographs, and of second tries cut from them.
"""

import sys
from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from time import process_time

import numpy as np
from PIL import Image

from indexer.alike.bits import distances
from indexer.alike.burst_score import burst_scores
from indexer.alike.coefficients import NEUTRAL_GAP, SCENE_BORDER, SCENE_RADIUS
from indexer.alike.doubts import doubts_among, look_alikes
from indexer.alike.likeness import likenesses
from indexer.alike.values import Looked
from indexer.comparing_closely import differences
from indexer.facts.close_looks import CloseLook, close_look_of
from tests.benchmarks.alike.burst_pairs import BurstData, Places, burst_data
from tests.indexer.alike.looks import looked, scene
from tests.real_photos import pool

_CAMERA = "Harbour|One"
_START = datetime(2026, 3, 30, 9)  # noqa: DTZ001 - a wall clock has no zone


def frames(count: int) -> Iterator[Looked]:
    """A time-lapse, a frame a second."""
    base, random = np.asarray(scene(1), np.float32), np.random.default_rng(1)
    for number in range(count):
        frame = base * (1 + 0.1 * np.sin(number / 300)) + random.normal(0, 4, (*base.shape[:2], 1))
        left = number // 2 % 280
        frame[100:130, left : left + 30] = 200
        own = (_START + timedelta(seconds=number)).isoformat()
        picture = Image.fromarray(frame.clip(0, 255).astype(np.uint8))
        yield looked(f"{number:06}", picture, float(number), own_time=own, camera=_CAMERA)


def same(count: int) -> Iterator[Looked]:
    """One picture again and again, of one second."""
    for number in range(count):
        yield looked(f"{number:06}", scene(7, 64, 64), 0.0, own_time=_START.isoformat(), camera=_CAMERA)


def turning(count: int) -> Iterator[tuple[Looked, CloseLook]]:
    """A camera that turns by a fiftieth of the picture every five seconds, through a scene that begins anew."""
    wide, random = np.asarray(scene(1, 3200, 240), np.float32), np.random.default_rng(1)
    for number in range(count):
        left = number * 6 % (wide.shape[1] - 320)
        frame = wide[:, left : left + 320] + random.normal(0, 4, (240, 320, 1))
        picture = Image.fromarray(frame.clip(0, 255).astype(np.uint8))
        own = (_START + timedelta(seconds=5 * number)).isoformat()
        yield looked(f"{number:06}", picture, 5.0 * number, own_time=own, camera=_CAMERA), close_look_of(picture)


def seconds_of_doubts(photos: list[Looked], looks: Mapping[str, CloseLook]) -> tuple[float, int, int, int]:
    """(processor seconds of laying them over each other, bursts, pairs in doubt and laid so, pairs found apart)."""
    found = [link for link in likenesses(photos, {photo.key for photo in photos}) if link.kind == "burst"]
    doubts = doubts_among(found, {photo.key: photo for photo in photos})
    differ, laid = differences(looks), 0

    def counted(one: str, other: str) -> float | None:
        nonlocal laid
        laid += 1
        return differ(one, other)

    started = process_time()
    apart = sum(1 for doubt in doubts for _ in look_alikes(doubt, counted))
    return process_time() - started, len(found), laid, apart


def seconds(photos: list[Looked]) -> tuple[float, int]:
    """(processor seconds of comparing all of them, likenesses found)."""
    started = process_time()
    found = likenesses(photos, {photo.key for photo in photos})
    return process_time() - started, len(found)


def taken_for_scenes(data: BurstData, one: Places, other: Places) -> tuple[int, int]:
    """(pairs near by hash, those of them that count as one scene)."""
    near = distances(data.pictures.phash[one], data.pictures.phash[other]) <= SCENE_RADIUS
    pictures = data.pictures.rows(one[near]), data.pictures.rows(other[near])
    scores = burst_scores(*pictures, np.full(len(pictures[0].phash), NEUTRAL_GAP, np.float32))
    return int(near.sum()), int((scores >= SCENE_BORDER).sum())


def lines(count: int) -> Iterator[str]:
    """The figures, ready to print."""
    for name, photos in (("frames of a time-lapse", frames(count)), ("times the same picture", same(count))):
        taken, found = seconds(list(photos))
        yield f"{count:,} {name}: compared in {taken:.1f} s of the processor, {found:,} likenesses"
    turned = list(turning(count))
    taken, found, laid, apart = seconds_of_doubts(
        [photo for photo, _ in turned], {photo.key: look for photo, look in turned}
    )
    yield (
        f"{count:,} frames of a camera that turns: {found:,} likenesses, of which {laid:,} were laid over each other in"
        f" {taken:.1f} s of the processor and {apart:,} found apart"
    )
    photographs = pool.strangers()
    for for_fitting in (False, True):
        data = burst_data(for_fitting=for_fitting, photographs=photographs)
        pairs = [("strangers", *data.strangers()), *((p.name, p.one, p.other) for p in data.together if not p.apart)]
        for name, one, other in pairs:
            near, taken_for = taken_for_scenes(data, one, other)
            yield f"{len(one):,} pairs of {name}: {near:,} near by hash, {taken_for:,} taken for one scene"


if __name__ == "__main__":
    for line in lines(int(sys.argv[1]) if len(sys.argv) > 1 else 2000):
        print(line, flush=True)
