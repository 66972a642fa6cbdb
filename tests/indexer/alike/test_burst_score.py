"""The score of a burst: what is left out for speed changes no answer, and time speaks as it should."""

from itertools import pairwise

import numpy as np
from PIL import Image

from indexer.alike.burst_score import both_ways, burst_scores, cheap_score, gap_score
from indexer.alike.coefficients import BURST, LOG_ODDS_PER_DOUBLING, NEUTRAL_GAP
from indexer.alike.signals import Floats, Pictures
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


def in_full(one: Pictures, other: Pictures, gaps: Floats) -> Floats:
    shifted, moved_ = both_ways(one.grey, other.grey)
    return cheap_score(one, other) + gap_score(gaps) + BURST.shifted * shifted + BURST.moved * moved_


def test_early_rejection_is_exact() -> None:
    """What is above 0 is the same, and scored the same, as when everything is computed."""
    one, other = ALL.rows(ONE), ALL.rows(OTHER)
    scores, full = burst_scores(one, other, GAPS), in_full(one, other, GAPS)
    rejected = scores > full + 0.01
    assert rejected.sum() > 10
    assert ((scores > 0) == (full > 0)).all()
    assert (scores[rejected] <= 0).all()
    assert np.allclose(scores[~rejected], full[~rejected], atol=1e-4)
    assert (scores > 0).sum() > 10
    assert ((scores <= 0) & ~rejected).sum() > 10


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
