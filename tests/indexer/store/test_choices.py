"""Words about photos, and those that follow an edited picture."""

import sqlite3
from pathlib import Path

import pytest

from indexer.store.alikes import renew_sets
from indexer.store.backup import all_words, restore
from indexer.store.choices import tell_choice
from indexer.store.opening import open_for_writing, transaction
from indexer.store.successions import tell_succession
from tests.indexer.seen_photos import TODAY, A, B, C, look, put, sets

pytestmark = pytest.mark.usefixtures("likeness")


def tell(connection: sqlite3.Connection, key: str, choice: str | None) -> None:
    with transaction(connection):
        tell_choice(connection, [key], choice)  # type: ignore[arg-type]


def edit(connection: sqlite3.Connection, old: str, new: str, shot: int) -> None:
    """The file of the old picture is saved over, the run tells so, looks and compares."""
    put(connection, new, name="x.jpg")
    with transaction(connection):
        tell_succession(connection, old, new)
    look(connection, new, shot)
    with transaction(connection):
        renew_sets(connection)


def choices(connection: sqlite3.Connection) -> dict[str, str]:
    """What stands for each photo, by the first letter of its key."""
    return {row["photo_key"][0]: row["choice"] for row in connection.execute("SELECT * FROM photo_choice")}


@pytest.fixture
def shown(connection: sqlite3.Connection) -> sqlite3.Connection:
    """An index with one photo, looked at."""
    put(connection, A, name="x.jpg")
    look(connection, A, 1)
    return connection


def test_the_latest_word_holds_and_all_are_kept(shown: sqlite3.Connection) -> None:
    """Going back to the tool's own choice is a word too."""
    for choice in ("keep", "leave", None, "keep"):
        tell(shown, A, choice)
        assert choices(shown) == ({"a": choice} if choice else {})
    assert [row["choice"] for row in all_words(shown)["choice"]] == ["keep", "leave", None, "keep"]


def test_a_word_follows_an_edited_picture_that_shows_the_same(shown: sqlite3.Connection) -> None:
    """Through several edits."""
    tell(shown, A, "leave")
    edit(shown, A, B, shot=1)
    edit(shown, B, C, shot=1)
    assert choices(shown) == {"a": "leave", "b": "leave", "c": "leave"}
    assert shown.execute("SELECT key, choice, keeper FROM photo").fetchone()["keeper"] == 0
    tell(shown, A, None)
    assert choices(shown) == {}


def test_a_word_waits_where_another_picture_was_saved_over(shown: sqlite3.Connection) -> None:
    """It is kept, and comes to hold should the picture be edited back."""
    tell(shown, A, "leave")
    edit(shown, A, B, shot=2)
    assert choices(shown) == {"a": "leave"}
    edit(shown, B, C, shot=1)
    assert choices(shown) == {"a": "leave"}  # what lies between shows something else


def test_a_word_waits_until_both_pictures_were_looked_at(shown: sqlite3.Connection) -> None:
    """A file that is edited before the next look cannot be held against what it was."""
    tell(shown, A, "keep")
    put(shown, B, name="x.jpg")
    with transaction(shown):
        tell_succession(shown, A, B)
        renew_sets(shown)
    assert choices(shown) == {"a": "keep"}
    look(shown, B, 1)
    with transaction(shown):
        renew_sets(shown)
    assert choices(shown) == {"a": "keep", "b": "keep"}


def test_a_later_word_about_the_new_picture_outranks_the_followed_one(shown: sqlite3.Connection) -> None:
    """And going back there means the tool's own choice."""
    tell(shown, A, "leave")
    edit(shown, A, B, shot=1)
    tell(shown, B, "keep")
    assert choices(shown) == {"a": "leave", "b": "keep"}
    tell(shown, B, None)
    assert choices(shown) == {"a": "leave"}
    tell(shown, A, "leave")
    assert choices(shown) == {"a": "leave", "b": "leave"}


def test_going_back_to_the_old_picture_takes_the_words_along(shown: sqlite3.Connection) -> None:
    """Two pictures that came after each other, round in a ring."""
    edit(shown, A, B, shot=1)
    tell(shown, B, "keep")
    edit(shown, B, A, shot=1)
    assert choices(shown) == {"a": "keep", "b": "keep"}


def test_a_followed_word_makes_a_keeper(shown: sqlite3.Connection) -> None:
    """As one told of the picture itself would."""
    put(shown, C, stored_width=400, stored_height=300)
    look(shown, C, 1)
    tell(shown, A, "keep")
    edit(shown, A, B, shot=1)
    assert sets(shown) == [("copy", "bc", "b")]


def test_restored_words_make_the_sets_anew(shown: sqlite3.Connection, tmp_path: Path) -> None:
    """In the transaction that brings them back, whichever index they come into."""
    put(shown, B)
    look(shown, B, 1)
    with transaction(shown):
        renew_sets(shown)
    assert sets(shown) == [("copy", "ba", "b")]
    other = open_for_writing(tmp_path / "other.db", create=True)
    tell(other, A, "keep")
    restore(shown, all_words(other), TODAY)
    other.close()
    assert sets(shown) == [("copy", "ab", "a")]
