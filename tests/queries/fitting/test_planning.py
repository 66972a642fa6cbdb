"""Plans of spreads: against an assignment solver, and what holds for every plan."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment

from queries.fitting.kept import kept_share
from queries.fitting.planning import plan_spread
from queries.fitting.resolution import dpi_of
from queries.fitting.values import Asked, Plan
from queries.fitting.weights import WEIGHTS
from tests.queries.fitting.made_spreads import openings, picture, pictures

STEPPING = openings(((6, 3, 3), (3, 6, 3), (3, 3, 6)), ((6, 6), (3, 3, 3, 3), (6, 6)))


def keys_of(plan: Plan) -> dict[str, list[str]]:
    return {each.opening.name: [placed.key for placed in each.photos] for each in plan.filled}


@pytest.mark.parametrize("seed", range(10))
def test_single_photos_are_an_assignment(seed: int) -> None:
    """Where pockets are too small for collages and only the crop counts, the losses are the least that
    `linear_sum_assignment` finds."""
    slots = openings(((4, 3, 5), (3, 5, 4)), ((4, 4, 4),))
    photos = pictures(len(slots), seed)
    crop_only = replace(
        WEIGHTS, rank=0, turned=0, soft=0, blurry=0, story=0, balance_spread=0, balance_page=0, even=0, cut=1, area=0
    )
    plan = plan_spread(photos, slots, Asked(), by=crop_only)
    losses = np.array([[1 - kept_share(photo, opening.box) for photo in photos] for opening in slots])
    rows, columns = linear_sum_assignment(losses)
    assert sum(1 - placed.kept for each in plan.filled for placed in each.photos) == pytest.approx(
        losses[rows, columns].sum()
    )


def some_asked(draw: Random, keys: list[str]) -> Asked:
    names = draw.sample([opening.name for opening in STEPPING], 6)
    return Asked(
        pins=dict(zip(names[:2], draw.sample(keys, 2), strict=True)),
        cards=frozenset(names[2 : 2 + draw.randint(0, 2)]),
        empty=frozenset(names[4 : 4 + draw.randint(0, 1)]),
        collages={draw.choice(("L1", "R1", "R8")): 3} if draw.random() < 0.3 else {},
        card_count=draw.choice((None, 3)),
        mat=draw.choice((0.0, 0.125)),
    )


def test_what_holds_for_every_plan() -> None:
    """No photo twice, no pocket twice, pins and cards kept, cells in their pockets, shares and dpi as the crop says."""
    draw, planned = Random(6), 0
    for seed in range(40):
        photos = {photo.key: photo for photo in pictures(draw.randint(5, 30), seed)}
        asked = some_asked(draw, list(photos))
        if set(asked.collages) & (asked.cards | asked.empty):
            continue
        planned += 1
        plan = plan_spread(list(photos.values()), STEPPING, asked)
        assert [each.opening for each in plan.filled] == list(STEPPING)
        placed = [one for each in plan.filled for one in each.photos]
        assert len({one.key for one in placed}) == len(placed)
        where = keys_of(plan)
        assert all(key in where[name] for name, key in asked.pins.items())
        holds = {each.opening.name: each.holds for each in plan.filled}
        assert all(holds[name] == "card" for name in asked.cards)
        assert all(holds[name] == "empty" for name in asked.empty)
        assert asked.card_count in (None, list(holds.values()).count("card"))
        assert plan.optimal
        assert 0 <= plan.balance <= 1
        for each in plan.filled:
            assert (each.holds in ("photo", "collage")) == bool(each.photos)
            for one in each.photos:
                box, cell = each.opening.box, one.cell
                assert box.x <= cell.x
                assert box.y <= cell.y
                assert cell.x + cell.width <= box.x + box.width + 1e-9
                assert cell.y + cell.height <= box.y + box.height + 1e-9
                assert one.kept == kept_share(photos[one.key], cell)
                assert one.dpi == dpi_of(photos[one.key], cell)
                assert 0 < one.kept <= 1 + 1e-12
    assert planned > 25


def test_same_photos_in_any_sequence_make_the_same_plan() -> None:
    """The plan does not depend on the sequence in which the photos are given."""
    photos = pictures(20, 3)
    plan = plan_spread(photos, STEPPING, Asked())
    again = plan_spread(Random(1).sample(photos, len(photos)), STEPPING, Asked())
    assert again.value == pytest.approx(plan.value)


def test_planned_again_with_one_pin_most_stay() -> None:
    """One photo pinned elsewhere moves few of the others, fewer than planning afresh does or as few."""
    photos = pictures(len(STEPPING), 4)
    before = plan_spread(photos, STEPPING, Asked())
    moved = before.filled[0].photos[0].key
    asked = Asked(pins={"R2": moved})
    stays = keys_of(plan_spread(photos, STEPPING, asked, before=before))
    fresh = keys_of(plan_spread(photos, STEPPING, asked))
    was = keys_of(before)
    same = [sum(found[name] == was[name] for name in was) for found in (stays, fresh)]
    assert same[0] >= same[1]
    assert same[0] >= len(was) - 4


def test_photos_asked_for_make_collages() -> None:
    """More photos asked for than there are pockets go into collages, exactly so many."""
    plan = plan_spread(pictures(40, 5), STEPPING, Asked(photo_count=23))
    assert sum(len(each.photos) for each in plan.filled) == 23
    assert any(each.holds == "collage" for each in plan.filled)


def test_cards_lie_on_both_pages() -> None:
    """Four cards are two on each page, if shapes leave the choice."""
    photos = [picture(n, 3000, 4000) for n in range(12)]
    plan = plan_spread(photos, openings(((3, 3, 3, 3), (3, 3, 3, 3)), ((3, 3, 3, 3), (3, 3, 3, 3))), Asked())
    sides = [each.opening.side for each in plan.filled if each.holds == "card"]
    assert (sides.count("left"), sides.count("right")) == (2, 2)


def test_panorama_takes_a_wide_pocket() -> None:
    """A panorama goes where most of it is seen: into the one wide pocket, alone and across if that keeps more."""
    photos = [picture(n, 3000, 4000) for n in range(6)] + [picture(6, 9000, 3000)]
    plan = plan_spread(photos, openings(((3, 3, 3, 3), (3, 6, 3))), Asked())
    assert keys_of(plan)["L6"] == ["key006"]
