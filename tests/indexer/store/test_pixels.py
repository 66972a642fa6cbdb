"""What looking gave, and what is to be looked at."""

import os
import sqlite3
from dataclasses import replace
from datetime import date

import pytest

from indexer.facts.records import Failure
from indexer.store import pixels
from indexer.store.choices import tell_choice
from indexer.store.files import save_failures
from indexer.store.opening import transaction
from indexer.store.pixels import count_without_pixels, forget_failed, save_look, tidy, to_look_at, to_look_at_closer
from indexer.store.successions import tell_succession
from indexer.store.week_log import tell_week
from tests.indexer.seen_photos import A, B, C, asked, find_again, look, look_in_vain, lose, put, seen, taken


def to_look(connection: sqlite3.Connection) -> list[str]:
    return [photo.key for photo in to_look_at(connection)]


def kept(connection: sqlite3.Connection) -> list[str]:
    return [key for (key,) in connection.execute("SELECT key FROM pixel ORDER BY key")]


def test_a_photo_is_looked_at_once(connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whether it shows something or nothing; a new method looks again."""
    put(connection, A)
    put(connection, B)
    assert to_look(connection) == [A, B]
    look(connection, A, 1)
    look_in_vain(connection, B)
    assert to_look(connection) == []
    monkeypatch.setattr(pixels, "LOOKING", pixels.LOOKING + 1)
    assert to_look(connection) == [A, B]
    look(connection, A, 1)
    assert to_look(connection) == [B]


def test_a_missing_photo_is_not_looked_at(connection: sqlite3.Connection) -> None:
    """Until it is back."""
    put(connection, A)
    lose(connection, A)
    assert to_look(connection) == []
    find_again(connection, A)
    assert to_look(connection) == [A]


def test_the_speaking_file_is_looked_at_first(connection: sqlite3.Connection) -> None:
    """Then others that are there and shown the same way up."""
    for name, facts in (("4.jpg", {}), ("3.jpg", {"orientation": 6}), ("2.jpg", {}), ("1.jpg", {})):
        put(connection, A, *([taken(1)] if name == "2.jpg" else []), name=name, **facts)
    connection.execute("UPDATE file SET missing_since = '2026' WHERE path = ?", (b"1.jpg",))
    (photo,) = to_look_at(connection)
    assert [os.path.basename(place.path) for place in photo.places] == ["2.jpg", "4.jpg"]  # noqa: PTH119
    assert (photo.places[0].size, photo.places[0].mtime_ns) == (10, 20)
    assert (photo.width, photo.height, photo.orientation, photo.damage) == (40, 30, 1, None)


def test_the_size_is_as_displayed(connection: sqlite3.Connection) -> None:
    """Turned where the file says so."""
    put(connection, A, orientation=6)
    (photo,) = to_look_at(connection)
    assert (photo.width, photo.height) == (30, 40)


def test_a_photo_that_was_turned_is_looked_at_again(connection: sqlite3.Connection) -> None:
    """Turning changes the tags alone, so that it is still the same photo, and yet shows another picture."""
    put(connection, A)
    look(connection, A, 1)
    put(connection, A, orientation=3)
    assert to_look(connection) == [A]
    with transaction(connection):
        save_look(connection, asked(A, orientation=3), seen(2))
    assert to_look(connection) == []


def test_damage_that_reading_has_found_is_handed_on(connection: sqlite3.Connection) -> None:
    """Nobody has to decode the file to know it."""
    file = put(connection, A)
    save_failures(connection, file, [Failure("pixels", "cut off"), Failure("metadata", "garbled")])
    assert [photo.damage for photo in to_look_at(connection)] == ["cut off"]


def test_all_that_was_seen_is_written(connection: sqlite3.Connection) -> None:
    """And read through the view."""
    put(connection, A)
    facts = replace(seen(1, 2, sharpness=7.5), dark=0.25, bright=0.125, subject="text", pictures=4)
    with transaction(connection):
        save_look(connection, asked(A), replace(facts, sharpness=(None, 5.0, 6.0)))
    row = connection.execute("SELECT * FROM look").fetchone()
    assert dict(row) == {
        "key": A,
        "made_from": "decode",
        "problem": None,
        "phash": bytes([1] * 8),
        "dhash": bytes([2] * 8),
        "layout": bytes(192),
        "contrast": 40.0,
        "sharpness_960": None,
        "sharpness_480": 5.0,
        "sharpness_240": 6.0,
        "dark": 0.25,
        "bright": 0.125,
        "subject": "text",
        "pictures": 4,
    }
    assert connection.execute("SELECT grey FROM pixel").fetchone()[0] == bytes(4096)


def test_a_photo_that_shows_nothing_any_more_keeps_nothing_of_before(connection: sqlite3.Connection) -> None:
    """The reason stands alone, and is counted while the photo is there."""
    put(connection, A)
    look(connection, A, 1)
    look_in_vain(connection, A, "damaged")
    row = connection.execute("SELECT * FROM pixel").fetchone()
    assert (row["made_from"], row["problem"], row["phash"], row["grey"]) == ("nothing", "damaged", None, None)
    assert count_without_pixels(connection) == 1
    lose(connection, A)
    assert count_without_pixels(connection) == 0


def test_a_failed_look_is_forgotten_and_no_other(connection: sqlite3.Connection) -> None:
    """When a file was read anew, what could be seen is still so."""
    for key in (A, B):
        put(connection, key)
    look(connection, A, 1)
    look_in_vain(connection, B)
    forget_failed(connection, [A, B])
    assert to_look(connection) == [B]


def test_only_thumbnails_in_a_likeness_are_looked_at_closer(connection: sqlite3.Connection) -> None:
    """Of photos that are there."""
    for key in (A, B, C):
        put(connection, key)
        look(connection, key, 1, made_from="decode" if key == B else "thumbnail")
    assert to_look_at_closer(connection) == []
    connection.execute("INSERT INTO likeness VALUES (?, ?, 'copy', 1)", (A, B))
    assert [photo.key for photo in to_look_at_closer(connection)] == [A]
    connection.execute("INSERT INTO likeness VALUES (?, ?, 'copy', 1)", (B, C))
    assert [photo.key for photo in to_look_at_closer(connection)] == [A, C]
    lose(connection, A)
    assert [photo.key for photo in to_look_at_closer(connection)] == [C]


def test_a_new_look_takes_away_what_was_compared(connection: sqlite3.Connection) -> None:
    """The photo's likenesses, in both places, and no other's."""
    for one, other in ((A, B), (B, C), (A, C)):
        connection.execute("INSERT INTO likeness VALUES (?, ?, 'copy', 1)", (one, other))
    connection.execute("INSERT INTO compared VALUES (?, 'so')", (B,))
    put(connection, B)
    look(connection, B, 1)
    assert [tuple(row) for row in connection.execute("SELECT one_key, other_key FROM likeness")] == [(A, C)]
    assert connection.execute("SELECT count(*) FROM compared").fetchone()[0] == 0


@pytest.mark.parametrize("word", ["none", "choice", "holding", "old", "new"])
def test_what_was_seen_of_a_gone_picture_stays_while_a_word_names_it(connection: sqlite3.Connection, word: str) -> None:
    """The word may have to follow an edited picture; what it resembled is dropped in any case."""
    put(connection, A, name="x.jpg")
    look(connection, A, 1)
    connection.execute("INSERT INTO likeness VALUES (?, ?, 'copy', 1)", (A, B))
    put(connection, B, name="x.jpg")
    with transaction(connection):
        if word == "choice":
            tell_choice(connection, [A], "keep")
        if word == "holding":
            tell_week(connection, date(2026, 3, 30), "done", holding=[A])
        if word in ("old", "new"):
            tell_succession(connection, *((A, C) if word == "old" else (C, A)))
        tidy(connection)
    assert kept(connection) == ([] if word == "none" else [A])
    assert connection.execute("SELECT count(*) FROM likeness").fetchone()[0] == 0


def test_what_was_seen_of_a_missing_photo_stays(connection: sqlite3.Connection) -> None:
    """It may come back."""
    put(connection, A)
    look(connection, A, 1)
    lose(connection, A)
    tidy(connection)
    assert kept(connection) == [A]
