"""Something laid on a picture leaves the rest as it was; another shot or another picture does not."""

import numpy as np
import pytest
from PIL import Image, ImageDraw

from indexer.alike.coefficients import COPY_BORDER, MARKED_PARTS, MARKED_SCORE, SAME_SECOND_BORDER
from indexer.alike.copy_score import copy_scores
from indexer.alike.mark_score import mark_scores
from tests.indexer.alike.looks import brightened, grey, moved, scene

SCENES = [scene(seed) for seed in range(20)]
GREY = grey(*SCENES)


def marked(image: Image.Image, seed: int) -> Image.Image:
    """With a ring laid over it, through which it can be seen."""
    random = np.random.default_rng(seed)
    x, y = random.uniform(0.3, 0.7, 2) * image.size
    reach = 0.22 * image.height
    layer = Image.new("RGBA", image.size)
    ring = (x - reach, y - reach, x + reach, y + reach)
    ImageDraw.Draw(layer).ellipse(ring, outline=(20, 90, 150, 170), width=16)
    return Image.alpha_composite(image.convert("RGBA"), layer).convert("RGB")


def test_a_marked_picture_is_a_copy() -> None:
    """Also where the whole of it correlates too little for one; and then never by the border for one second."""
    copies = grey(*(marked(image, seed) for seed, image in enumerate(SCENES)))
    assert mark_scores(GREY, copies).min() > MARKED_PARTS
    scores = copy_scores(GREY, copies)
    assert scores.min() >= COPY_BORDER
    assert np.count_nonzero(scores == np.float32(MARKED_SCORE)) >= 5
    assert MARKED_SCORE < SAME_SECOND_BORDER
    assert np.array_equal(scores, copy_scores(copies, GREY))


def test_brightness_does_not_matter() -> None:
    """The parts are correlated, not compared."""
    copies = grey(*(brightened(marked(image, seed)) for seed, image in enumerate(SCENES)))
    assert mark_scores(GREY, copies).min() > MARKED_PARTS


def test_strangers_have_no_part_in_common() -> None:
    """Nor has the scene from a camera turned aside by a twentieth."""
    one, other = np.triu_indices(len(GREY), 1)
    assert mark_scores(GREY[one], GREY[other]).max() < 0.3
    aside = [grey(*(moved(seed, share) for seed in range(10))) for share in (0, 0.05)]
    assert mark_scores(*aside).max() < MARKED_PARTS


def test_a_strip_in_common_makes_no_copy() -> None:
    """Strangers under one strip of fine structure, as pictures of one screen; even if it holds most of the texture."""
    random = np.random.default_rng(8)
    for strength in (5, 20, 80):
        shared = GREY.copy()
        shared[:, :10] = 128 + random.integers(-strength, strength + 1, (10, 64))
        assert copy_scores(shared[:10], shared[10:]).max() < COPY_BORDER


@pytest.mark.parametrize("value", [0, 77, 255])
def test_flat_pictures_have_nothing_in_common(value: int) -> None:
    """Neither with themselves nor with another; and no pair gives no score."""
    flat = np.full((1, 64, 64), value, np.uint8)
    assert mark_scores(flat, flat)[0] == 0
    assert abs(mark_scores(flat, GREY[:1])[0]) < 0.1
    assert mark_scores(GREY[:0], GREY[:0]).shape == (0,)


def test_a_picture_is_itself() -> None:
    """Its own score is nearly 1, and no pair hangs on its neighbours."""
    scores = mark_scores(GREY, GREY)
    assert scores.min() > 0.96
    assert scores.max() <= 1
    alone = [float(mark_scores(GREY[at : at + 1], GREY[::-1][at : at + 1])[0]) for at in range(20)]
    assert np.allclose(mark_scores(GREY, GREY[::-1]), alone, atol=1e-6)
