"""What is to be said of a week's plan beside the plan itself"""

import pytest

from queries.cropping.values import WHOLE, Window
from queries.fitting.values import Asked
from queries.spread import notes
from tests.queries.spread.made_plans import KITE, PIER, kept, photo, week

APRIL = week("2026-04-06")


def test_lost_photos_are_named() -> None:
    """By their code, or by the first letters of what the index no longer knows."""
    lines = notes.lost_words({KITE: "was left out", PIER: "is gone from the disk"}, {KITE: photo(KITE, code="kite1")})
    assert lines == [
        "kite1 was left out; its place was planned anew.",
        f"{PIER[:5]} is gone from the disk; its place was planned anew.",
    ]


def test_what_falls_away_with_a_sleeve() -> None:
    """Pins, cards and collages of the page that changed, in order."""
    own = kept(asked=Asked(pins={"R2": KITE, "L1": PIER}, cards=frozenset({"R1"})))
    assert notes.dropped_words(own, ["L"]) == ["What was fixed in R1, R2 falls away, as that page has another sleeve."]
    assert notes.dropped_words(own, ["L", "R"]) == notes.dropped_words(None, []) == []


def test_photos_of_other_weeks() -> None:
    """Each is said once."""
    assert notes.strangers_words(kept(), {PIER: photo(PIER, code="pier2")}, [KITE]) == [
        "pier2 is no photo of this week."
    ]


def test_no_photos() -> None:
    """Whether there are none, none to plan with, or none on the disk."""
    assert notes.no_photos_error(APRIL, [], []).startswith("there are no photos in 6 - 12 Apr 2026, week 15; name some")
    assert "1 photo and none to plan with" in notes.no_photos_error(APRIL, [photo(KITE)], [])
    assert "on the disk" in notes.no_photos_error(APRIL, [photo(KITE)], [photo(KITE)])


@pytest.mark.parametrize(
    ("told", "window", "says"),
    [
        ("left", Window(0, 0.1, 1, 0.9), "loses nothing at the sides: its crop left moves nothing here."),
        ("top", Window(0.1, 0, 0.9, 1), "loses nothing at the top and bottom: its crop top moves nothing here."),
        (0.2, WHOLE, "loses nothing in its pocket: its crop 0.2 moves nothing here."),
        ("top", Window(0, 0.1, 1, 0.9), None),
        ("center", Window(0, 0.1, 1, 0.9), None),
        (0.2, Window(0.1, 0, 0.9, 1), None),
        ("auto", WHOLE, None),
    ],
)
def test_a_crop_that_moves_nothing_is_said(told: str | float, window: Window, says: str | None) -> None:
    """Where nothing is cut off along the side that was told."""
    lines = notes.idle_crop_words({KITE: told, PIER: "left"}, {KITE: window}, {KITE: photo(KITE, code="kite1")})
    assert lines == ([f"kite1 {says}"] if says else [])
