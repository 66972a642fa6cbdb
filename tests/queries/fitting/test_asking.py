"""What was asked and cannot be: one clear line each."""

from typing import Any

import pytest

from indexer.errors import PlanError
from queries.fitting.asking import check
from queries.fitting.planning import plan_spread
from queries.fitting.values import Asked, Style
from tests.queries.fitting.made_spreads import openings, picture

OPENINGS = openings(((6, 3, 3),), ((3, 3),))
PHOTOS = [picture(n) for n in range(6)]
ONE, TWO = PHOTOS[0].key, PHOTOS[1].key


def refused(**asked: Any) -> str:
    with pytest.raises(PlanError) as caught:
        check(PHOTOS, OPENINGS, Asked(**asked))
    assert "\n" not in str(caught.value)
    return str(caught.value)


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"pins": {"L9": ONE}}, "there is no pocket L9; this spread has L1 to L3 and R1 to R2"),
        ({"cards": frozenset({"X1"})}, "there is no pocket X1"),
        ({"collages": {"R3": 2}}, "there is no pocket R3"),
        ({"pins": {"L1": ONE, "R1": ONE}}, "photo c000 is pinned to L1 and R1; it has one place"),
        ({"pins": {"L1": "keyXYZ"}}, "the photo pinned to L1 (keyXYZ) is not among the photos to place"),
        ({"pins": {"L1.x": ONE}}, "L1.x is no cell of a collage; cells are numbered from 1, such as L1.1"),
        ({"pins": {"L1.0": ONE}}, "L1.0 is no cell"),
        ({"pins": {"L1": ONE, "L1.2": TWO}}, "a photo is pinned to L1 and others to cells of it"),
        (
            {"pins": {"L1.3": ONE}, "collages": {"L1": 2}},
            "there is no cell L1.3; a collage there has 2 photos at most",
        ),
        ({"pins": {"L1.1": ONE}, "collages": {"L1": 1}}, "L1 is to hold one photo, and photos are pinned to cells"),
        ({"pins": {"L1": ONE}, "cards": frozenset({"L1"})}, "L1 is to hold a card and a pinned photo"),
        ({"cards": frozenset({"L1"}), "collages": {"L1": 3}}, "L1 is to hold a card and a collage"),
        ({"cards": frozenset({"L1"}), "empty": frozenset({"L1"})}, "L1 is to hold a card and nothing"),
        ({"collages": {"L1": 5}}, "L1=5 cannot be; a collage has 2 to 4 photos"),
        ({"collages": {"L1": 0}}, "L1=0 cannot be"),
        (
            {"collages": {"R1": 4}, "style": Style(gap=0.8)},
            "R1 (3x4 in) is too small for a collage of 4; 2 photos fit",
        ),
        ({"mat": 1.5}, "a mat of 1.5 in leaves nothing of a pocket with a side of 3 in"),
        ({"mat": -1}, "a mat of -1 in"),
        ({"card_count": 6}, "6 cards do not fit; 5 of 5 pockets are free for cards"),
        ({"card_count": 5, "pins": {"L1": ONE}}, "5 cards do not fit; 4 of 5 pockets are free for cards"),
        ({"card_count": -1}, "there cannot be -1 cards"),
        (
            {"card_count": 1, "cards": frozenset({"L1", "L2"})},
            "cards are fixed in L1, L2, more than the 1 asked for in all; ask for 2",
        ),
        ({"photo_count": 2, "collages": {"L1": 3}}, "the pins and collages asked for need 3 photos, not 2"),
        ({"photo_count": 6, "card_count": 4}, "6 photos do not fit; these pockets hold 4 at most"),
        ({"collages": {"L1": 4, "L2": 3}}, "the pins and collages asked for need 7 photos, and there are 6"),
    ],
)
def test_refused(asked: dict[str, Any], says: str) -> None:
    """Each wish that cannot be met is named, with what is wrong and a way out."""
    assert says in refused(**asked)


def test_no_pockets() -> None:
    """A spread without sleeves is refused."""
    with pytest.raises(PlanError, match="the spread has no pockets"):
        check(PHOTOS, (), Asked())


def test_what_can_be_met_passes() -> None:
    """Pins, cards, collages and counts that go together are taken."""
    asked = Asked(
        pins={"L1.2": ONE, "R1": TWO},
        cards=frozenset({"R2"}),
        empty=frozenset({"L2"}),
        collages={"L1": 3},
        card_count=1,
        photo_count=5,
    )
    check(PHOTOS, OPENINGS, asked)
    plan = plan_spread(PHOTOS, OPENINGS, asked)
    assert [each.holds for each in plan.filled] == ["collage", "empty", "photo", "photo", "card"]


def test_more_photos_asked_than_there_are() -> None:
    """A thin week is no error: all photos are placed, and the plan says how many there are."""
    plan = plan_spread(PHOTOS[:2], OPENINGS, Asked(photo_count=5))
    assert sum(len(each.photos) for each in plan.filled) == 2
    assert "5 photos asked for, and there are 2." in plan.words
