"""Corrections of cameras' clocks."""

import sqlite3
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest

from indexer.errors import WordError
from indexer.facts.records import Camera
from indexer.store.archive import corrections
from indexer.store.backup import all_words, restore
from indexer.store.clocks import take_back, tell_correction
from indexer.store.opening import open_for_writing, transaction
from indexer.store.words import LARGEST_SHIFT
from tests.indexer.seen_photos import CAMERA, TODAY, A, B, put, taken

pytestmark = pytest.mark.usefixtures("likeness")

OTHER = Camera("Tidewell", "TW-100", "0042")


def tell(
    connection: sqlite3.Connection,
    shift: int,
    since: str | None = None,
    until: str | None = None,
    camera: Camera = CAMERA,
) -> str:
    with transaction(connection):
        return tell_correction(connection, camera, shift, since, until, TODAY)


def forget(connection: sqlite3.Connection, uuid: str) -> None:
    with transaction(connection):
        take_back(connection, uuid, TODAY)


def times(connection: sqlite3.Connection) -> dict[str, str]:
    """When each photo was taken, by the first letter of its key."""
    return {row["key"][0]: row["taken"] for row in connection.execute("SELECT key, taken FROM photo")}


@pytest.fixture
def shot(connection: sqlite3.Connection) -> sqlite3.Connection:
    """Two photos of one camera, an hour apart."""
    put(connection, A, taken("2026-03-30T10:00:00"))
    put(connection, B, taken("2026-03-30T11:00:00"))
    return connection


def test_a_correction_dates_the_cameras_photos_anew(shot: sqlite3.Connection) -> None:
    """In the same transaction; what it takes back is as it was, and both words are kept."""
    uuid = tell(shot, 3600)
    assert times(shot) == {"a": "2026-03-30T11:00:00", "b": "2026-03-30T12:00:00"}
    assert [(item.uuid, item.camera, item.shift_seconds, item.since, item.until) for item in corrections(shot)] == [
        (uuid, CAMERA, 3600, None, None)
    ]
    forget(shot, uuid)
    assert times(shot) == {"a": "2026-03-30T10:00:00", "b": "2026-03-30T11:00:00"}
    assert corrections(shot) == []
    assert [(word["shift_seconds"], word["takes_back"]) for word in all_words(shot)["clock_log"]] == [
        (3600, None),
        (None, uuid),
    ]


def test_a_span_is_half_open_in_the_cameras_own_time(shot: sqlite3.Connection) -> None:
    """Its first moment is in it, its last is not; beside it there may be another correction."""
    tell(shot, -60, "2026-03-30T10:00:00", "2026-03-30T11:00:00")
    tell(shot, 60, "2026-03-30T11:00:00")
    assert times(shot) == {"a": "2026-03-30T09:59:00", "b": "2026-03-30T11:01:00"}


def test_another_cameras_clock_is_its_own(shot: sqlite3.Connection) -> None:
    """The serial number tells two of one model apart."""
    tell(shot, 3600, camera=OTHER)
    tell(shot, 60)
    assert times(shot)["a"] == "2026-03-30T10:01:00"


@pytest.mark.parametrize(
    ("since", "until"),
    [
        (None, None),
        ("2026-03-30T00:00:00", None),
        (None, "2026-03-30T00:00:01"),
        ("2026-01-01T00:00:00", "2026-12-31T00:00:00"),
        ("2026-03-31T00:00:00", "2026-03-31T00:00:01"),
    ],
)
def test_an_overlap_is_refused_and_names_the_other(
    shot: sqlite3.Connection, since: str | None, until: str | None
) -> None:
    """With the way out; what holds goes on to hold."""
    tell(shot, 60, camera=OTHER)
    tell(shot, 3600, "2026-03-30T00:00:00", "2026-04-02T00:00:00")
    before = times(shot)
    with pytest.raises(WordError) as refused:
        tell(shot, 60, since, until)
    assert str(refused.value) == (
        "correction 2 of this camera holds from 2026-03-30 00:00:00 to 2026-04-02 00:00:00 already; take it back first"
        " with weeksheaf clock forget 2, or part the two with --from and --until"
    )
    assert times(shot) == before
    assert len(corrections(shot)) == 2


def test_it_is_taken_back_once(shot: sqlite3.Connection) -> None:
    """Two runs may both have seen that it holds; the second says what became of it."""
    uuid = tell(shot, 3600)
    forget(shot, uuid)
    with pytest.raises(WordError, match="taken back already"):
        forget(shot, uuid)
    assert len(all_words(shot)["clock_log"]) == 2


def test_after_it_was_taken_back_nothing_overlaps(shot: sqlite3.Connection) -> None:
    """A correction can be told anew."""
    forget(shot, tell(shot, 3600))
    tell(shot, 7200)
    assert times(shot)["a"] == "2026-03-30T12:00:00"


@pytest.mark.parametrize(
    ("shift", "since", "until", "says"),
    [
        (60, "2026-03-30T10:00:00", "2026-03-30T10:00:00", "holds no time"),
        (60, "2026-03-30T10:00:00", "2026-03-29T10:00:00", "from 2026-03-30 10:00:00 to 2026-03-29 10:00:00 holds no"),
        (LARGEST_SHIFT + 1, None, None, "more than a hundred years"),
    ],
)
def test_what_cannot_be_meant_is_refused(
    shot: sqlite3.Connection, shift: int, since: str | None, until: str | None, says: str
) -> None:
    """Nothing of it is kept."""
    with pytest.raises(WordError, match=says):
        tell(shot, shift, since, until)
    assert all_words(shot)["clock_log"] == []


def test_a_hundred_years_are_no_way_out_of_the_calendar(shot: sqlite3.Connection) -> None:
    """A photo of the year 1 that a correction would date before it is dated by something else, and nothing fails."""
    put(shot, "c" * 32, taken("0001-01-02T00:00:00"))
    put(shot, "d" * 32, taken("9999-12-31T00:00:00"))
    tell(shot, -LARGEST_SHIFT, None, "2000-01-01T00:00:00")
    tell(shot, LARGEST_SHIFT, "2000-01-01T00:00:00")
    assert times(shot)["c"] != "0001-01-02T00:00:00"


def test_corrections_told_elsewhere_come_together(shot: sqlite3.Connection, tmp_path: Path) -> None:
    """A restore into an index that lived on keeps both sides; of two that overlap the later one holds."""
    tell(shot, 3600)
    other = open_for_writing(tmp_path / "other.db", create=True)
    put(other, A, taken("2026-03-30T10:00:00"))
    tell(other, 7200)
    words = all_words(other)
    for _ in range(2):
        restore(shot, words, TODAY)
    assert [item.shift_seconds for item in corrections(shot)] == [3600, 7200]
    assert times(shot)["a"] == "2026-03-30T12:00:00"
    restore(other, all_words(shot), TODAY)
    assert all_words(other) == all_words(shot)
    assert times(other)["a"] == "2026-03-30T12:00:00"
    other.close()


def test_corrections_that_hold_never_overlap(connection: sqlite3.Connection) -> None:
    """Of 300 random spans, told or taken back, no two that hold at a time share a moment."""
    random = Random(8)
    for _ in range(300):
        held = corrections(connection)
        if held and random.random() < 0.3:
            forget(connection, random.choice(held).uuid)
            continue
        since, until = (
            f"2026-03-{day:02}T00:00:00" if day else None for day in (random.randrange(31), random.randrange(31))
        )
        try:
            tell(connection, 60, since, until)
        except WordError:
            continue
        spans = sorted((item.since or "", item.until or "~") for item in corrections(connection))
        assert all(end <= start for (_, end), (start, _) in pairwise(spans))
