"""Copies and bursts found among photos of made pictures."""

from dataclasses import replace

import imagehash
import numpy as np
import pytest
from PIL import Image, ImageOps

from indexer.alike.bits import distances
from indexer.alike.burst_score import burst_scores, cheap_score, gap_score
from indexer.alike.coefficients import BURST, COPY_BORDER, LONGEST_GAP
from indexer.alike.copy_score import copy_scores, turned_codes
from indexer.alike.likeness import likenesses, same_picture
from indexer.alike.signals import correlations, pictures_of
from indexer.alike.values import Likeness, Looked
from indexer.facts.fingerprint import fingerprint_of

NOON = 1_774_000_000.0


def scene(seed: int) -> Image.Image:
    """Large forms and fine ones, unlike those of any other seed."""
    random = np.random.default_rng(seed)
    canvas = np.zeros((300, 400, 3), np.float32)
    for cells, strength in ((3, 70), (9, 40), (30, 25)):
        grid = random.uniform(-1, 1, (cells, cells, 3)).astype(np.float32)
        for channel in range(3):
            layer = Image.fromarray(grid[:, :, channel]).resize((400, 300), Image.Resampling.BICUBIC)
            canvas[:, :, channel] += strength * np.asarray(layer)
    return Image.fromarray((canvas + 128).clip(0, 255).astype(np.uint8))


def looked(picture: Image.Image, key: str, moment: float | None = None, own: str | None = None) -> Looked:
    made = fingerprint_of(picture)
    return Looked(
        key, moment, moment is not None, own, "Skerry|S2" if own else "", *picture.size, "decode",
        made.phash, made.dhash, made.grey, made.layout, made.contrast,
    )  # fmt: skip


def moved(picture: Image.Image, by: int) -> Image.Image:
    """The same scene, the camera moved a little to the side."""
    return picture.crop((by, 0, picture.width - 40 + by, picture.height))


def kinds(photos: list[Looked]) -> dict[tuple[str, str], str]:
    return {(item.one, item.other): item.kind for item in likenesses(photos, {photo.key for photo in photos})}


CHANGES = {
    "halved": lambda picture: ImageOps.scale(picture, 0.5),
    "framed": lambda picture: ImageOps.expand(picture, 8, "white"),
    "cropped": lambda picture: picture.crop((10, 8, 390, 292)),
    "turned": lambda picture: picture.transpose(Image.Transpose.ROTATE_90),
}


@pytest.mark.parametrize("change", CHANGES)
def test_copies_are_found_without_any_time(change: str) -> None:
    """A changed copy is a copy, and other pictures are not."""
    photos = [looked(scene(seed), f"{seed}") for seed in range(20)]
    copy = looked(CHANGES[change](scene(7)), "changed")
    assert kinds([*photos, copy]) == {("7", "changed"): "copy"}


def test_two_shots_are_no_copies_of_each_other() -> None:
    """Where the camera wrote two times there were two shots, however alike."""
    one = looked(scene(1), "a", NOON, "2026-03-20T09:46:40")
    other = looked(scene(1), "b", NOON + 1, "2026-03-20T09:46:41")
    assert kinds([one, other]) == {("a", "b"): "burst"}
    assert kinds([one, replace(other, own_time=None, camera="")]) == {("a", "b"): "copy"}


def test_a_burst_is_near_in_time() -> None:
    """The same scene again is a burst at once, and another moment minutes later."""
    one = looked(moved(scene(2), 0), "a", NOON, "2026-03-20T09:46:40")
    later = looked(moved(scene(2), 30), "b", NOON + 2, "2026-03-20T09:46:42")
    assert kinds([one, later]) == {("a", "b"): "burst"}
    assert kinds([one, replace(later, moment=NOON + LONGEST_GAP + 1, own_time="2026-03-20T09:49:41")]) == {}


def test_one_second_of_one_camera_in_another_size_is_a_cut_copy() -> None:
    """No burst changes its size within a second."""
    one = looked(scene(3), "a", NOON, "2026-03-20T09:46:40")
    cut = looked(scene(3).crop((50, 30, 360, 280)), "b", NOON, "2026-03-20T09:46:40")
    assert kinds([one, cut]) == {("a", "b"): "copy"}


def test_flat_pictures_are_not_alike_because_they_are_flat() -> None:
    """Two grey pictures of one second have nothing in common."""
    grey = [looked(Image.new("RGB", (400, 300), (120, 120, shade)), f"{shade}", NOON) for shade in (118, 120, 122)]
    assert kinds(grey) == {}


def test_comparing_step_by_step_finds_the_same() -> None:
    """Only pairs with a fresh photo are given, and together they are all, in any order of the photos."""
    photos = [
        looked(moved(scene(number // 3), 10 * (number % 3)), f"{number:02}", NOON + number) for number in range(12)
    ]
    whole = likenesses(photos, {photo.key for photo in photos})
    pairs = {(item.one, item.other) for item in whole}
    assert len(pairs) == len(whole) >= 8
    stepwise: set[Likeness] = set()
    for count in range(1, len(photos) + 1):
        fresh = photos[count - 1].key
        found = likenesses(photos[:count][::-1], {fresh})
        assert all(fresh in (item.one, item.other) for item in found)
        stepwise.update(found)
    assert {(item.one, item.other, item.kind) for item in stepwise} == {(i.one, i.other, i.kind) for i in whole}


def test_a_bound_replaces_the_dear_signals_only_below_the_border() -> None:
    """Whoever is above 0 has the score that all the signals give."""
    shots = pictures_of([fingerprint_of(moved(scene(seed), by)) for seed in range(6) for by in (0, 20)])
    one, other = np.triu_indices(12, 1)
    gaps = np.full(len(one), 5, np.float32)
    a, b = shots.rows(one), shots.rows(other)
    there, back = correlations(a.grey, b.grey), correlations(b.grey, a.grey)
    full = cheap_score(a, b) + gap_score(gaps) + BURST.shifted * np.maximum(there[0], back[0])
    full += BURST.moved * (there[1] + back[1]) / 2
    scores = burst_scores(a, b, gaps)
    assert np.array_equal(scores > 0, full > 0)
    assert np.allclose(scores[scores > 0], full[full > 0], atol=1e-3)
    assert (scores > 0).sum() == 6


def test_time_speaks_less_the_longer_the_gap() -> None:
    """The same second speaks loudest, and less than a second says no more."""
    said = gap_score(np.array([0, 1, 5, 30, 180], np.float32))
    assert said[0] == said[1] > said[2] > said[3] == 0 > said[4]


def test_turned_hashes_are_those_of_the_turned_picture() -> None:
    """The hashes of turned pictures need no turned pictures; imagehash takes them of the same within 4 bits."""
    pictures = [scene(seed) for seed in range(10)]
    codes = turned_codes(pictures_of([fingerprint_of(picture) for picture in pictures]).grey)
    for quarters in (1, 2, 3):
        turned = [fingerprint_of(picture.rotate(90 * quarters, expand=True)) for picture in pictures]
        assert distances(codes[:, quarters - 1], pictures_of(turned).phash).max() <= 4
    assert imagehash.phash(pictures[0]).hash.size == 64


def test_the_fine_structure_of_strangers_does_not_correlate() -> None:
    """Strangers stay far below the border; an edit in place is the same picture."""
    shots = pictures_of([fingerprint_of(scene(seed)) for seed in range(12)])
    one, other = np.triu_indices(12, 1)
    assert copy_scores(shots.grey[one], shots.grey[other]).max() < COPY_BORDER - 0.2
    assert same_picture(looked(scene(5), "a"), looked(ImageOps.scale(scene(5), 0.7), "b"))
    assert not same_picture(looked(scene(5), "a"), looked(scene(6), "b"))
