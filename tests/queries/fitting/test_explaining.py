"""The reasons and the notes of a plan."""

from queries.fitting.planning import plan_spread
from queries.fitting.values import Asked, Plan
from tests.queries.fitting.made_spreads import openings, picture


def whys(plan: Plan) -> dict[str, str]:
    return {each.opening.name: each.why for each in plan.filled}


def test_losses_and_places() -> None:
    """What fits, what is cut and where, what stands first, and what is turned."""
    photos = [picture(0, 6000, 4000), picture(1, 4000, 3000), picture(2, 3840, 2160), picture(3, 3000, 4000)]
    pins = {f"L{number}": photo.key for number, photo in enumerate(photos, 1)}
    plan = plan_spread(photos, openings(((6, 6), (6, 6))), Asked(pins=pins))
    assert whys(plan) == {
        "L1": "pinned by you, first of the story, fits as it is",
        "L2": "pinned by you, loses 11 % top and bottom",
        "L3": "pinned by you, loses 16 % at the sides",
        "L4": "pinned by you, loses 50 % top and bottom, the other way round than its pocket",
    }
    assert plan.words == ()


def test_blurry() -> None:
    """A picture of 90 pixels is said to be blurry, in its pocket and in the notes."""
    plan = plan_spread([picture(0, 90, 60)], openings(((6,),)), Asked())
    assert whys(plan)["L1"] == "first of the story, fits as it is, will look blurry: 15 dpi"
    assert plan.words == ("1 photo will look blurry (under 200 dpi).",)


def test_thin_week() -> None:
    """Too few photos are said in a plain word, and the cards say why they are there."""
    plan = plan_spread([picture(0)], openings(((6, 6),)), Asked())
    assert plan.words == ("A thin week: 1 photo for 2 pockets, so that 1 holds cards.",)
    assert sorted(whys(plan).values()) == ["first of the story, loses 11 % top and bottom", "no photo left for it"]


def test_no_photos_at_all() -> None:
    """Without photos all pockets hold cards."""
    plan = plan_spread([], openings(((6, 6),)), Asked())
    assert [each.holds for each in plan.filled] == ["card", "card"]
    assert plan.optimal


def test_cards_empties_and_those_left_over() -> None:
    """Cards asked for say so; pockets that stay empty, and photos without a place, are counted."""
    few = plan_spread([picture(0)], openings(((3, 3, 3, 3),)), Asked(cards=frozenset({"L1"}), card_count=2))
    assert whys(few)["L1"] == "a card as asked"
    assert "one of 2 cards asked for" in whys(few).values()
    assert "1 pocket stays empty: there are no more photos, and 2 cards asked for." in few.words
    assert "no photo or card left for it" in whys(few).values()
    many = plan_spread([picture(n) for n in range(5)], openings(((6, 6),)), Asked(empty=frozenset({"L1"})))
    assert whys(many)["L1"] == "left empty as asked"
    assert many.words == ("4 photos of 5 found no place.",)
    counted = plan_spread([picture(n) for n in range(3)], openings(((6, 6),)), Asked(card_count=0, photo_count=1))
    assert counted.words == (
        "1 pocket stays empty: 1 photo and 0 cards asked for.",
        "2 photos of 3 found no place.",
    )


def test_a_thin_week_with_a_collage() -> None:
    """The numbers of pockets add up where several photos stand in one."""
    plan = plan_spread([picture(n) for n in range(3)], openings(((6, 6),)), Asked(collages={"L1": 3}))
    assert plan.words[0] == "A thin week: 3 photos in 1 of 2 pockets, so that 1 holds cards."


def test_collage_and_staying() -> None:
    """A collage says what it looks like; what stays says so."""
    photos = [picture(n, 3000, 4000) for n in range(2)]
    asked = Asked(collages={"L1": 2})
    plan = plan_spread(photos, openings(((6,),)), asked)
    assert whys(plan)["L1"] == "first of the story, 2 side by side, all fit as they are"
    again = plan_spread(photos, openings(((6,),)), asked, before=plan)
    assert whys(again)["L1"].startswith("stays where it was")


def test_zoomed() -> None:
    """A zoom told by the person cuts all round."""
    plan = plan_spread([picture(0, 6000, 4000, zoom=1.2)], openings(((6,),)), Asked())
    assert whys(plan)["L1"] == "first of the story, loses 31 % all round"
