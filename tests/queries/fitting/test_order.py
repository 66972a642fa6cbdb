"""Places in the story and on the spread."""

from itertools import permutations

import pytest

from queries.fitting.order import places_in_story, places_on_spread, standings
from queries.fitting.weights import WEIGHTS
from queries.fitting.worth import story_worth
from tests.queries.fitting.made_spreads import picture


def test_places_go_by_order_not_by_number() -> None:
    """Orders with gaps, in any sequence, are spread evenly over 0..1."""
    photos = [picture(90), picture(3), picture(7), picture(8)]
    assert places_in_story(photos) == [0.875, 0.125, 0.375, 0.625]
    assert places_on_spread(4) == [0.125, 0.375, 0.625, 0.875]


def test_standings_go_from_one_to_nothing() -> None:
    """The best of the shortlist stands at 1, the last at 0, a lone photo at 1."""
    photos = [picture(0, rank=5), picture(1, rank=1), picture(2, rank=9)]
    assert standings(photos) == pytest.approx([0.5, 1, 0])
    assert standings(photos[:1]) == pytest.approx([1])
    assert standings([]) == []


def test_story_in_order_is_worth_most() -> None:
    """Of all ways to lay five photos into five pockets, the order lived is worth strictly most."""
    places = places_on_spread(5)
    worth = {
        laid: sum(story_worth(places[photo], place, WEIGHTS) for photo, place in zip(laid, places, strict=True))
        for laid in permutations(range(5))
    }
    best = max(worth.values())
    assert [laid for laid, each in worth.items() if each > best - 1e-9] == [(0, 1, 2, 3, 4)]
