"""Copies correlate in their fine structure, and hashes of cut and turned pictures are near those of their copies."""

import io
from collections.abc import Callable

import imagehash
import numpy as np
import pytest
from PIL import Image

from indexer.alike.bits import Codes, codes_of, distances
from indexer.alike.coefficients import COPY_BORDER, SAME_SECOND_BORDER
from indexer.alike.copy_score import copy_scores, turned_codes, window_codes
from indexer.facts.fingerprint import packed
from tests.indexer.alike.looks import brightened, cut, framed, grey, moved, scene
from tests.indexer.facts.scenes import as_jpeg

SCENES = [scene(seed) for seed in range(20)]
GREY = grey(*SCENES)
TURNS = (Image.Transpose.ROTATE_90, Image.Transpose.ROTATE_180, Image.Transpose.ROTATE_270)


def resaved(image: Image.Image) -> Image.Image:
    return Image.open(io.BytesIO(as_jpeg(image, quality=50))).convert("RGB")


def hashes(images: list[Image.Image]) -> Codes:
    return codes_of([packed(imagehash.phash(image)) for image in images])


def part(image: Image.Image, left: float, right: float, top: float, bottom: float) -> Image.Image:
    """Without those shares of its sides."""
    width, height = image.size
    box = (width * left, height * top, width * (1 - right), height * (1 - bottom))
    return image.crop(tuple(map(round, box)))


@pytest.mark.parametrize(
    ("change", "border"),
    [
        (resaved, SAME_SECOND_BORDER),
        (lambda image: image.resize((160, 120)), SAME_SECOND_BORDER),
        (brightened, SAME_SECOND_BORDER),
        (lambda image: cut(image, 0.05), COPY_BORDER),
        (lambda image: part(image, 0.05, 0, 0, 0), COPY_BORDER),
        (lambda image: part(image, 0, 0.04, 0.04, 0), COPY_BORDER),
        (lambda image: framed(image, 0.02), COPY_BORDER),
    ],
    ids=["re-saved", "smaller", "brightened", "cut", "cut at one side", "cut at a corner", "framed"],
)
def test_a_copy_is_above_the_border(change: Callable[[Image.Image], Image.Image], border: float) -> None:
    """Whichever of the two is the copy; what only an editor's saving did, by the higher border too."""
    copies = grey(*map(change, SCENES))
    scores = copy_scores(GREY, copies)
    assert scores.min() > border
    assert scores.max() <= 1
    assert np.array_equal(scores, copy_scores(copies, GREY))


def test_strangers_are_far_below() -> None:
    """And so is one scene from a camera turned aside, and a negative."""
    one, other = np.triu_indices(len(GREY), 1)
    assert copy_scores(GREY[one], GREY[other]).max() < 0.5
    aside = [grey(*(moved(seed, share) for seed in range(6))) for share in (0, 0.1)]
    assert copy_scores(*aside).max() < 0.8
    assert copy_scores(GREY, 255 - GREY).max() < 0.5


def test_light_and_dark_shared_by_strangers_makes_no_copy() -> None:
    """Two textures under one strong gradient, as two beaches under one sky."""
    random = np.random.default_rng(2)
    sky = np.linspace(40, 215, 64)[:, None]
    one, other = ((sky + random.normal(0, 12, (1, 64, 64))).clip(0, 255).astype(np.uint8) for _ in range(2))
    assert np.corrcoef(one.ravel(), other.ravel())[0, 1] > 0.9
    assert copy_scores(one, other) < 0.5


def test_flat_pictures_are_no_copies() -> None:
    """Not even of themselves: nothing is there to correlate."""
    flat = np.full((1, 64, 64), 77, np.uint8)
    assert copy_scores(flat, flat) < 0.1
    assert copy_scores(flat, GREY[:1]) < 0.1


def test_scores_do_not_hang_on_their_neighbours() -> None:
    """Twenty pairs at once score as one by one, and no pair gives no score."""
    copies = GREY[::-1]
    alone = [float(copy_scores(GREY[place : place + 1], copies[place : place + 1])[0]) for place in range(20)]
    assert np.allclose(copy_scores(GREY, copies), alone, atol=1e-6)
    assert copy_scores(GREY[:0], GREY[:0]).shape == (0,)


def test_turned_codes_are_near_the_hashes_of_turned_pictures() -> None:
    """By 90, 180 and 270 degrees, against the sun."""
    codes = turned_codes(GREY)
    for column, turn in enumerate(TURNS):
        assert distances(codes[:, column], hashes([image.transpose(turn) for image in SCENES])).max() <= 4


def test_window_codes_are_near_the_hashes_of_cut_pictures() -> None:
    """Cut a little and more at all sides, then left, right, at the top and at the bottom."""
    little, more = 0.0225, 0.045
    sides = [(little,) * 4, (more,) * 4, *(tuple(more * (at == side) for at in range(4)) for side in range(4))]
    codes = window_codes(GREY)
    assert codes.shape == (20, len(sides))
    for column, shares in enumerate(sides):
        assert distances(codes[:, column], hashes([part(image, *shares) for image in SCENES])).max() <= 4
