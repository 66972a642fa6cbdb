"""Which photos are found alike: made pictures in, likenesses out."""

import random
from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest
from PIL import Image

from indexer.alike.coefficients import FLAT, LONGEST_GAP, MOST_NEAREST
from indexer.alike.likeness import likenesses, same_picture
from indexer.alike.values import Likeness, Looked
from tests.indexer.alike.looks import brightened, cut, framed, looked, moved, scene

TAKEN = "2026-03-30T09:15:20"
LATER = "2026-03-30T09:15:21"
YEAR = 365 * 86400.0
#: One scene, the camera turned aside too far for a copy.
HERE, ASIDE = moved(1, 0), moved(1, 0.1)
ORIGINAL = scene(2)


def found(*photos: Looked) -> list[tuple[str, str, str]]:
    """All likenesses, in order of their keys."""
    return sorted((one.one, one.other, one.kind) for one in likenesses(photos, {photo.key for photo in photos}))


def faint(contrast: float) -> Image.Image:
    """A scene with hardly any contrast."""
    grey = np.asarray(scene(3).convert("L").resize((64, 64)), np.float32)
    levels = 128 + (grey - grey.mean()) * contrast / grey.std()
    return Image.fromarray(levels.round().astype(np.uint8)).convert("RGB")


@pytest.fixture(scope="module")
def library() -> list[Looked]:
    """Two bursts, copies of all kinds, strangers and a flat picture."""
    burst = [looked(f"burst {n}", moved(1, 0.1 * n), 10.0 + 2 * n) for n in range(3)]
    second = [looked(f"second {n}", moved(5, 0.08 * n), 400.0 + n) for n in range(2)]
    copies = [
        looked("sent", HERE.resize((160, 120))),
        looked("framed", framed(ORIGINAL, 0.02), 5000.0),
        looked("cut", cut(ORIGINAL, 0.05), YEAR),
        looked("turned", ORIGINAL.transpose(Image.Transpose.ROTATE_90)),
        looked("original", ORIGINAL, 12.0),
    ]
    others = [looked(f"stranger {n}", scene(10 + n), 11.0 + n) for n in range(3)]
    return [*burst, *second, *copies, *others, looked("flat", faint(FLAT / 2), 10.0)]


@pytest.fixture(scope="module")
def all_found(library: list[Looked]) -> set[Likeness]:
    return set(likenesses(library, {photo.key for photo in library}))


def test_a_library_is_found_whole(all_found: set[Likeness]) -> None:
    """Bursts and copies as they were made, and nothing between strangers."""
    kinds = {(one.one, one.other): one.kind for one in all_found}
    assert {pair for pair, kind in kinds.items() if kind == "burst"} == {
        ("burst 0", "burst 1"), ("burst 0", "burst 2"), ("burst 1", "burst 2"), ("second 0", "second 1"),
    }  # fmt: skip
    copies = {pair for pair, kind in kinds.items() if kind == "copy"}
    assert copies >= {("burst 0", "sent"), ("cut", "original"), ("framed", "original"), ("original", "turned")}
    assert all(set(pair) <= {"cut", "framed", "original", "turned"} for pair in copies - {("burst 0", "sent")})


def test_a_pair_is_found_once_with_the_smaller_key_first(all_found: set[Likeness]) -> None:
    """Whether by hash, by window, turned or by time."""
    pairs = [(one.one, one.other) for one in all_found]
    assert len(set(pairs)) == len(pairs)
    assert all(one < other for one, other in pairs)


def test_the_order_of_photos_does_not_matter(library: list[Looked], all_found: set[Likeness]) -> None:
    """Shuffled, the same likenesses with the same scores."""
    for seed in range(2):
        shuffled = random.Random(seed).sample(library, len(library))
        again = likenesses(shuffled, {photo.key for photo in library})
        assert len(again) == len(all_found)
        assert set(again) == all_found


@pytest.mark.parametrize("seed", range(3))
def test_photos_that_come_one_after_the_other_are_found_as_all_at_once(
    library: list[Looked], all_found: set[Likeness], seed: int
) -> None:
    """Each call returns pairs with the fresh photos only; together they are all, each found once."""
    arriving = random.Random(seed).sample(library, len(library))
    together: list[Likeness] = []
    for start in range(0, len(arriving), 3):
        fresh = {photo.key for photo in arriving[start : start + 3]}
        some = likenesses(arriving[: start + 3], fresh)
        assert all({one.one, one.other} & fresh for one in some)
        together += some
    assert len(together) == len(all_found)
    assert set(together) == all_found


def test_nothing_fresh_is_nothing_found(library: list[Looked]) -> None:
    """Nor in a library of one photo or none."""
    assert likenesses(library, set()) == []
    assert likenesses(library, {"not there"}) == []
    assert likenesses(library[:1], {library[0].key}) == []
    assert likenesses([], set()) == []


@pytest.mark.parametrize("apart", [None, 0.0, 3 * YEAR])
def test_a_copy_is_found_however_far_apart_in_time(apart: float | None) -> None:
    """A messaged picture has the date of its sending, or none."""
    assert found(looked("a", ORIGINAL, 0), looked("b", brightened(ORIGINAL), apart)) == [("a", "b", "copy")]


@pytest.mark.parametrize("turn", [Image.Transpose.ROTATE_90, Image.Transpose.ROTATE_180, Image.Transpose.ROTATE_270])
def test_a_turned_copy_is_found(turn: Image.Transpose) -> None:
    """But not its reflection, which no turning makes."""
    assert found(looked("a", ORIGINAL), looked("b", ORIGINAL.transpose(turn))) == [("a", "b", "copy")]
    mirrored = ORIGINAL.transpose(Image.Transpose.FLIP_LEFT_RIGHT).transpose(turn)
    assert found(looked("a", ORIGINAL), looked("b", mirrored)) == []


def test_two_times_of_cameras_of_one_day_are_never_one_shot() -> None:
    """Even where the pictures are the same: near in time they are a burst, otherwise nothing."""
    first = looked("a", ORIGINAL, 0, own_time=TAKEN)
    assert found(first, looked("b", ORIGINAL, 1, own_time=LATER)) == [("a", "b", "burst")]
    assert found(first, looked("b", ORIGINAL, 7200, own_time="2026-03-30T11:15:20")) == []
    fractions = [looked(key, ORIGINAL, own_time=f"{TAKEN}.{key}") for key in ("10", "35")]
    assert found(*fractions) == []


def test_a_copy_that_was_dated_anew_is_found_where_it_is_wholly_alike() -> None:
    """A program wrote another day into it: whoever judges times must know. Two cameras' days are of two shots."""
    first, later = looked("a", ORIGINAL, 0, own_time=TAKEN), "2027-03-30T09:15:20"
    assert found(first, looked("b", ORIGINAL, YEAR, own_time=later)) == [("a", "b", "copy")]
    of_one, of_other = (
        replace(photo, camera=photo.key) for photo in (first, looked("b", ORIGINAL, YEAR, own_time=later))
    )
    assert ("a", "b", "copy") not in found(of_one, of_other)


def test_a_lost_fraction_or_time_is_no_difference() -> None:
    """Editors and messengers drop the one or both."""
    first = looked("a", ORIGINAL, own_time=f"{TAKEN}.120")
    for own_time in (TAKEN, f"{TAKEN}.120", None):
        assert found(first, looked("b", framed(ORIGINAL, 0.02), own_time=own_time)) == [("a", "b", "copy")]


def test_a_cut_of_one_second_and_camera_is_a_copy() -> None:
    """By more than copies are searched for; with another camera, no camera or one size it is a burst."""
    values = {"own_time": TAKEN, "camera": "Harbour|One"}
    whole, piece = looked("a", ORIGINAL, 0, **values), looked("b", cut(ORIGINAL, 0.2), 0, **values)
    assert found(whole, piece) == [("a", "b", "copy")]
    burst = [("a", "b", "burst")]
    assert found(whole, replace(piece, camera="Harbour|Two")) == burst
    assert found(replace(whole, camera=""), replace(piece, camera="")) == burst
    assert found(replace(whole, own_time=None), replace(piece, own_time=None)) == burst
    assert found(whole, replace(piece, width=whole.height, height=whole.width)) == burst
    assert found(whole, looked("b", scene(4, 200, 150), 0, **values)) == []


def test_frames_of_one_second_camera_and_size_must_be_the_same_for_a_copy() -> None:
    """A burst writes such as well; a copy that an editor changed little is still one."""
    values = {"own_time": TAKEN, "camera": "Harbour|One"}
    first, frame = moved(1, 0), moved(1, 0.03)
    assert found(looked("a", first, 0), looked("b", frame, 0)) == [("a", "b", "copy")]
    assert found(looked("a", first, 0, **values), looked("b", frame, 0, **values)) == [("a", "b", "burst")]
    assert found(looked("a", first, 0, **values), looked("b", brightened(first), 0, **values)) == [("a", "b", "copy")]


def test_of_very_many_same_pictures_those_near_in_time_are_copies() -> None:
    """Though each has more of them than are looked for by hash; of other times of its camera they are a burst."""
    count = MOST_NEAREST + 30
    values = {"own_time": TAKEN, "camera": "Harbour|One"}
    same = [looked(f"{number:03}", ORIGINAL, 0.0, **values) for number in range(count)]
    links = {(one.one, one.other): one.kind for one in likenesses(same, {photo.key for photo in same})}
    assert set(links.values()) == {"copy"}
    assert all((f"{number:03}", f"{number + 1:03}") in links for number in range(count - 1))
    assert found(same[0], replace(same[1], own_time=LATER, moment=1.0)) == [("000", "001", "burst")]


def test_a_burst_ends_with_the_longest_gap() -> None:
    """One scene within it is found, beyond it or at an unknown moment not."""
    now = datetime(2026, 3, 30, 9, tzinfo=UTC).timestamp()
    first = looked("a", HERE, now)
    assert found(first, looked("b", ASIDE, now + LONGEST_GAP)) == [("a", "b", "burst")]
    assert found(first, looked("b", ASIDE, now - LONGEST_GAP)) == [("a", "b", "burst")]
    assert found(first, looked("b", ASIDE, now + LONGEST_GAP + 1)) == []
    assert found(first, looked("b", ASIDE)) == []


def test_strangers_of_one_second_are_not_alike() -> None:
    """Nearness in time alone makes no burst."""
    assert found(*(looked(f"{seed}", scene(seed), 0) for seed in range(10, 18))) == []


def test_flat_pictures_are_never_alike() -> None:
    """Not even the same one twice in a second; a little above that they are compared."""
    for contrast, expected in ((0, []), (FLAT * 0.9, []), (FLAT * 1.5, [("a", "b", "copy")])):
        assert found(*(looked(key, faint(contrast), 0) for key in "ab")) == expected


def test_a_surer_likeness_has_the_higher_score() -> None:
    """Of copies the less changed one, of bursts the nearer in time."""
    photos = [looked("a", ORIGINAL), looked("b", brightened(ORIGINAL, 1.05)), looked("c", framed(ORIGINAL, 0.02))]
    scores = {one.other: one.score for one in likenesses(photos, {"a"}) if one.one == "a"}
    assert 1 >= scores["b"] > scores["c"]
    (sooner,), (later,) = (likenesses([looked("a", HERE, 0), looked("b", ASIDE, gap)], {"a"}) for gap in (2, 120))
    assert sooner.score > later.score > 0


def test_an_edit_saved_over_its_original_shows_the_same_picture() -> None:
    """Another scene and the camera turned aside do not, nor a turned picture."""
    first = looked("a", ORIGINAL)
    for edit in (ORIGINAL, brightened(ORIGINAL), cut(ORIGINAL, 0.05), framed(ORIGINAL, 0.02)):
        assert same_picture(first, looked("a", edit))
    for other in (scene(3), ORIGINAL.transpose(Image.Transpose.ROTATE_180), faint(0)):
        assert not same_picture(first, looked("a", other))
    assert not same_picture(looked("a", HERE), looked("a", ASIDE))
