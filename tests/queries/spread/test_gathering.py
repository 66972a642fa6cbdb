"""The photos that a week's spread may hold"""

from queries.spread.gathering import pictures_of
from tests.queries.spread.made_plans import CAT, GULL, KITE, PIER, photo


def test_rank_is_the_order_given_and_order_that_of_the_week() -> None:
    """Each photo once, with its zoom."""
    found = pictures_of([photo(PIER), photo(KITE), photo(PIER)], [KITE, GULL, PIER], {KITE: 1.5})
    assert [(item.key, item.rank, item.order, item.zoom) for item in found] == [(PIER, 0, 2, 1.0), (KITE, 1, 0, 1.5)]


def test_photos_of_other_weeks_stand_before_or_after() -> None:
    """By when they were taken; one without any time stands first."""
    photos = [
        photo(CAT, taken="2026-05-01T10:00:00", placed="2026-05-01T10:00:00"),
        photo(KITE),
        photo(GULL, taken=None, placed=None),
        photo(PIER, taken="2025-12-01", placed="2025-12-01"),
    ]
    found = sorted(pictures_of(photos, [KITE], {}), key=lambda item: item.order)
    assert [item.key for item in found] == [GULL, PIER, KITE, CAT]
    assert len({item.order for item in found}) == 4
