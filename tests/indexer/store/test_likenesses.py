"""Which photos are compared, when, and with what."""

import sqlite3
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

import pytest

from indexer.alike.doubts import Doubt
from indexer.facts.records import NO_CAMERA, Claim
from indexer.store import likenesses
from indexer.store.likenesses import compare_changed, is_all_compared, is_same_picture, looked, save_compared
from indexer.store.opening import transaction
from tests.indexer.seen_photos import A, B, C, SimpleLikeness, find_again, look, look_in_vain, lose, put, taken


def pairs(connection: sqlite3.Connection) -> list[tuple[str, str, str]]:
    return [tuple(row) for row in connection.execute("SELECT one_key, other_key, kind FROM likeness ORDER BY 1, 2")]


def scenes(connection: sqlite3.Connection) -> list[tuple[str, str, float]]:
    return [tuple(row) for row in connection.execute("SELECT one_key, other_key, score FROM same_scene ORDER BY 1, 2")]


def compare(connection: sqlite3.Connection, report: Callable[[int], None] = lambda _: None) -> None:
    compared = compare_changed(connection, report)
    with transaction(connection):
        save_compared(connection, compared)


def test_a_photo_is_compared_once(connection: sqlite3.Connection, likeness: SimpleLikeness) -> None:
    """And again when it was looked at anew; what it resembles is found anew then, the rest stays."""
    for key, shot in ((A, 1), (B, 1), (C, 2)):
        put(connection, key)
        look(connection, key, shot)
    told: list[int] = []
    compare(connection, told.append)
    compare(connection, told.append)
    assert (likeness.compared, told, pairs(connection)) == ([{A, B, C}], [3], [(A, B, "copy")])
    look(connection, A, 2)
    compare(connection)
    assert (likeness.compared[1:], pairs(connection)) == ([{A}], [(A, C, "copy")])


def test_a_photo_dated_otherwise_is_compared_anew(connection: sqlite3.Connection, likeness: SimpleLikeness) -> None:
    """Bursts hang on time; so is one with another camera."""
    for key, second in ((A, 0), (B, 1)):
        put(connection, key, taken(second))
        look(connection, key, second, scene=7)
    compare(connection)
    assert pairs(connection) == [(A, B, "burst")]
    put(connection, B, taken("2026-03-30T19:00:00"))
    compare(connection)
    assert pairs(connection) == []
    put(connection, B, taken("2026-03-30T19:00:00", fraction="5"))
    compare(connection)
    put(connection, B, taken("2026-03-30T19:00:00", fraction="5"), camera=NO_CAMERA)
    compare(connection)
    compare(connection)
    assert likeness.compared == [{A, B}, {B}, {B}, {B}]


def test_scenes_of_two_cameras_are_kept_apart_and_found_anew(
    connection: sqlite3.Connection, likeness: SimpleLikeness
) -> None:
    """They are no likeness; what is compared anew loses its own and no others."""
    for number, key in enumerate((A, B, C), start=1):
        put(connection, key)
        look(connection, key, number)
    likeness.scenes = {(A, B), (B, C)}
    compare(connection)
    assert (pairs(connection), scenes(connection)) == ([], [(A, B, 1.0), (B, C, 1.0)])
    look(connection, A, 4)
    assert scenes(connection) == [(B, C, 1.0)]
    compare(connection)
    assert scenes(connection) == [(A, B, 1.0), (B, C, 1.0)]
    likeness.scenes = set()
    look(connection, B, 5)
    assert scenes(connection) == []


#: A verdict on when a photo was taken that rests on other photos or on its arrival.
LENT = [
    ("copy", "2026-03-30T10:00:00", "second"),
    ("copy", "2026-03-30T10:00", "minute"),
    ("file numbers", "2026-03-30T10:00:00", "second"),
    ("file numbers", "2026-03-30", "between"),
    ("file time", "2026-03-30T10:00:00", "second"),
    ("gps", "2026-03-30T10:00:00", "second"),
]


@pytest.mark.parametrize(("source", "when", "precision"), LENT)
def test_a_lent_time_is_no_moment_and_no_reason_to_compare(
    connection: sqlite3.Connection, likeness: SimpleLikeness, source: str, when: str, precision: str
) -> None:
    """Else a photo that inherits its time would be compared anew at every run."""
    put(connection, A)
    look(connection, A, 1)
    compare(connection)
    for taken_ in (when, when.replace("30", "31", 1)):
        connection.execute(
            "UPDATE picture SET taken = ?, precision = ?, source = ?, fraction = '5' WHERE key = ?",
            (taken_, precision, source, A),
        )
        (photo,) = looked(connection)
        assert (photo.moment, photo.exact, photo.own_time) == (None, False, None)
        assert is_all_compared(connection)
    assert likeness.compared == [{A}]


def test_an_arrival_is_no_moment(connection: sqlite3.Connection, likeness: SimpleLikeness) -> None:
    """However exact: messages come in together."""
    arrived = Claim("file name", "", "2026-03-30T10:00:00", "second", is_arrival=True)
    put(connection, A, arrived)
    look(connection, A, 1)
    compare(connection)
    assert next(looked(connection)).moment is None
    put(connection, A, replace(arrived, when="2026-03-30T11:00:00"))
    compare(connection)
    assert likeness.compared == [{A}]


def test_a_corrected_time_is_a_moment_and_the_cameras_own_stays(
    connection: sqlite3.Connection, likeness: SimpleLikeness
) -> None:
    """A clock set right brings other photos near; the shots that the camera told apart stay apart, as they do when the
    person dates them by hand."""
    put(connection, A, taken(0, "25"))
    look(connection, A, 1)
    compare(connection)
    connection.execute("UPDATE picture SET taken = '2026-03-30T11:00:00' WHERE key = ?", (A,))
    (photo,) = looked(connection)
    assert (photo.moment, photo.own_time) == (TEN + 3600.25, "2026-03-30T10:00:00.25")
    compare(connection)
    assert likeness.compared == [{A}, {A}]
    connection.execute(
        "UPDATE picture SET taken = '2026-03-31', precision = 'day', source = 'by hand', evidence_id = NULL,"
        " fraction = '' WHERE key = ?",
        (A,),
    )
    (photo,) = looked(connection)
    assert (photo.moment, photo.own_time) == (None, "2026-03-30T10:00:00.25")


def test_a_photo_dated_otherwise_meanwhile_is_compared_again(
    connection: sqlite3.Connection, likeness: SimpleLikeness
) -> None:
    """A word may be told between the comparing and the writing down."""
    for key, second in ((A, 0), (B, 1)):
        put(connection, key, taken(second))
        look(connection, key, second, scene=7)
    compared = compare_changed(connection)
    put(connection, B, taken("2026-03-30T19:00:00"))
    with transaction(connection):
        save_compared(connection, compared)
    assert not is_all_compared(connection)
    compare(connection)
    assert (is_all_compared(connection), likeness.compared[1:], pairs(connection)) == (True, [{B}], [])


def test_photos_in_doubt_stay_to_be_compared(connection: sqlite3.Connection, likeness: SimpleLikeness) -> None:
    """Telling words looks at no file, so that a burst in doubt counts until files are next looked at."""
    likeness.burst_score = 5.0
    for key, second in ((A, 0), (B, 10), (C, 20)):
        put(connection, key, taken(second))
        look(connection, key, second + 1, scene=7 if key != C else 0)
    compared = compare_changed(connection)
    assert compared.doubts == [Doubt(B, (A,))]
    with transaction(connection):
        save_compared(connection, compared)
    assert (pairs(connection), is_all_compared(connection)) == ([(A, B, "burst")], False)
    again = compare_changed(connection)
    assert set(again.with_it) == {A, B}
    with transaction(connection):
        save_compared(connection, replace(again, found=[], doubts=()))
    assert (pairs(connection), is_all_compared(connection)) == ([], True)


def test_a_missing_photo_takes_part(connection: sqlite3.Connection, likeness: SimpleLikeness) -> None:
    """So that nothing is left to find when it comes back."""
    put(connection, A)
    look(connection, A, 1)
    compare(connection)
    lose(connection, A)
    put(connection, B)
    look(connection, B, 1)
    compare(connection)
    assert pairs(connection) == [(A, B, "copy")]
    find_again(connection, A)
    compare(connection)
    assert likeness.compared == [{A}, {B}]


def test_a_photo_that_shows_nothing_is_not_compared(connection: sqlite3.Connection, likeness: SimpleLikeness) -> None:
    """Nor one that was looked at by an older method."""
    for key in (A, B):
        put(connection, key)
    look_in_vain(connection, A)
    look(connection, B, 1)
    connection.execute("UPDATE pixel SET method = 0 WHERE key = ?", (B,))
    compare(connection)
    assert (likeness.compared, list(looked(connection))) == ([], [])


def test_a_new_method_compares_all_anew(
    connection: sqlite3.Connection, likeness: SimpleLikeness, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever was found by the old one."""
    for key in (A, B):
        put(connection, key)
        look(connection, key, 1)
    compare(connection)
    monkeypatch.setattr(likenesses, "COMPARING", likenesses.COMPARING + 1)
    compare(connection)
    assert (likeness.compared, pairs(connection)) == ([{A, B}] * 2, [(A, B, "copy")])


EPOCH = datetime(1970, 1, 1)  # noqa: DTZ001
TEN = (datetime(2026, 3, 30, 10) - EPOCH).total_seconds()  # noqa: DTZ001


@pytest.mark.parametrize(
    ("claim", "moment", "exact", "own_time"),
    [
        (taken(0, "25"), TEN + 0.25, True, "2026-03-30T10:00:00.25"),
        (taken(0), TEN, True, "2026-03-30T10:00:00"),
        (Claim("xmp original", "", "2026-03-30T10:00", "minute"), TEN + 30, False, "2026-03-30T10:00"),
        (Claim("file name", "", "2026-03-30T10:00:00", "second"), TEN, True, None),
        (Claim("file name", "", "2026-03-30", "day"), None, False, None),
        (Claim("file time", "", "2026-03-30T10:00:00", "second"), None, False, None),
        (Claim("gps", "", "2026-03-30T10:00:00", "second", is_utc=True), None, False, None),
    ],
)
def test_the_moment_is_that_of_the_picture(
    connection: sqlite3.Connection, claim: Claim, moment: float | None, exact: bool, own_time: str | None
) -> None:
    """Where it is known to the minute; the file's own time, which copying changes, brings no photos together."""
    put(connection, A, claim)
    look(connection, A, 1)
    (photo,) = looked(connection)
    assert (photo.moment, photo.exact, photo.own_time) == (moment, exact, own_time)


def test_all_that_is_compared_is_handed_over(connection: sqlite3.Connection) -> None:
    """The picture's own values as they were seen."""
    put(connection, A, taken(0))
    look(connection, A, 1, 2, made_from="thumbnail")
    (photo,) = looked(connection, [A, B])
    assert (photo.key, photo.camera, photo.width, photo.height) == (A, "Tidewell|TW-100", 40, 30)
    assert (photo.phash, photo.dhash, photo.made_from) == (bytes([1] * 8), bytes([2] * 8), "thumbnail")
    assert (photo.grey, photo.layout, photo.contrast) == (bytes(4096), bytes(192), 40.0)
    assert photo == replace(photo)


def test_a_gone_picture_can_still_be_held_against_what_came_after(
    connection: sqlite3.Connection, likeness: SimpleLikeness
) -> None:
    """By what was seen of it, which needs both to have been looked at."""
    put(connection, A, taken(0), name="x.jpg")
    look(connection, A, 1)
    put(connection, B, taken(0), name="x.jpg")
    assert not is_same_picture(connection, A, B)
    look(connection, B, 1)
    assert is_same_picture(connection, A, B)
    look(connection, B, 2)
    assert not is_same_picture(connection, A, B)
    look_in_vain(connection, B)
    assert not is_same_picture(connection, A, B)
    assert likeness.compared == []
