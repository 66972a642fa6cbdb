"""The score of a burst: what is left out for speed changes no answer, and time speaks as it should."""

from itertools import pairwise

import numpy as np
import pytest
from PIL import Image

from indexer.alike.burst_score import SLACK, both_ways, burst_scores, cheap_score, gap_score
from indexer.alike.coefficients import BURST, LOG_ODDS_PER_DOUBLING, NEUTRAL_GAP
from indexer.alike.signals import REACH, Floats, Pictures
from tests.indexer.alike.looks import moved, pictures, scene


def night(seed: int) -> Image.Image:
    """A scene in dark blue: nothing that a daylight scene has in common with it."""
    return moved(seed, 0).convert("RGB", matrix=(0.1, 0, 0, 0, 0, 0.1, 0, 0, 0, 0, 0.6, 0))


#: Scenes from cameras turned aside by ever more, and others by night: pairs of every likeness are among them.
ALL = pictures(
    *(moved(seed, share) for seed in range(3) for share in (0, 0.05, 0.12, 0.25, 0.45)), *map(night, range(3, 6))
)
ONE, OTHER = np.triu_indices(len(ALL.phash), 1)
GAPS = np.random.default_rng(1).choice([0, 1, 4, 30, 179], len(ONE)).astype(np.float32)


def grainy(image: Image.Image, seed: int) -> Image.Image:
    """The same picture with other grain, as a camera that stands still takes it."""
    grain = np.random.default_rng(seed).normal(0, 3, (image.height, image.width, 1))
    return Image.fromarray((np.asarray(image) + grain).clip(0, 255).astype(np.uint8))


def in_full(one: Pictures, other: Pictures, gaps: Floats) -> Floats:
    shifted, moved_ = both_ways(one.grey, other.grey)
    return cheap_score(one, other) + gap_score(gaps) + BURST.shifted * shifted + BURST.moved * moved_


def test_early_rejection_is_exact() -> None:
    """What is above 0 is the same, and scored the same or a little lower, as when everything is computed."""
    one, other = ALL.rows(ONE), ALL.rows(OTHER)
    scores, full = burst_scores(one, other, GAPS), in_full(one, other, GAPS)
    rejected, unshifted = scores > full + 0.01, scores < full - 1e-4
    assert rejected.sum() > 10
    assert ((scores > 0) == (full > 0)).all()
    assert (scores[rejected] <= 0).all()
    assert (scores[unshifted] > np.maximum(full[unshifted] - SLACK, 0)).all()
    assert ((scores > 0) & ~unshifted).sum() > 10
    assert ((scores <= 0) & ~rejected).sum() > 10


def test_pictures_that_hardly_differ_are_found_as_when_they_are_shifted() -> None:
    """As the frames of a time-lapse: above the border alike, at any gap, and scored at most a little lower."""
    frames = [grainy(scene(seed), seed * 10 + number) for seed in range(3) for number in range(4)]
    still, (first, second) = pictures(*frames), np.triu_indices(len(frames), 1)
    one, other = still.rows(first), still.rows(second)
    for gap in (1, 40, 180):
        gaps = np.full(len(first), gap, np.float32)
        scores, full = burst_scores(one, other, gaps), in_full(one, other, gaps)
        assert np.array_equal(scores > 0, full > 0)
        assert (scores > 0).sum() == 3 * 6
        lower = full[scores > 0] - scores[scores > 0]
        assert (lower > -1e-4).all()
        assert (lower <= SLACK).all()


def test_pictures_that_hardly_differ_are_not_shifted(monkeypatch: pytest.MonkeyPatch) -> None:
    """Which is what makes a time-lapse cheap; a camera that was turned needs it."""
    asked: list[tuple[int, int]] = []

    def counted(one: np.ndarray, other: np.ndarray, reach: int) -> tuple[Floats, Floats]:
        asked.append((reach, len(one)))
        return both_ways(one, other, reach)

    monkeypatch.setattr("indexer.alike.burst_score.both_ways", counted)
    lapse = pictures(*(grainy(scene(1), number) for number in range(9)))
    pairs = np.triu_indices(9, 1)
    burst_scores(lapse.rows(pairs[0]), lapse.rows(pairs[1]), np.ones(36, np.float32))
    assert asked == [(0, 36)]
    turned = pictures(moved(1, 0), moved(1, 0.1))
    burst_scores(turned.rows(np.array([0])), turned.rows(np.array([1])), np.ones(1, np.float32))
    assert asked[1:] == [(0, 1), (REACH, 1)]


def test_scores_are_the_same_both_ways() -> None:
    """Neither of the two is the first."""
    one, other = ALL.rows(ONE), ALL.rows(OTHER)
    assert np.array_equal(burst_scores(one, other, GAPS), burst_scores(other, one, GAPS))


def test_one_scene_is_above_the_border_and_strangers_are_below() -> None:
    """Seconds apart, from a camera that was turned a little; strangers in the same second."""
    one, other = (pictures(*(moved(seed, share) for seed in range(8))) for share in (0, 0.08))
    assert burst_scores(one, other, np.full(8, 2, np.float32)).min() > 2
    apart = pictures(*map(scene, range(8)))
    first, second = np.triu_indices(8, 1)
    assert burst_scores(apart.rows(first), apart.rows(second), np.zeros(28, np.float32)).max() < 0


def test_time_speaks_less_and_less_for_a_burst() -> None:
    """By the same for every doubling, not at all at the neutral gap, and below a second no more than at one."""
    gaps = NEUTRAL_GAP * 2.0 ** np.arange(-4, 4)
    said = gap_score(gaps)
    assert np.allclose(np.diff(said), -LOG_ODDS_PER_DOUBLING)
    assert said[4] == 0
    assert gap_score(np.array([0, 0.3, 1], np.float32)).std() == 0


def test_a_longer_gap_never_raises_a_score() -> None:
    """Whether or not the pair was rejected early."""
    one, other = ALL.rows(ONE), ALL.rows(OTHER)
    scores = [burst_scores(one, other, np.full(len(ONE), gap, np.float32)) > 0 for gap in (1, 10, 60, 180)]
    for sooner, later in pairwise(scores):
        assert (sooner >= later).all()
    assert scores[0].sum() > scores[-1].sum()


def test_no_distance_speaks_for_a_burst_and_no_correlation_against() -> None:
    """Early rejection rests on it, whatever a new fitting prints."""
    assert max(BURST.phash, BURST.dhash, BURST.layout, BURST.colour) <= 0
    assert min(BURST.shifted, BURST.moved) >= 0


def test_no_pairs_are_no_scores() -> None:
    """An empty list gives none."""
    none = ALL.rows(np.empty(0, np.int64))
    assert burst_scores(none, none, np.empty(0, np.float32)).shape == (0,)
