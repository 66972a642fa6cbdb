"""Photographs, pictures of text, and pictures of nothing are told apart."""

import numpy as np
import pytest

from indexer.facts.subjects import is_blank, may_be_text, subject_of
from tests.indexer.facts.made_text import KINDS, text_picture
from tests.indexer.facts.scenes import scene, small


def grey(image, longer=320):
    return np.asarray(image.convert("L").reduce(max(max(image.size) // longer, 1)))


@pytest.mark.parametrize("kind", KINDS)
def test_pictures_of_text_are_found(kind):
    """Pages, notes, receipts and chats: most of those made here; of dark chats, at least half."""
    found = [subject_of(grey(text_picture(kind, seed))) for seed in range(12)]
    assert found.count("text") >= (6 if kind == "dark chat" else 10)


@pytest.mark.parametrize("kind", KINDS)
def test_a_thumbnail_does_not_rule_text_out(kind):
    """What is found in the picture is suspected in its thumbnail, so that the picture is decoded."""
    for seed in range(12):
        picture = text_picture(kind, seed)
        if subject_of(grey(picture)) == "text":
            assert may_be_text(np.asarray(small(picture).convert("L")))


def test_scenes_are_photographs():
    """Busy or soft, light or dark, noisy or not."""
    random = np.random.default_rng(2)
    for seed in range(20):
        values = np.asarray(scene(640, 480, seed).convert("L")).astype(float)
        for changed in (values, values * 0.2, values * 0.4 + 150, values + random.normal(0, 12, values.shape)):
            assert subject_of(changed.clip(0, 255).astype(np.uint8)[::2, ::2]) == "photograph"


@pytest.mark.parametrize(
    "values",
    [
        np.zeros((240, 320)),
        np.full((240, 320), 255),
        np.full((240, 320), 131),
        np.random.default_rng(1).normal(6, 3, (240, 320)),  # the inside of a pocket, with noise
        np.random.default_rng(1).normal(120, 2, (240, 320)),  # a wall, or a hand
        np.pad(np.full((20, 30), 200), ((0, 220), (0, 290))),  # a light leaking in at a corner
    ],
)
def test_pictures_of_nothing_are_blank(values):
    """Flat, black, white."""
    assert subject_of(values.clip(0, 255).astype(np.uint8)) == "blank"


@pytest.mark.parametrize(
    "values",
    [
        np.pad(np.full((60, 60), 200), ((90, 90), (130, 130))),  # the moon
        np.tile(np.linspace(90, 110, 320), (240, 1)),  # fog
    ],
)
def test_dark_and_soft_pictures_are_not_blank(values):
    """A moon in the night, and fog, are photographs."""
    assert not is_blank(values.astype(np.uint8))
    assert subject_of(values.astype(np.uint8)) == "photograph"


@pytest.mark.parametrize("size", [(1, 1), (16, 16), (7, 900), (39, 47)])
def test_little_pictures_are_judged_without_harm(size):
    """Too few cells are no text."""
    luma = np.asarray(scene(*size).convert("L"))
    assert subject_of(luma) in ("photograph", "blank")
    assert not may_be_text(luma)
