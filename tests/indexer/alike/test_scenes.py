"""Scenes that two cameras saw: found by pictures alone, never made of what is alike for another reason."""

import random
from dataclasses import replace
from datetime import datetime, timedelta

import numpy as np
import pytest

from indexer.alike.coefficients import LONGEST_GAP, MOST_SCENES, SCENE_BORDER
from indexer.alike.likeness import likenesses
from indexer.alike.scenes import scenes
from indexer.alike.signals import pictures_of
from indexer.alike.values import Looked
from tests.indexer.alike.looks import brightened, looked, moved, scene

YEAR = 365 * 86400.0
ONE, TWO = "Harbour|One", "Quay|Two"


def own_time(second: float) -> str:
    """What a camera writes so many seconds into 1970."""
    return (datetime(1970, 1, 1) + timedelta(seconds=second)).isoformat()  # noqa: DTZ001 - a wall clock


def found(*photos: Looked) -> list[tuple[str, str]]:
    """The scenes among all likenesses."""
    all_found = likenesses(photos, {photo.key for photo in photos})
    return sorted((one.one, one.other) for one in all_found if one.kind == "scene")


def shot(key: str, seed: int, share: float = 0, second: float = 0, camera: str = ONE) -> Looked:
    """A photo of a scene, with a time of its camera's own."""
    return looked(key, moved(seed, share), second, own_time=own_time(second), camera=camera)


def test_a_scene_of_two_cameras_is_found_however_far_apart() -> None:
    """By their clocks a year lies between, or nothing is known of one."""
    first = shot("a", 1)
    for moment in (YEAR, -YEAR, LONGEST_GAP + 1, None):
        other = replace(shot("b", 1, 0.03, YEAR, TWO), moment=moment)
        assert found(first, other) == [("a", "b")]
        assert found(other, first) == [("a", "b")]


def test_the_score_is_that_of_the_pictures_alone() -> None:
    """Whatever time lies between."""
    first = shot("a", 1)
    scores = {
        one.score
        for second in (200, YEAR)
        for one in likenesses([first, shot("b", 1, 0.03, second, TWO)], {"a"})
        if one.kind == "scene"
    }
    assert len(scores) == 1
    assert scores.pop() >= SCENE_BORDER


def test_one_camera_or_none_tells_of_no_other_clock() -> None:
    """The same place again is another day."""
    first = shot("a", 1)
    assert found(first, shot("b", 1, 0.03, YEAR)) == []
    assert found(first, shot("b", 1, 0.03, YEAR, "")) == []
    assert found(replace(first, camera=""), shot("b", 1, 0.03, YEAR, "")) == []


def test_what_is_a_copy_or_a_burst_is_no_scene_besides() -> None:
    """A copy tells the same shot, and cameras that agree made a burst."""
    first = shot("a", 1)
    copy = looked("b", brightened(moved(1, 0)), YEAR, camera=TWO)
    assert [one.kind for one in likenesses([first, copy], {"a"})] == ["copy"]
    near = shot("b", 1, 0.03, LONGEST_GAP, TWO)
    assert [one.kind for one in likenesses([first, near], {"a"})] == ["burst"]


def test_strangers_are_no_scene() -> None:
    """However many cameras there are."""
    photos = [
        looked(f"{seed:02}", scene(seed), seed * YEAR, own_time=own_time(seed * YEAR), camera=f"{seed % 4}")
        for seed in range(40)
    ]
    assert found(*photos) == []


@pytest.mark.parametrize("seed", range(3))
def test_photos_that_come_one_after_the_other_give_the_same_scenes(seed: int) -> None:
    """Each pair once, whichever camera's photo comes last."""
    photos = [
        shot(f"{number:02}", number // 3, 0.02 * (number % 3), number * 1000.0, (ONE, TWO, "Pier|Three")[number % 3])
        for number in range(12)
    ]
    whole = found(*photos)
    assert len(whole) == len(set(whole)) == 12
    arriving = random.Random(seed).sample(photos, len(photos))
    stepwise = [
        (one.one, one.other)
        for count in range(2, len(arriving) + 1, 2)
        for one in likenesses(arriving[:count], {photo.key for photo in arriving[count - 2 : count]})
        if one.kind == "scene"
    ]
    assert sorted(stepwise) == whole


def test_two_time_lapses_do_not_cost_their_square() -> None:
    """Each photo is held against so many of the other camera's, the nearest."""
    count = 3 * MOST_SCENES
    base = looked("x", scene(1), 0)
    photos = [
        replace(
            base, key=f"{camera}{number:03}", camera=camera, moment=number + apart, own_time=own_time(number + apart)
        )
        for camera, apart in ((ONE, 0.0), (TWO, YEAR))
        for number in range(count)
        for second in (number + apart,)
    ]
    pairs = list(scenes(photos, pictures_of(photos), np.ones(len(photos), bool)))
    assert len(pairs) == count * MOST_SCENES
    assert {one for one, _, _ in pairs} == set(range(count))
