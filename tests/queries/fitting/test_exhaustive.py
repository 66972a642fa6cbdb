"""The programme against every filling of small spreads, collages, pins, cards and counts included."""

from random import Random

import pytest

from indexer.errors import PlanError
from queries.fitting.bounds import prices_of, upper_bound
from queries.fitting.planning import plan_spread, table_for
from queries.fitting.values import Asked, Plan
from queries.fitting.worth import Case, value_of
from tests.queries.fitting.exhaustive import best_value, meets
from tests.queries.fitting.made_spreads import openings, picture, pictures

#: Pages of 3 and 4 openings, with the number of photos that keeps the fillings to some ten thousand.
PAGES = (
    (openings(((6, 3),), ((3,),)), 5),
    (openings(((6, 3),), ((3, 6),)), 4),
    (openings(((3, 3),), ((3, 3),)), 5),
    (openings(((6,), (6,)), ((3, 3),)), 3),
    (openings(((3, 6, 3),)), 5),
)


def some_wishes(draw: Random, case_openings: tuple[object, ...], photos: list[object]) -> Asked:
    """A few wishes at random, some of which cannot be met together."""
    names = [opening.name for opening in case_openings]
    keys = [photo.key for photo in photos]
    places = [*names, *(f"{name}.{cell}" for name in names for cell in (1, 2))]
    return Asked(
        pins=dict(zip(draw.sample(places, 2), draw.sample(keys, 2), strict=True)) if draw.random() < 0.5 else {},
        cards=frozenset(draw.sample(names, 1)) if draw.random() < 0.3 else frozenset(),
        empty=frozenset(draw.sample(names, 1)) if draw.random() < 0.2 else frozenset(),
        collages={draw.choice(names): draw.choice((1, 2, 3))} if draw.random() < 0.4 else {},
        card_count=draw.choice((None, None, 0, 1, 2)),
        photo_count=draw.choice((None, None, *range(1, len(photos) + 1))),
        mat=draw.choice((0.0, 0.0, 0.25)),
    )


def agree(case: Case) -> Plan | None:
    """The plan of a case, held against the best of all fillings; None where neither finds one."""
    best = best_value(case)
    try:
        plan = plan_spread(case.pictures, case.openings, case.asked, before=case.before)
    except PlanError:
        assert best is None
        return None
    assert best is not None
    assert plan.value == pytest.approx(best, abs=1e-6)
    assert plan.value == pytest.approx(value_of(case, plan.filled), abs=1e-9)
    assert plan.optimal
    assert meets(case.asked, plan.filled)
    return plan


@pytest.mark.parametrize("seed", range(15))
def test_nothing_asked(seed: int) -> None:
    """With nothing fixed, no filling is worth more than the plan."""
    slots, count = PAGES[seed % len(PAGES)]
    assert agree(Case(pictures(count - seed % 2, seed), slots, Asked(), None)) is not None


def test_wishes_at_random() -> None:
    """With pins, cards, collages and counts fixed, the plan is the best that meets them, or there is none."""
    draw, planned = Random(5), 0
    for seed in range(60):
        slots, count = PAGES[seed % len(PAGES)]
        photos = pictures(max(2, count - 1 - seed % 2), seed)
        case = Case(photos, slots, some_wishes(draw, slots, photos), None)
        planned += agree(case) is not None
    assert 15 < planned < 55


@pytest.mark.parametrize("seed", range(5))
def test_plan_before(seed: int) -> None:
    """With a plan before, what stays counts as it should."""
    slots, count = PAGES[seed % len(PAGES)]
    photos = pictures(count - 1, seed)
    before = plan_spread(photos, slots, Asked(pins={slots[0].name: photos[-1].key}))
    assert agree(Case(photos, slots, Asked(), before)) is not None


def test_panoramas() -> None:
    """Panoramas may go alone across a collage; the plan is still the best of all."""
    photos = [picture(0, 9000, 3000), picture(1, 2000, 7000), picture(2)]
    for slots, _ in PAGES[:2]:
        assert agree(Case(photos, slots, Asked(), None)) is not None


def test_bound_is_never_below_the_best() -> None:
    """The quick bound is at least the value of the plan, whatever was asked and whatever the prices."""
    draw = Random(8)
    for seed in range(60):
        slots, count = PAGES[seed % len(PAGES)]
        photos = pictures(count, seed)
        case = Case(photos, slots, some_wishes(draw, slots, photos), None)
        try:
            plan = plan_spread(case.pictures, case.openings, case.asked)
        except PlanError:
            continue
        table = table_for(case)
        assert upper_bound(table, prices_of(table)) >= plan.value - 1e-6
        assert upper_bound(table, prices_of(table) * draw.random() * 2) >= plan.value - 1e-6
