"""The order in which photos were lived, across zones."""

from datetime import datetime, timedelta
from random import Random

from queries.lived_order import in_lived_order

HOME, AWAY = 60, -300


def test_a_day_in_two_zones_is_shown_as_it_was_lived() -> None:
    """What was taken after landing comes last, though the clock there says less."""
    times = [
        ("2026-03-30T08:30:00", AWAY),  # 13:30 in universal time
        ("2026-03-30T09:00:00", HOME),  # 08:00
        ("2026-03-30T11:00:00", HOME),  # 10:00
        ("2026-03-30T12:00:00", AWAY),  # 17:00
        ("2026-03-30", None),
    ]
    assert in_lived_order(times) == [1, 2, 0, 3, 4]


def test_one_zone_or_none_changes_nothing() -> None:
    """The order of the clocks stands."""
    assert in_lived_order([("2026-03-30T09:00", HOME), ("2026-03-30T10:00", None), (None, None)]) == [0, 1, 2]
    assert in_lived_order([]) == []


def test_a_photo_without_a_zone_goes_with_its_neighbour() -> None:
    """A camera that knows no zone was in the pocket beside the phone."""
    times = [("2026-03-30T08:30:00", AWAY), ("2026-03-30T08:31:00", None), ("2026-03-30T09:00:00", HOME)]
    assert in_lived_order(times) == [2, 0, 1]


def test_known_zones_always_stand_in_universal_order() -> None:
    """For 500 days of random photos: each place once, known ones by universal time, days without a clock last."""
    random = Random(7)
    for _ in range(500):
        moments = sorted(random.randrange(1440) for _ in range(random.randrange(12)))
        zones = [random.choice((HOME, AWAY, 330, None)) for _ in moments]
        times = [(f"2026-03-30T{at // 60:02}:{at % 60:02}", zone) for at, zone in zip(moments, zones, strict=True)]
        order = in_lived_order([*times, ("2026-03-30", None)])
        assert sorted(order) == list(range(len(times) + 1))
        assert order[-1] == len(times)
        known = [times[place] for place in order[:-1] if times[place][1] is not None]
        universal = [datetime.fromisoformat(when) - timedelta(minutes=zone or 0) for when, zone in known]
        assert universal == sorted(universal)
