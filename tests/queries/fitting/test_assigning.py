"""Photos into the cells of the ways chosen."""

from dataclasses import replace

import numpy as np
import pytest

from queries.fitting.assigning import filled_by
from queries.fitting.planning import table_for
from queries.fitting.values import Asked
from queries.fitting.worth import Case
from tests.queries.fitting.made_spreads import openings, picture


@pytest.mark.parametrize(
    ("costs", "least"),
    [([[4, 1, 3], [2, 0, 5], [3, 2, 2]], 5), ([[400, 150, 400], [400, 450, 600], [300, 225, 300]], 850)],
)
def test_known_assignments(costs: list[list[int]], least: int) -> None:
    """Three pockets and three photos with costs as in the facts page ("Assignment": SciPy manual) cost the least."""
    photos = [picture(n) for n in range(3)]
    table = table_for(Case(photos, openings(((3, 3, 3),)), Asked(), None))
    table = replace(table, worths=-np.array(costs, float))
    filled = filled_by(table, [0, 0, 0])
    numbers = {photo.key: n for n, photo in enumerate(photos)}
    assert sum(costs[at][numbers[each.photos[0].key]] for at, each in enumerate(filled)) == least


def test_collage_tells_its_story_in_order() -> None:
    """Among cells of one size the earlier photo comes first, and a pinned one keeps its cell."""
    photos = [picture(n) for n in range(4)]
    table = table_for(Case(photos, openings(((6,),)), Asked(collages={"L1": 4}), None))
    assert [placed.key for placed in filled_by(table, [0])[0].photos] == [photo.key for photo in photos]
    pinned = Asked(collages={"L1": 4}, pins={"L1.2": photos[3].key})
    table = table_for(Case(photos, openings(((6,),)), pinned, None))
    found = [placed.key for placed in filled_by(table, [0])[0].photos]
    assert found == [photos[n].key for n in (0, 3, 1, 2)]
