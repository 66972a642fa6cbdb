"""Candidates from what is known of photos."""

import sqlite3
from datetime import date, datetime, time

from queries.looks import looks_of, scenes_by_photo, sets_by_photo
from queries.photos import photos_of_week
from queries.shortlist import Candidate, candidates_of, shortlist
from queries.weeks import WeekRule
from tests.queries.made_rows import put_choice, put_look, put_photo, put_set

W14 = WeekRule().week_named(2026, 14)
A, B, C, D, E = (letter * 32 for letter in "abcde")


def candidates(index: sqlite3.Connection, starts_at: time = time(0)) -> list[Candidate]:
    photos = photos_of_week(index, W14, starts_at)
    keys = [photo.key for photo in photos]
    sets, scenes = sets_by_photo(index, keys), scenes_by_photo(index, keys)
    return candidates_of(photos, looks_of(index, keys), sets, scenes, starts_at)


def test_a_candidate_has_what_is_known_of_its_photo(index: sqlite3.Connection) -> None:
    """Day and time, size and shape, what was seen, the sets and the choice."""
    put_photo(index, A, "2026-04-01T02:30:10", size=(3000, 4000))
    put_look(index, A)
    put_set(index, 7, "burst", [A, B])
    put_choice(index, A, "keep")
    assert candidates(index, time(4)) == [
        Candidate(
            key=A,
            day=date(2026, 3, 31),
            taken=datetime.fromisoformat("2026-04-01T02:30:10"),
            width=3000,
            height=4000,
            shape="portrait",
            choice="keep",
            sets=frozenset({7}),
            code="aaaaa",
            phash=bytes(8),
            layout=bytes(192),
            sharpness=200.0,
            dark=0.0,
            bright=0.0,
            contrast=40.0,
        )
    ]


def test_a_fraction_of_a_second_counts_and_a_day_has_no_hour(index: sqlite3.Connection) -> None:
    """What is known by day only has no clock time."""
    put_photo(index, A, "2026-04-01T10:00:00")
    index.execute("UPDATE picture SET fraction = '25'")
    put_photo(index, B, "2026-04-01T10:01")
    put_photo(index, C, "2026-04-01")
    times = ["2026-04-01T10:00:00.250000", "2026-04-01T10:01:00", None]
    found = [candidate.taken for candidate in candidates(index)]
    assert [taken and taken.isoformat() for taken in found] == times


def test_a_photo_put_here_by_hand_has_no_hour(index: sqlite3.Connection) -> None:
    """Its clock time is of another day, and makes no occasion of this week."""
    put_photo(index, A, "2026-04-12T10:00:00", placed="2026-04-02")
    assert [(candidate.day, candidate.taken) for candidate in candidates(index)] == [(date(2026, 4, 2), None)]


def test_a_shortlist_from_the_index(index: sqlite3.Connection) -> None:
    """A burst counts by its keeper, a screenshot is set aside, a photo left by hand is nowhere."""
    for key, name in zip((A, B, C, D, E), ("", "", "Screenshot_20260401-100000.png", "", ""), strict=True):
        put_photo(index, key, f"2026-04-0{1 if key < D else 2}T10:00:0{'abcde'.index(key[0])}", name=name)
        put_look(index, key)
    put_set(index, 1, "burst", [B, A])
    put_choice(index, E, "leave")
    found = shortlist(candidates(index), 12)
    assert [item.candidate.key for item in found.chosen] == [B, D]
    assert [(item.candidate.key, item.reason) for item in found.set_aside] == [(C, "screenshot")]
