"""Near codes by parts, whichever parts there are: always those that comparing every two finds."""

from collections.abc import Iterable

import numpy as np
import pytest

from indexer.alike.near_parts import BLOCK, FEWEST_PARTS, MOST_PARTS, Places, cut, near_by_parts, spread
from tests.indexer.alike.near_codes import KINDS, clustered_codes, plain_distances, plain_pairs, random_codes

COUNTS = range(FEWEST_PARTS, MOST_PARTS + 1)
RADII = range(17)


def sorted_pairs(blocks: Iterable[tuple[Places, Places]], *, smaller_first: bool) -> list[list[int]]:
    pairs = np.concatenate([np.empty((0, 2), np.int64), *(np.column_stack(block) for block in blocks)])
    return sorted((np.sort(pairs) if smaller_first else pairs).tolist())


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize("radius", [*RADII, 64])
def test_parts_are_all_bits_once_and_reach_far_enough(count: int, radius: int) -> None:
    """The parts hold each of 64 bits once, and a pair out of reach in every part is out of the radius."""
    parts = cut(count, radius)
    assert sorted(bit for part in parts for bit in part.bits) == list(range(64))
    assert sum(part.reach + 1 for part in parts) == radius + 1


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize("kind", KINDS)
def test_any_number_of_parts_finds_what_comparing_every_two_does(kind: str, count: int) -> None:
    """Different codes of every kind give the same pairs, each once, at every radius from 0 to 16."""
    codes = np.unique(KINDS[kind](300))
    apart = plain_distances(codes, codes)
    for radius in RADII:
        found = near_by_parts(codes, codes, radius, cut(count, radius), within=True)
        assert sorted_pairs(found, smaller_first=True) == plain_pairs(apart, radius).tolist(), radius


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize("kind", KINDS)
def test_two_sets_of_codes_give_what_comparing_every_two_does(kind: str, count: int) -> None:
    """Few codes against many others of their kind give the same pairs, each once, at every radius from 0 to 16."""
    every = np.unique(KINDS[kind](400))
    one, other = every[::7], every[::2]
    apart = plain_distances(one, other)
    for radius in RADII:
        found = near_by_parts(one, other, radius, cut(count, radius), within=False)
        assert sorted_pairs(found, smaller_first=False) == np.argwhere(apart <= radius).tolist(), radius


@pytest.mark.parametrize("count", COUNTS)
def test_none_against_some_is_none(count: int) -> None:
    """Where either set is empty there is no pair."""
    none, some = random_codes(0), random_codes(5)
    for one, other in ((none, some), (some, none), (none, none)):
        assert not list(near_by_parts(one, other, 8, cut(count, 8), within=False))


def test_many_clustered_codes_by_the_fewest_parts() -> None:
    """3,000 clustered codes, cut into the widest parts, give the same pairs at radius 8."""
    codes = np.unique(clustered_codes(3_000))
    found = near_by_parts(codes, codes, 8, cut(FEWEST_PARTS, 8), within=True)
    assert sorted_pairs(found, smaller_first=True) == plain_pairs(plain_distances(codes, codes), 8).tolist()


def test_ranges_are_written_out_in_order() -> None:
    """Each place of each range comes once and in order; no block is larger than asked, but for a range that is."""
    random = np.random.default_rng(2)
    for _ in range(200):
        starts = random.integers(0, 50, random.integers(0, 30))
        lengths = random.integers(0, 12, len(starts))
        blocks = list(spread(starts, lengths, block=9))
        written = [(number, place) for numbers, places in blocks for number, place in zip(numbers, places, strict=True)]
        assert written == [(n, start + k) for n, start in enumerate(starts) for k in range(lengths[n])]
        assert all(len(numbers) <= 9 or len(set(numbers.tolist())) == 1 for numbers, _ in blocks)


def test_blocks_stay_small_where_everything_is_near() -> None:
    """All 8 million pairs of 4,096 codes in twelve bits come in blocks no larger than promised."""
    codes = np.arange(4096, dtype=np.uint64)
    sizes = [len(here) for here, _ in near_by_parts(codes, codes, 12, cut(3, 12), within=True)]
    assert sum(sizes) == 4096 * 4095 // 2
    assert max(sizes) <= max(BLOCK, len(codes))
