"""Grounds in words."""

import pytest

from indexer.dating.clock.seconds import seconds_of
from indexer.dating.clock.wording import counted, duration, listed, time_text


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(0, "0 s"), (285_120, "3 d 7 h 12 min"), (-3_600, "1 h"), (61, "1 min 1 s"), (4_085 * 86_400, "4,085 d")],
)
def test_durations(seconds: int, text: str) -> None:
    """A duration names its parts and leaves out those that are nought."""
    assert duration(seconds) == text


def test_times() -> None:
    """Times are written as everywhere else, to the minute."""
    assert time_text(seconds_of("2026-03-30T09:15:20")) == "30 Mar 2026, 09:15"


def test_counts_and_names() -> None:
    """One is singular; of many devices two are named."""
    assert (counted(1, "day"), counted(1_200, "day")) == ("1 day", "1,200 days")
    assert listed(["Quay 3"]) == "the Quay 3"
    assert listed(["Quay 3", "Mole 2"]) == "the Quay 3 and the Mole 2"
    assert listed(["Quay 3", "Mole 2", "Pier 1"]) == "the Quay 3, the Mole 2 and others"
