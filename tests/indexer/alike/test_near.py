"""Near codes: always those that comparing every two finds, whatever the codes and the radius."""

import numpy as np
import pytest

from indexer.alike import near
from indexer.alike.near import first_of_each, near_pair_blocks, near_pairs, near_pairs_between, nearest_of_each
from indexer.alike.near_parts import BLOCK, Part, cut
from tests.indexer.alike.near_codes import KINDS, Codes, equal_codes, plain_distances, plain_pairs, random_codes

RADII = range(17)


def few_parts(_one: Codes, _other: Codes, radius: int, _within: bool) -> tuple[Part, ...]:
    return cut(5, radius)


def no_parts(*_: object) -> tuple[Part, ...]:
    return ()


@pytest.mark.parametrize(
    ("kind", "count"), [("random", 3_000), ("clustered", 3_000), ("even", 3_000), ("equal", 900), ("narrow", 900)]
)
def test_pairs_are_those_of_comparing_every_two(kind: str, count: int) -> None:
    """Thousands of codes of every kind, equal ones among them, give the same pairs at every radius from 0 to 16."""
    codes = KINDS[kind](count)
    apart = plain_distances(codes, codes)
    for radius in RADII:
        assert np.array_equal(near_pairs(codes, radius), plain_pairs(apart, radius)), radius


@pytest.mark.parametrize("way", [few_parts, no_parts])
@pytest.mark.parametrize("kind", KINDS)
def test_either_way_finds_the_same(kind: str, way: object, monkeypatch: pytest.MonkeyPatch) -> None:
    """Codes of every kind in many numbers, by parts and by comparing, give the same pairs at every radius."""
    monkeypatch.setattr(near, "plan", way)
    for count in (2, 3, 31, 32, 33, 500):
        codes = np.random.default_rng(count).permutation(KINDS[kind](count))
        apart = plain_distances(codes, codes)
        for radius in (*RADII, 40, 64):
            assert np.array_equal(near_pairs(codes, radius), plain_pairs(apart, radius)), (count, radius)


@pytest.mark.parametrize("way", [near.plan, few_parts, no_parts])
@pytest.mark.parametrize("kind", KINDS)
def test_pairs_between_are_those_of_comparing_every_two(
    kind: str, way: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    """New codes against known ones, equal ones among both, give the same pairs at every radius, the new place first."""
    monkeypatch.setattr(near, "plan", way)
    every = np.random.default_rng(3).permutation(KINDS[kind](900))
    new, known = every[:70], every[40:]
    apart = plain_distances(new, known)
    for radius in RADII:
        assert np.array_equal(near_pairs_between(new, known, radius), np.argwhere(apart <= radius)), radius


def test_new_among_known_and_new_are_all_pairs() -> None:
    """Known pairs, new with known and new with new together are the pairs of all: a second run misses nothing."""
    codes = KINDS["clustered"](2_000)
    known, new = codes[:1_700], codes[1_700:]
    between = near_pairs_between(new, known, 9)[:, ::-1] + [0, len(known)]
    parts = [near_pairs(known, 9), between, near_pairs(new, 9) + len(known)]
    assert sorted(np.concatenate(parts).tolist()) == near_pairs(codes, 9).tolist()


@pytest.mark.parametrize("count", [0, 1])
def test_without_two_codes_there_is_no_pair(count: int) -> None:
    """No code or one gives no pair, of the same shape as any."""
    codes = random_codes(count)
    assert near_pairs(codes, 8).shape == (0, 2)
    assert near_pairs_between(codes, random_codes(0), 8).shape == (0, 2)
    assert near_pairs_between(random_codes(0), codes, 8).shape == (0, 2)


def test_thousands_of_equal_codes_come_in_blocks() -> None:
    """Two clusters of 2,000 equal codes give 8 million pairs, and no block holds more than promised."""
    sizes = [len(block) for block in near_pair_blocks(equal_codes(4_000), 8)]
    assert sum(sizes) == 4_000 * 3_999 // 2
    assert max(sizes) <= BLOCK


def test_codes_with_as_many_bits_set_are_an_even_number_apart() -> None:
    """An odd radius finds what the next smaller one does among codes with 32 bits set."""
    codes = KINDS["even"](1_000)
    assert len(near_pairs(codes, 8))
    assert np.array_equal(near_pairs(codes, 8), near_pairs(codes, 9))


@pytest.mark.parametrize("radius", [-1, 65])
def test_impossible_radius_is_refused(radius: int) -> None:
    """A radius that no two codes can be apart is an error, not an empty answer."""
    with pytest.raises(ValueError, match="radius"):
        near_pairs(random_codes(3), radius)
    with pytest.raises(ValueError, match="radius"):
        near_pairs_between(random_codes(3), random_codes(3), radius)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("most", [1, 3, 8])
def test_the_nearest_of_each_are_those_of_sorting(kind: str, most: int) -> None:
    """Of equally near ones the first; codes that are there many times are looked at no oftener than needed."""
    ours, theirs, radius = KINDS[kind](60), KINDS[kind](300), 12
    apart = plain_distances(ours, theirs)
    expected = [
        (place, other)
        for place, row in enumerate(apart.tolist())
        for distance, other in sorted((distance, other) for other, distance in enumerate(row))[:most]
        if distance <= radius
    ]
    few = first_of_each(theirs, most)
    assert (np.diff(few) > 0).all()
    pairs = near_pairs_between(ours, theirs[few], radius)
    found = nearest_of_each(np.column_stack((pairs[:, 0], few[pairs[:, 1]])), ours, theirs, most)
    assert list(map(tuple, found.tolist())) == expected


def test_no_more_of_equal_codes_than_asked_for() -> None:
    """The first ones of each."""
    assert first_of_each(np.array([5, 7, 5, 5, 7, 9], np.uint64), 2).tolist() == [0, 1, 2, 4, 5]
    assert first_of_each(np.array([], np.uint64), 2).tolist() == []
