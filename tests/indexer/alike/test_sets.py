"""Likenesses in, sets with their keepers out."""

import random
from collections.abc import Iterable

import pytest

from indexer.alike.sets import alike_sets
from indexer.alike.values import Contender, Likeness
from tests.indexer.alike.contenders import burst, copy, known, photo


def shown(likenesses: Iterable[Likeness], *photos: Contender) -> list[tuple[str, str, str]]:
    """Kind, members and keepers of each set, in letters."""
    found = alike_sets(likenesses, known(photos))
    return [(item.kind, "".join(item.members), "".join(sorted(item.keepers))) for item in found]


A, B, C = photo("a", 0), photo("b", 1, sharpness=(900.0,) * 3), photo("c", 2)
BURST = [burst("a", "b"), burst("b", "c"), burst("a", "c")]
SENT = photo("s", None, pixels=1)


def test_a_burst_has_its_keeper_first_and_the_others_as_they_were_taken() -> None:
    """And says why."""
    assert shown(BURST, C, B, A) == [("burst", "bac", "b")]
    (found,) = alike_sets(BURST, known([A, B, C]))
    assert found.reason == "sharpest of 3"


def test_copies_are_one_frame_of_a_burst() -> None:
    """A likeness of the copy that is left out counts for the keeper, which alone is in both sets."""
    likenesses = [copy("c", "s"), burst("b", "s"), burst("a", "b")]
    assert shown(likenesses, A, B, C, SENT) == [("copy", "cs", "c"), ("burst", "bac", "b")]


def test_a_likeness_with_a_photo_that_is_not_there_counts_for_nothing() -> None:
    """Its set is made of the others."""
    assert shown(BURST, A, C) == [("burst", "ac", "a")]
    assert shown(BURST, A) == []
    assert shown([], A, B) == []


def test_left_out_photos_stay_in_their_set_and_another_one_stands_for_it() -> None:
    """The set is not torn, even where only the left one resembled all."""
    left = photo("b", 1, sharpness=(900.0,) * 3, choice="leave")
    likenesses = [burst("a", "b"), burst("b", "c")]
    assert shown(likenesses, A, left, C) == [("burst", "abc", "a")]


def test_a_set_that_is_all_left_out_has_no_keeper() -> None:
    """And says by whom."""
    photos = [photo(key, second, choice="leave") for second, key in enumerate("abc")]
    (found,) = alike_sets(BURST, known(photos))
    assert (found.keepers, found.reason, len(found.members)) == (frozenset(), "all left out by you", 3)


def test_whoever_is_kept_stands_for_the_set_and_nobody_else() -> None:
    """One or several, the earliest first."""
    kept = photo("c", 2, choice="keep")
    assert shown(BURST, A, B, kept) == [("burst", "cab", "c")]
    assert shown(BURST, photo("a", 0, choice="keep"), B, kept) == [("burst", "abc", "ac")]
    (found,) = alike_sets(BURST, known([A, B, kept]))
    assert found.reason == "kept by you"


def test_a_kept_copy_goes_into_the_burst_in_place_of_the_original() -> None:
    """With two kept, both do."""
    likenesses = [*BURST, copy("c", "s")]
    kept = photo("s", None, pixels=1, choice="keep")
    assert shown(likenesses, A, B, C, kept) == [("copy", "sc", "s"), ("burst", "sab", "s")]
    both = photo("c", 2, choice="keep")
    assert shown(likenesses, A, B, both, kept) == [("copy", "cs", "cs"), ("burst", "cabs", "cs")]


def test_a_lesser_copy_of_a_left_frame_does_not_win_against_a_frame_of_its_own() -> None:
    """However sharp it looks, and its own set says why it is shown."""
    out, sent = photo("b", 1, choice="leave"), photo("s", None, pixels=1, sharpness=(900.0,) * 3)
    likenesses = [*BURST, copy("b", "s")]
    assert shown(likenesses, A, out, C, sent)[1] == ("burst", "acs", "a")
    assert alike_sets(likenesses, known([A, out, C, sent]))[0].reason == "the only one that is not left out"


def test_copies_that_are_all_left_out_are_in_no_burst() -> None:
    """None of them stands for the frame; with one frame left there is no burst."""
    out, sent = photo("c", 2, choice="leave"), photo("s", None, pixels=1, choice="leave")
    likenesses = [copy("c", "s"), burst("b", "c"), burst("a", "c"), burst("a", "b")]
    assert shown(likenesses, A, B, out, sent) == [("copy", "cs", ""), ("burst", "ba", "b")]
    assert shown(likenesses[:2], A, B, out, sent) == [("copy", "cs", "")]


def test_frames_that_share_a_copy_are_a_burst_on_one_day() -> None:
    """The undated copy can be of one frame only, and yet shows that both look alike."""
    likenesses = [copy("a", "s", 0.95), copy("b", "s", 0.9)]
    sent = photo("s", None, pixels=1, taken="2026-03-30")
    assert shown(likenesses, A, B, sent) == [("copy", "as", "a"), ("burst", "ba", "b")]
    assert shown(likenesses, A, photo("b", 1, taken="2026-05-30T10:00:00"), sent) == [("copy", "as", "a")]
    lent = photo("s", None, pixels=1, taken="2026-03-30T10:00:00", is_lent=True)
    assert shown(likenesses, A, B, lent) == [("copy", "as", "a")]


@pytest.mark.parametrize("seed", range(300))
def test_sets_are_sound_whatever_is_alike_and_told(seed: int) -> None:
    """Who is in a set does not hang on what was told, but for copies in bursts; a kept photo is a keeper in its sets, a
    left one in none; every set has one keeper, none where all are left, or those kept; nobody is twice in a kind."""
    dice = random.Random(seed)
    told = dice.choice([(None,), (None, "keep"), (None, None, "leave"), (None, "keep", "leave")])
    photos = known(
        photo(
            key,
            dice.choice([None, second]),
            pixels=dice.choice([10, 10, 5]),
            sharpness=(dice.choice([1.0, 5.0]),) * 3,
            choice=dice.choice(told),
        )
        for second, key in enumerate("abcdefghijkl")
    )
    pairs = [(one, other) for one in photos for other in photos if one < other and dice.random() < 0.3]
    likenesses = [dice.choice([copy, burst])(one, other, dice.random()) for one, other in pairs]
    found = alike_sets(likenesses, photos)
    assert found == alike_sets(dice.sample(likenesses, len(likenesses)), dict(dice.sample(list(photos.items()), 12)))
    for kind in ("copy", "burst"):
        members = [key for item in found if item.kind == kind for key in item.members]
        assert len(members) == len(set(members))
    copies_out = {key for item in found if item.kind == "copy" for key in item.members if key not in item.keepers}
    for item in found:
        assert len(item.members) > 1
        kept = {key for key in item.members if photos[key].choice == "keep"}
        left = {key for key in item.members if photos[key].choice == "leave"}
        assert not item.keepers & left
        assert item.keepers == kept if kept else len(item.keepers) == (left != set(item.members))
        assert not item.keepers or item.members[0] in item.keepers
        assert item.reason
        assert item.kind == "copy" or not copies_out & set(item.members)
