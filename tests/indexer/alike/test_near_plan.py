"""The way that near codes are searched for: only its speed is at stake, so only plain cases are held."""

import numpy as np
import pytest

from indexer.alike.near_plan import plan
from tests.indexer.alike.near_codes import random_codes

MANY = np.unique(random_codes(200_000))


def test_few_codes_are_all_compared() -> None:
    """A thousand codes are not cut into parts."""
    assert plan(MANY[:1_000], MANY[:1_000], 8, within=True) == ()


def test_many_codes_are_searched_by_parts() -> None:
    """200,000 random codes are searched by parts at any radius that photos are compared with."""
    assert all(plan(MANY, MANY, radius, within=True) for radius in range(1, 13))


def test_few_new_among_many_known_are_all_compared() -> None:
    """Ten codes against 200,000 are compared with each, rather than that all the known ones are sorted."""
    assert plan(MANY[:10], MANY, 8, within=False) == ()


def test_wide_radius_compares_all() -> None:
    """Where most codes are near each other, parts would sort nothing out."""
    assert plan(MANY, MANY, 31, within=True) == ()


def test_codes_that_parts_do_not_tell_apart_are_all_compared() -> None:
    """As many codes that share all but eighteen bits are compared: hardly any two of them are out of reach."""
    narrow = np.arange(200_000, dtype=np.uint64)
    assert plan(narrow, narrow, 8, within=True) == ()


@pytest.mark.parametrize("within", [True, False])
def test_plan_is_always_the_same(within: bool) -> None:
    """Asked twice, the plan is the same."""
    assert plan(MANY, MANY, 10, within) == plan(MANY, MANY, 10, within)
