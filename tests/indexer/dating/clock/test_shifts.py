"""Round shifts."""

import pytest

from indexer.dating.clock.shifts import round_shift


@pytest.mark.parametrize(
    ("votes", "shift"),
    [
        ([3_600], 3_600),
        ([3_655, 3_700, 3_718], 3_600),
        ([-3_500, -3_520], -3_600),
        ([285_140, 285_110, 285_190], 285_120),
        ([7_754, 7_755, 7_755, 7_756], 7_755),
        ([7_754, 7_755], 7_740),
        ([-7_755, -7_700, -7_800], -7_740),
    ],
)
def test_shifts_are_rounded_as_clocks_are_set(votes: list[int], shift: int) -> None:
    """To the hour if near one, to the second if many votes agree on it, else to the minute."""
    assert round_shift(votes) == shift
