"""The sets that the index holds."""

import sqlite3
from datetime import date

import pytest

from indexer.facts.records import Camera, Claim
from indexer.store.alikes import count_sets, make_sets, renew_sets
from indexer.store.choices import tell_choice
from indexer.store.opening import transaction
from indexer.store.settings import tell_setting
from tests.indexer.seen_photos import A, B, C, D, SimpleLikeness, find_again, look, lose, put, sets, taken

TODAY = date(2026, 6, 1)

pytestmark = pytest.mark.usefixtures("likeness")


def renew(connection: sqlite3.Connection) -> None:
    with transaction(connection):
        renew_sets(connection)


def burst_of_three(connection: sqlite3.Connection) -> None:
    for second, (key, sharpness) in enumerate(((A, 1.0), (B, 9.0), (C, 5.0))):
        put(connection, key, taken(second))
        look(connection, key, second + 1, scene=7, sharpness=sharpness)
    renew(connection)


def keepers(connection: sqlite3.Connection) -> str:
    """The photos that stand for themselves or their set, by the first letters of their keys."""
    return "".join(key[0] for (key,) in connection.execute("SELECT key FROM photo WHERE keeper ORDER BY key"))


def test_sets_stand_in_the_index_with_their_reason(connection: sqlite3.Connection) -> None:
    """The keeper first, the reason with it alone; the view of photos knows who is left out."""
    burst_of_three(connection)
    put(connection, D)
    rows = [tuple(row) for row in connection.execute("SELECT kind, photo_key, place, keeper, reason FROM alike_set")]
    assert rows == [("burst", B, 0, 1, "sharpest of 3"), ("burst", A, 1, 0, ""), ("burst", C, 2, 0, "")]
    assert keepers(connection) == "bd"
    assert count_sets(connection) == {"copy": 0, "burst": 1}


def test_only_photos_that_are_there_are_in_sets(connection: sqlite3.Connection, likeness: SimpleLikeness) -> None:
    """One that comes back is in its set again, without being compared anew."""
    burst_of_three(connection)
    lose(connection, B)
    renew(connection)
    assert sets(connection) == [("burst", "ca", "c")]
    find_again(connection, B)
    renew(connection)
    assert sets(connection) == [("burst", "bac", "b")]
    assert len(likeness.compared) == 1


def test_no_set_rests_on_thumbnails(connection: sqlite3.Connection) -> None:
    """Both photos have to have been decoded."""
    for key, made_from in ((A, "decode"), (B, "thumbnail"), (C, "decode")):
        put(connection, key)
        look(connection, key, 1, made_from=made_from)
    renew(connection)
    assert sets(connection) == [("copy", "ac", "a")]


def test_an_edit_stands_before_the_original_and_a_messaged_copy_before_neither(connection: sqlite3.Connection) -> None:
    """Told by the name and by the date of modification, from what the files say."""
    modified = Claim("exif modified", "", "2026-03-31T10:00:00", "second")
    for key, claims, name in (
        (A, [taken(0)], "DCIM/1.jpg"),
        (B, [taken(0), modified], "DCIM/2.jpg"),
        (C, [], "messages/3.jpg"),
    ):
        put(connection, key, *claims, name=name, **({"stored_width": 20, "stored_height": 15} if key == C else {}))
        look(connection, key, 1)
    renew(connection)
    assert sets(connection) == [("copy", "bac", "b")]
    put(connection, B, taken(0), name="DCIM/2.jpg")
    put(connection, B, taken(0), name="edited/2.jpg")
    renew(connection)
    assert sets(connection) == [("copy", "abc", "a")]  # its file in DCIM is still there
    connection.execute("UPDATE file SET missing_since = '2026' WHERE path = ?", (b"DCIM/2.jpg",))
    put(connection, B, taken(0), name="edited/2.jpg")
    renew(connection)
    assert sets(connection) == [("copy", "bac", "b")]


def test_a_choice_is_applied_in_the_same_transaction(connection: sqlite3.Connection, likeness: SimpleLikeness) -> None:
    """And taken back in the next; nothing is compared for it."""
    burst_of_three(connection)
    with transaction(connection):
        tell_choice(connection, [A, C], "keep")
        assert sets(connection) == [("burst", "abc", "ac")]
    assert keepers(connection) == "ac"
    with transaction(connection):
        tell_choice(connection, [A, C], None)
        tell_choice(connection, [B], "leave")
    assert (sets(connection), keepers(connection)) == ([("burst", "cab", "c")], "c")
    assert len(likeness.compared) == 1


def test_a_choice_of_a_photo_in_no_set_stands_by_itself(connection: sqlite3.Connection) -> None:
    """A left one is no keeper."""
    for key in (A, B):
        put(connection, key)
    with transaction(connection):
        tell_choice(connection, [A], "leave")
    assert (sets(connection), keepers(connection)) == ([], "b")


def test_sets_follow_a_new_time_zone_in_the_same_transaction(
    connection: sqlite3.Connection, likeness: SimpleLikeness
) -> None:
    """A phone's universal times move against the camera's wall clock, and only they are compared anew."""
    put(connection, A, taken("2026-03-30T14:00:00"))
    name = "PXL_20260330_100005000.jpg"
    put(
        connection,
        B,
        Claim("file name", name, "2026-03-30T10:00:05", "second", is_utc=True),
        camera=Camera("", "P4", ""),
    )
    with transaction(connection):
        tell_setting(connection, "home.timezone", "UTC", TODAY)
    for shot, key in enumerate((A, B), start=1):
        look(connection, key, shot, scene=7)
    renew(connection)
    assert sets(connection) == []
    with transaction(connection):
        tell_setting(connection, "home.timezone", "Asia/Dubai", TODAY)  # four hours ahead, all year round
        assert sets(connection) == [("burst", "ab", "a")]
    assert likeness.compared == [{A, B}, {B}]


def test_sets_are_made_anew_from_nothing_but_what_is_there(connection: sqlite3.Connection) -> None:
    """However often: numbers and members are the same."""
    burst_of_three(connection)
    before = [tuple(row) for row in connection.execute("SELECT * FROM alike_member")]
    with transaction(connection):
        make_sets(connection)
        make_sets(connection)
    assert [tuple(row) for row in connection.execute("SELECT * FROM alike_member")] == before
