"""The reason for each photo, in a few words."""

from dataclasses import replace
from datetime import datetime

import pytest

from queries.shortlist.choosing import shortlist
from queries.shortlist.occasions import occasions_of
from queries.shortlist.reasons import occasion_names
from queries.shortlist.values import Candidate
from tests.queries.shortlist.made_candidates import candidate, reasons


def names(*photos: Candidate) -> list[str]:
    return list(occasion_names(occasions_of(photos)).values())


def test_each_photo_has_its_reason() -> None:
    """Kept, alone, first, different and more of the same."""
    week = [
        candidate("a", 1),
        candidate("b", 5, "10:00", phash=bytes(8), layout=bytes(192)),
        candidate("c", 5, "10:01", phash=bytes(8), layout=bytes(192)),
        candidate("d", 5, "10:02"),
        candidate("e", 5, "19:00"),
        candidate("f", 6, choice="keep"),
    ]
    assert reasons(shortlist(week, 6)) == [
        "the only one of Tuesday",
        "first choice of Saturday morning",
        "one more of Saturday morning",
        "a different view of Saturday morning",
        "the only one of Saturday evening",
        "kept by you",
    ]


@pytest.mark.parametrize(("tint", "expected"), [(0, "one more"), (14, "a different view")])
def test_a_view_is_different_below_a_likeness(tint: int, expected: str) -> None:
    """Hashes as of strangers and equal colours are half alike: one more. With a tint of 14 they are 0.31 alike."""
    first = candidate("a", phash=bytes(8), layout=bytes([128] * 192))
    second = candidate("b", phash=bytes([255] * 4 + [0] * 4), layout=bytes([128, 128, 128 + tint] * 64))
    assert f"{expected} of Monday" in reasons(shortlist([first, second], 2))


def test_a_different_view_is_said_only_of_what_was_seen() -> None:
    """Photos whose pixels are not known are one more."""
    week = [candidate(f"{number}", clock=f"10:0{number}", phash=None, layout=None) for number in range(2)]
    assert sorted(reasons(shortlist(week, 2))) == ["first choice of Monday", "one more of Monday"]


def test_a_keeper_is_not_the_only_one() -> None:
    """Where there are photos alike to it, it stands for them."""
    week = [candidate("a", sets=frozenset({1})), candidate("b", clock="10:01", keeper=False, sets=frozenset({1}))]
    assert reasons(shortlist(week, 6)) == ["stands for all of Monday"]


def test_a_day_with_one_occasion_gives_it_its_name() -> None:
    """The hour is told only where there are several."""
    assert names(candidate(clock="09:00"), candidate(clock="09:01"), candidate(day=2, clock=None)) == [
        "Monday",
        "Wednesday",
    ]


def test_occasions_are_called_by_the_part_of_the_day() -> None:
    """Each by the time of its first photo; those without a clock time say so."""
    clocks = ("05:00", "12:00", "17:00", "22:00", None)
    assert names(*(candidate(clock=clock) for clock in clocks)) == [
        "Monday morning",
        "Monday afternoon",
        "Monday evening",
        "Monday night",
        "Monday, hour unknown",
    ]


def test_two_of_one_part_of_the_day_are_counted() -> None:
    """By their place among all occasions of the day."""
    assert names(candidate(clock="06:00"), candidate(clock="09:00"), candidate(clock="13:00")) == [
        "the first occasion of Monday",
        "the second occasion of Monday",
        "Monday afternoon",
    ]


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        (0, "Monday night"),
        (1, "the small hours of Tuesday"),
    ],
)
def test_the_small_hours_go_with_the_album_day(day: int, expected: str) -> None:
    """A photo after midnight is of the night before where the album day says so, else of the day's small hours."""
    taken = datetime.fromisoformat("2026-03-31T01:00")
    photos = [candidate(day=day, taken=taken), candidate(day=day, clock="12:00")]
    assert expected in names(*sorted(photos, key=lambda photo: str(photo.taken)))


def test_more_occasions_than_have_a_word_have_a_number() -> None:
    """The eleventh and twelfth occasion of a day are late in the evening and share a part of the day."""
    twelve = occasions_of([candidate(clock=f"{2 * number:02}:00") for number in range(12)])
    late = [replace(occasion, start=datetime.fromisoformat("2026-03-30T23:00")) for occasion in twelve]
    assert list(occasion_names(late).values())[-3:] == [
        "the tenth occasion of Monday",
        "occasion 11 of Monday",
        "occasion 12 of Monday",
    ]
