"""Which photo stands for a set, and what is said of it."""

import random

import pytest

from indexer.alike.keepers import best_copy, best_frame, common_side, is_clearly_better
from indexer.alike.values import Contender
from tests.indexer.alike.contenders import photo

ORIGINAL = photo("original")
EDIT = photo("edit", is_edited=True)
SMALL_EDIT = photo("small", is_edited=True, pixels=2_000_000)
MESSAGED = photo("messaged", None, pixels=1_000_000, bytes=100_000)


def test_an_edit_in_full_size_stands_before_the_camera_s_own_file() -> None:
    """The person made it, and it prints as well; even when it was cropped a little."""
    assert best_copy([ORIGINAL, EDIT, MESSAGED]).key == "edit"
    cropped = photo("edit", is_edited=True, pixels=10_900_000)
    assert best_copy([ORIGINAL, cropped]) == best_copy([cropped, ORIGINAL])
    assert best_copy([ORIGINAL, cropped]).reason == "your edit, full size"


def test_a_reduced_edit_does_not() -> None:
    """It was made to be sent, and prints worse."""
    assert best_copy([SMALL_EDIT, ORIGINAL]) == best_copy([ORIGINAL, SMALL_EDIT])
    found = best_copy([SMALL_EDIT, ORIGINAL, MESSAGED])
    assert (found.key, found.reason) == ("original", "the camera's own file")


def test_a_re_saved_file_without_its_date_is_behind_the_camera_s_own() -> None:
    """However large its file is."""
    saved = photo("a", None, bytes=9_000_000)
    assert best_copy([saved, ORIGINAL]).key == "original"


def test_a_whole_picture_without_a_date_is_before_a_reduced_one_that_has_it() -> None:
    """It is for printing."""
    reduced = photo("reduced", pixels=500_000)
    found = best_copy([reduced, photo("whole", None)])
    assert (found.key, found.reason) == ("whole", "larger than its copies")


def test_among_equals_the_format_the_bytes_and_the_name_decide() -> None:
    """In this order, and the words say which."""
    sent, photographed = photo("a", None, format="WebP"), photo("b", None, format="JPEG")
    assert best_copy([sent, photographed]).key == "b"
    assert best_copy([sent, photographed]).reason == "JPEG, and no smaller than its copies"
    squeezed, fine = photo("a", None, bytes=1_000), photo("b", None, bytes=2_000)
    assert best_copy([squeezed, fine]).reason == "the least compressed of its size"
    assert best_copy([squeezed, fine]).key == "b"
    one, other = photo("b", None, place=("/library", "1.jpg")), photo("a", None, place=("/library", "2.jpg"))
    assert best_copy([other, one]).key == "b"
    assert best_copy([other, one]).reason == "one of 2 that are equally good"


def test_the_sharpest_frame_stands_for_a_burst() -> None:
    """At the largest side at which all can be compared."""
    frames = [photo("a", 0, sharpness=(900.0, 10.0, 10.0)), photo("b", 1, sharpness=(None, 20.0, 10.0))]
    assert common_side(frames) == 1
    found = best_frame(frames, frames)
    assert (found.key, found.reason) == ("b", "sharpest of 2")


def test_a_frame_that_cannot_be_measured_hinders_no_other() -> None:
    """One too small to have a sharpness is behind all that have one."""
    frames = [photo("a", 0, sharpness=(None, None, None)), photo("b", 1), photo("c", 2, sharpness=(150.0, 1.0, 1.0))]
    assert common_side(frames) == 0
    assert best_frame(frames, frames).key == "c"
    assert common_side(frames[:1]) is None
    assert best_frame(frames[:1] * 2, frames[:1] * 2).key == "a"


def test_within_a_hair_the_earliest_is_taken() -> None:
    """A few per cent of sharpness are noise."""
    frames = [photo("b", 2, sharpness=(100.0,) * 3), photo("a", 1, sharpness=(95.5,) * 3)]
    found = best_frame(frames, frames)
    assert (found.key, found.reason) == ("a", "as sharp as any of 2, taken first")
    frames.append(photo("c", 0, sharpness=(94.0,) * 3))
    found = best_frame(frames, frames)
    assert (found.key, found.reason) == ("a", "one of the 2 sharpest of 3, taken first")


def test_a_clearly_worse_exposed_frame_loses_though_it_is_sharper() -> None:
    """Clipped shares tell; a little more does not count."""
    frames = [photo("a", 0, bright=0.10, sharpness=(500.0,) * 3), photo("b", 1, dark=0.02), photo("c", 2, bright=0.06)]
    found = best_frame(frames, frames)
    assert (found.key, found.reason) == ("b", "best exposed of 3")
    frames[0] = photo("a", 0, bright=0.06, sharpness=(500.0,) * 3)
    assert best_frame(frames, frames).reason == "sharpest of 3"


def test_the_words_say_when_only_some_may_be_chosen() -> None:
    """Those that resemble all others; one that is the best of all anyway is said to be that."""
    a, b, c = (
        photo(key, second, sharpness=(value,) * 3)
        for key, second, value in (("a", 0, 9.0), ("b", 1, 5.0), ("c", 2, 2.0))
    )
    assert best_frame([b, c], [a, b, c]).reason == "sharpest of the 2 most like all 3"
    assert best_frame([b], [a, b, c]).reason == "most like all 3"
    assert best_frame([a, c], [a, b, c]).reason == "sharpest of 3"
    assert best_frame([b], [b]).reason == "the only one that is not left out"


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        (photo("a"), photo("b", sharpness=(49.0,) * 3), True),
        (photo("a"), photo("b", sharpness=(51.0, 200.0, 300.0)), False),
        (photo("a"), photo("b", dark=0.2), True),
        (photo("a", dark=0.2), photo("b", sharpness=(1.0,) * 3), False),
        (photo("a"), photo("b"), False),
    ],
)
def test_clearly_better_is_more_than_a_little(one: Contender, other: Contender, expected: bool) -> None:
    """Blurred by half, or badly exposed, and never one fault against the other."""
    assert is_clearly_better(one, other) is expected


@pytest.mark.parametrize("seed", range(200))
def test_the_order_given_does_not_matter(seed: int) -> None:
    """The same photos in any order give the same keeper, which is one of them."""
    dice = random.Random(seed)
    photos = [
        photo(
            str(number),
            dice.choice([None, 0, 1, 2]),
            pixels=dice.choice([1, 9, 10]),
            bytes=dice.choice([1, 2]),
            is_edited=dice.random() < 0.3,
            format=dice.choice(["JPEG", "HEIF", "raw"]),
            sharpness=dice.choice([(None,) * 3, (None, 5.0, 5.0), (1.0, 2.0, 3.0), (2.0, 2.0, 2.0)]),
            dark=dice.choice([0.0, 0.04, 0.1]),
        )
        for number in range(dice.randint(1, 8))
    ]
    mixed = dice.sample(photos, len(photos))
    assert best_copy(photos) == best_copy(mixed)
    assert best_frame(photos, photos) == best_frame(mixed, mixed)
    assert {best_copy(photos).key, best_frame(photos, photos).key} <= {item.key for item in photos}
