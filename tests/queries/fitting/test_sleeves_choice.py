"""The best pair of sleeves."""

from itertools import product

import pytest

from indexer.errors import PlanError
from queries.fitting.planning import plan_spread
from queries.fitting.sleeves_choice import plan_over_sleeves
from queries.fitting.values import Asked, openings_of
from tests.queries.fitting.made_spreads import pictures, sleeve

SLEEVES = [
    sleeve("6 wide", (6, 6), (6, 6), (6, 6)),
    sleeve("3 wide + 6 tall", (6, 3, 3), (3, 6, 3), (3, 3, 6)),
    sleeve("12 tall", (3, 3, 3, 3), (3, 3, 3, 3), (3, 3, 3, 3)),
    sleeve("4 wide + 4 tall", (6, 6), (3, 3, 3, 3), (6, 6)),
]
PAIRS = [(left.back(), right) for left, right in product(SLEEVES, SLEEVES[1:])]


@pytest.mark.parametrize("seed", range(3))
def test_best_of_all_pairs(seed: int) -> None:
    """The plan is worth what the best pair is worth when every pair is solved, and says that it is proven."""
    photos = pictures(6 + 3 * seed, seed)
    asked = Asked(card_count=(None, 2)[seed % 2])
    plan, pair = plan_over_sleeves(photos, PAIRS, asked)
    values = {at: plan_spread(photos, openings_of(*each), asked).value for at, each in enumerate(PAIRS)}
    assert plan.value == pytest.approx(max(values.values()), abs=1e-3)
    assert values[PAIRS.index(pair)] == pytest.approx(plan.value)
    assert plan.optimal


def test_only_pairs_that_have_the_pocket() -> None:
    """A pin on a pocket that few sleeves have chooses among those."""
    photos = pictures(8, 1)
    plan, (left, _) = plan_over_sleeves(photos, PAIRS, Asked(pins={"L12": photos[0].key}))
    assert left.name == "12 tall"
    assert plan.filled[11].photos[0].key == photos[0].key


def test_no_pair_will_do() -> None:
    """Where what was asked suits no pair, the first reason is told; without any pair, that."""
    with pytest.raises(PlanError, match="there is no pocket L40"):
        plan_over_sleeves(pictures(3), PAIRS, Asked(cards=frozenset({"L40"})))
    with pytest.raises(PlanError, match="no pair of sleeves"):
        plan_over_sleeves(pictures(3), [], Asked())


def test_out_of_time_says_the_gap() -> None:
    """With no time left the plan of the most promising pair comes with a gap that holds."""
    photos = pictures(20, 2)
    plan, _ = plan_over_sleeves(photos, PAIRS, Asked(), seconds=0.0)
    best, _ = plan_over_sleeves(photos, PAIRS, Asked())
    assert plan.value * (1 + plan.gap) >= best.value - 1e-6


def test_a_thin_week_is_proven_too() -> None:
    """Where most pockets stay empty every plan is worth less than nothing, and the best of them is still proven."""
    plan, _ = plan_over_sleeves(pictures(2, 3), PAIRS, Asked(card_count=1))
    assert plan.value < 0
    assert plan.optimal
