"""Copies of one shot, put together."""

import random

import pytest

from indexer.alike.copies import STEPS, copy_groups
from tests.indexer.alike.contenders import copy, known, photo


def test_a_copy_that_resembles_the_original_alone_is_in_the_set_of_the_edit() -> None:
    """The messaged one looks like what it was made of, and less like the edit that stands for all."""
    photos = known([photo("edit", is_edited=True), photo("original"), photo("sent", None, pixels=1)])
    assert copy_groups([copy("edit", "original"), copy("original", "sent")], photos) == [["edit", "original", "sent"]]


def test_a_copy_without_a_date_goes_with_the_frame_it_resembles_most() -> None:
    """It does not bring two frames of a burst together, which their cameras dated differently."""
    photos = known([photo("a", 0), photo("b", 1), photo("sent", None, pixels=1)])
    links = [copy("a", "sent", 0.90), copy("b", "sent", 0.95)]
    assert copy_groups(links, photos) == [["b", "sent"]]
    assert copy_groups([*links, copy("a", "b", 0.99)], photos) == [["b", "sent"]]


def test_a_time_without_its_fraction_agrees_with_one_that_has_it() -> None:
    """Some programs drop it; two different fractions are two frames."""
    times = {"a": "2026-03-30T10:00:00.250", "b": "2026-03-30T10:00:00", "c": "2026-03-30T10:00:00.750"}
    photos = known(photo(key, own_time=time) for key, time in times.items())
    links = [copy("a", "b", 0.9), copy("b", "c", 0.8), copy("a", "c", 0.7)]
    assert copy_groups(links, photos) == [["a", "b"]]


def test_a_long_chain_is_cut() -> None:
    """Nothing is more than two likenesses from its keeper, so that no set drifts away from what it shows."""
    photos = known(photo(key, None, pixels=100 - place) for place, key in enumerate("abcdefg"))
    links = [copy(one, other) for one, other in zip("abcdef", "bcdefg", strict=True)]
    assert copy_groups(links, photos) == [["a", "b", "c"], ["d", "e", "f"]]


@pytest.mark.parametrize("seed", range(300))
def test_groups_are_sound_whatever_the_likenesses(seed: int) -> None:
    """Each photo once, two at least, one camera's time, all near a keeper; and no order of the input matters."""
    dice = random.Random(seed)
    photos = known(photo(f"{n:02}", dice.choice([None, None, 0, 1]), pixels=dice.randint(1, 9)) for n in range(12))
    pairs = [
        (one, other) for one in photos for other in photos if one < other and dice.random() < dice.choice([0.1, 0.4])
    ]
    links = [copy(one, other, dice.choice([0.7, 0.8, 0.9])) for one, other in pairs]
    groups = copy_groups(links, photos)
    assert groups == copy_groups(dice.sample(links, len(links)), photos)
    members = [key for group in groups for key in group]
    assert len(members) == len(set(members))
    near = {key: {b if a == key else a for a, b in pairs if key in (a, b)} for key in photos}
    for group in groups:
        assert len(group) > 1
        assert len({photos[key].own_time for key in group} - {None}) <= 1
        assert any(_reached(key, near, set(group)) == set(group) for key in group)


def _reached(start: str, near: dict[str, set[str]], among: set[str]) -> set[str]:
    reached = {start}
    for _ in range(STEPS):
        reached |= {other for key in reached for other in near[key]} & among
    return reached
