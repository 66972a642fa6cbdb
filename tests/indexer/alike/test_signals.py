"""The weak signals: colours by place and without it, and correlations of parts."""

import numpy as np

from indexer.alike.signals import (
    colour_distance,
    correlation_volume,
    correlations,
    layout_distance,
    pictures_of,
)
from indexer.facts.fingerprint import Fingerprint
from tests.indexer.alike.looks import grey, moved, scene

SCENES = grey(*map(scene, range(8)))
ONE, OTHER = np.triu_indices(len(SCENES), 1)
FLAT = np.full((1, 64, 64), 77, np.uint8)
#: Three cells of the 32: well within reach.
ASIDE = 3 / 32


def layout(lightness: float = 50, a: float = 0, b: float = 0) -> np.ndarray:
    return np.tile(np.array([lightness, a, b], np.float32), (1, 8, 8, 1))


def spotted(column: int) -> np.ndarray:
    """Grey, but for one cell that is 32 lighter."""
    cells = layout()
    cells[0, 3, column, 0] += 32
    return cells


def random_layouts(seed: int) -> np.ndarray:
    return np.random.default_rng(seed).uniform(-60, 60, (5, 8, 8, 3)).astype(np.float32)


def test_fingerprints_are_read_as_they_are_kept() -> None:
    """Lightness by its scale, colours by their offset, hashes and rows in order."""
    row = bytes(range(64))
    kept = Fingerprint(bytes(7) + b"\x03", b"\x80" + bytes(7), row + bytes(63 * 64), bytes([255, 118, 130]) * 64, 10)
    (phash,), (dhash,), (grey_,), (cells,) = (getattr(pictures_of([kept]), name) for name in kept.__slots__[:4])
    assert (phash, dhash) == (3, 1 << 63)
    assert grey_[0].tobytes() == row
    assert np.allclose(cells, [100, -10, 2])


def test_distances_of_even_pictures_by_hand() -> None:
    """3 in lightness and 4 in a: 5 apart in CIELAB, and 7 / 3 in the mean of the three."""
    one, other = layout(50, 0), layout(53, 4)
    assert np.allclose(layout_distance(one, other), 5)
    assert np.allclose(colour_distance(one, other), 7 / 3)


def test_a_layout_may_move_by_one_cell_and_colours_anywhere() -> None:
    """Two cells off, the spot finds no counterpart either way: 32 / 64."""
    assert layout_distance(spotted(3), spotted(4)) == 0
    assert np.allclose(layout_distance(spotted(3), spotted(5)), 0.5)
    assert colour_distance(spotted(0), spotted(7)) == 0


def test_distances_are_nothing_to_itself_and_the_same_both_ways() -> None:
    """And something between strangers."""
    one, other = random_layouts(1), random_layouts(2)
    for distance in (layout_distance, colour_distance):
        assert not distance(one, one).any()
        assert (distance(one, other) > 1).all()
        assert np.array_equal(distance(one, other), distance(other, one))


def test_a_picture_correlates_with_itself_and_strangers_hardly() -> None:
    """Shifted as a whole or moved in parts."""
    for same, strange in zip(correlations(SCENES, SCENES), correlations(SCENES[ONE], SCENES[OTHER]), strict=True):
        assert same.min() > 0.9
        assert strange.max() < 0.6


def test_a_shifted_picture_is_found_within_reach_only() -> None:
    """Three cells aside are found by looking three cells around, not by looking on the spot."""
    one, other = (grey(*(moved(seed, share) for seed in range(6))) for share in (0, ASIDE))
    assert correlations(one, other, 3)[0].min() > 0.9
    assert correlations(one, other)[1].min() > 0.75
    assert max(found.max() for found in correlations(one, other, 0)) < 0.65


def test_the_best_shift_is_the_one_that_was_made() -> None:
    """What the camera turned away from lies three cells to the left, and no cell up or down."""
    volume, weights = correlation_volume(grey(moved(1, 0)), grey(moved(1, ASIDE)))
    assert volume.shape == (1, 11 * 11, 7, 7)
    assert weights.shape == (1, 7, 7)
    inner = volume[0, :, 2:5, 2:5].mean((1, 2))  # these parts stay inside at every shift
    assert divmod(int(inner.argmax()), 11) == (5, 5 - 3)


def test_flat_pictures_correlate_with_nothing() -> None:
    """Neither with themselves nor with a scene; faint noise does not correlate with other noise."""
    noise = np.random.default_rng(3).normal(77, 1, (2, 64, 64)).round().astype(np.uint8)
    for one, other in ((FLAT, FLAT), (FLAT, SCENES[:1]), (SCENES[:1], FLAT), (noise[:1], noise[1:])):
        assert max(np.abs(found).max() for found in correlations(one, other)) < 0.05


def test_correlations_stay_in_their_range() -> None:
    """For the hardest contrasts too; a negative is the opposite of its picture."""
    hard = np.random.default_rng(4).integers(0, 2, (6, 16, 16), np.uint8).repeat(4, 1).repeat(4, 2) * 255
    for other in (hard, 255 - hard, hard[::-1]):
        assert all((np.abs(found) <= 1.0001).all() for found in correlations(hard, other))
    assert correlations(hard, 255 - hard, 0)[0].max() < -0.95
