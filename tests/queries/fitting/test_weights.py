"""What the weights promise."""

from queries.fitting.collages import collages_for
from queries.fitting.planning import plan_spread
from queries.fitting.resolution import lack_of
from queries.fitting.values import Asked, Style
from queries.fitting.weights import WEIGHTS
from tests.queries.fitting.made_spreads import openings, picture


def test_placing_a_photo_outweighs_all_that_can_be_wrong_with_it() -> None:
    """Cut, turned, blurred and out of order all at once, a photo is still worth more in a pocket than left out."""
    by = WEIGHTS
    worst = by.cut + by.turned + lack_of(0, by) + by.story
    assert by.placed + by.filled + by.area * 6 > worst


def test_blurry_outweighs_rank() -> None:
    """A picture under 200 dpi loses more than the first of the shortlist gains."""
    assert lack_of(199.9, WEIGHTS) > WEIGHTS.rank


def test_worst_photo_is_placed_while_there_is_room() -> None:
    """A 90-pixel panorama, ranked last, still gets a pocket in a thin week, and none in a full one."""
    bad = picture(9, 90, 30)
    thin = plan_spread([picture(0), bad], openings(((3, 3, 3, 3),)), Asked())
    assert bad.key in {photo.key for each in thin.filled for photo in each.photos}
    full = plan_spread([bad, *(picture(n) for n in range(4))], openings(((3, 3, 3, 3),)), Asked())
    assert bad.key not in {photo.key for each in full.filled for photo in each.photos}


def test_no_collage_without_need() -> None:
    """With as many photos as pockets that suit them, or many more, every pocket holds one photo."""
    for count in (4, 40):
        plan = plan_spread([picture(n) for n in range(count)], openings(((6, 6), (6, 6))), Asked())
        assert all(each.holds == "photo" for each in plan.filled)


def test_two_uprights_share_a_wide_pocket_rather_than_lose_half() -> None:
    """Upright photos and wide pockets only: two stand side by side in one, whole, and a card takes the other pocket."""
    plan = plan_spread([picture(n, 3000, 4000) for n in range(2)], openings(((6, 6),)), Asked())
    assert sorted(each.holds for each in plan.filled) == ["card", "collage"]
    assert min(photo.kept for each in plan.filled for photo in each.photos) > 0.99


def test_extra_photos_in_collages_lose_more_than_rank_gives() -> None:
    """Beyond the pockets, a photo in a collage adds less by its rank than the crowd costs."""
    assert WEIGHTS.crowd > WEIGHTS.rank
    assert collages_for(6.0, 4.0, Style())
