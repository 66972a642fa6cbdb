"""The story of an index run, on real folders."""

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from indexer.facts.workers import read_all
from indexer.scan import Progress, Summary, index_folders
from indexer.store.backup import all_words, read_backup, restore, write_backup
from indexer.store.opening import open_for_writing, transaction
from indexer.store.settings import tell_setting
from indexer.store.week_log import tell_week
from tests.indexer.library_runs import counts, key_at, keys, places, successions, tree

TODAY = date(2026, 6, 1)
Draw = Callable[..., Path]
Run = Callable[..., Summary]


def test_a_first_run_finds_what_is_there(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Photos are new, other files are counted, broken ones named; all in the summary and in the index.

    This run reads in real processes.
    """
    monkeypatch.setattr("indexer.facts.workers.read_all", read_all)
    draw(library / "2026" / "a.jpg", 1)
    draw(library / "2026" / "b.jpg", 2)
    (library / "notes.txt").write_text("a list")
    (library / "broken.jpg").write_bytes(b"")
    (library / ".hidden").mkdir()
    told: list[Progress] = []
    summary = run(library, report=told.append)
    assert counts(summary) == {"new": 2, "other": 1, "unreadable": 1}
    assert (summary.found, summary.skipped, summary.held, summary.closed) == (2, 1, [], [])
    assert places(connection) == [str(library / "2026" / "a.jpg"), str(library / "2026" / "b.jpg")]
    assert [row["path"] for row in connection.execute("SELECT path FROM unreadable")] == [b"broken.jpg"]
    row = connection.execute("SELECT * FROM photo LIMIT 1").fetchone()
    assert (row["taken"], row["source"], row["format"], row["width"]) == (
        "2026-03-30T09:15:20", "exif original", "JPEG", 24,
    )  # fmt: skip
    read = [progress for progress in told if progress.doing == "reading"]
    assert (read[-1].done, read[-1].total) == (4, 4)
    assert {progress.doing for progress in told} == {"looking", "reading", "looking at pictures", "comparing"}


def test_a_second_run_reads_nothing(
    run: Run, library: Path, draw: Draw, no_reading: Callable[[], None], connection: sqlite3.Connection
) -> None:
    """Size and time agree: every file is unchanged, other and unreadable ones are counted as before."""
    draw(library / "a.jpg")
    (library / "notes.txt").write_text("a list")
    (library / "broken.jpg").write_bytes(b"")
    run(library)
    before = list(connection.iterdump())
    no_reading()
    assert counts(run(library)) == {"unchanged": 1, "other": 1, "unreadable": 1}
    assert counts(run()) == {"unchanged": 1, "other": 1, "unreadable": 1}
    assert list(connection.iterdump()) == before


def test_originals_are_left_as_they_are(run: Run, library: Path, draw: Draw) -> None:
    """Nothing under a library folder is written: bytes, times and listings are the same before and after."""
    draw(library / "2026" / "a.jpg")
    (library / "broken.jpg").write_bytes(b"\xff\xd8\xff")
    (library / "empty").mkdir()
    before = tree(library)
    run(library)
    run(library, accept_missing=True)
    assert tree(library) == before


def test_a_touched_file_is_unchanged_and_its_time_is_kept(
    run: Run, library: Path, draw: Draw, no_reading: Callable[[], None]
) -> None:
    """It is read once, found to say the same, and not read again."""
    file = draw(library / "a.jpg")
    run(library)
    os.utime(file, (1_780_000_000, 1_780_000_000))
    assert counts(run(library)) == {"unchanged": 1}
    no_reading()
    assert counts(run(library)) == {"unchanged": 1}


def test_a_retagged_photo_is_the_same_photo(
    run: Run, library: Path, draw: Draw, retag: Callable[[Path, str], None], connection: sqlite3.Connection
) -> None:
    """Another Exif block before the same picture: the time follows, the key stays and no succession is told."""
    file = draw(library / "a.jpg")
    run(library)
    (key,) = keys(connection)
    with transaction(connection):
        tell_week(connection, date(2026, 3, 30), "done", holding=[key])
    retag(file, "2026:04:08 10:00:00")
    assert counts(run(library)) == {"changed": 1}
    assert keys(connection) == [key]
    assert connection.execute("SELECT taken FROM photo").fetchone()[0] == "2026-04-08T10:00:00"
    assert successions(connection) == []


def test_an_edited_picture_is_another_photo_and_a_succession(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """The picture was saved over: the word leads from the old key to the new."""
    draw(library / "a.jpg", 1)
    draw(library / "b.jpg", 2)
    run(library)
    old = key_at(connection, library / "a.jpg")
    draw(library / "a.jpg", 3)
    assert counts(run(library)) == {"changed": 1, "unchanged": 1}
    new = key_at(connection, library / "a.jpg")
    assert successions(connection) == [(old, new)]
    assert old not in keys(connection)
    assert counts(run(library)) == {"unchanged": 2}
    assert len(successions(connection)) == 1


def test_names_that_move_up_are_no_succession(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """001 deleted, 002 renamed to 001, 003 to 002: no photo was edited, one is missing."""
    for number in (1, 2, 3):
        draw(library / f"00{number}.jpg", number)
    run(library)
    (library / "002.jpg").replace(library / "001.jpg")
    (library / "003.jpg").replace(library / "002.jpg")
    assert run(library).missing == 1
    assert successions(connection) == []


def test_a_name_used_again_is_no_succession(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """A camera that counts from 0001 again puts another photo where a deleted one lay."""
    draw(library / "IMG_0001.jpg", 1)
    draw(library / "kept.jpg", 2)
    run(library)
    (library / "IMG_0001.jpg").unlink()
    run(library)
    draw(library / "IMG_0001.jpg", 3)
    run(library)
    assert successions(connection) == []


def test_files_that_swap_names_are_no_succession(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Both pictures are still there."""
    one, two = draw(library / "a.jpg", 1), draw(library / "b.jpg", 2)
    run(library)
    before = keys(connection)
    one.rename(library / "c.jpg")
    two.rename(one)
    (library / "c.jpg").rename(two)
    assert counts(run(library)) == {"changed": 2}
    assert (keys(connection), successions(connection)) == (before, [])


@pytest.mark.parametrize("target", ["b.jpg", "trip/a.jpg", "line\nbreak.jpg"])
def test_a_moved_file_keeps_its_identity(
    target: str, run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Renamed or moved: the same photo in one place, nothing missing, nothing told."""
    if os.name == "nt" and "\n" in target:
        pytest.skip("Windows allows no such name")
    file = draw(library / "a.jpg")
    run(library)
    before = keys(connection)
    (library / "trip").mkdir()
    file.rename(library / target)
    assert counts(run(library)) == {"moved": 1}
    assert places(connection) == [str(library / target)]
    assert (places(connection, missing=True), keys(connection), successions(connection)) == ([], before, [])


def test_a_renamed_folder_moves_all_its_files(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Those with equal pictures too."""
    for number, seed in enumerate((1, 2, 2)):
        draw(library / "2025" / f"{number}.jpg", seed)
    draw(library / "other.jpg", 9)
    run(library)
    (library / "2025").rename(library / "2025 harbour")
    assert counts(run(library)) == {"moved": 3, "unchanged": 1}
    assert len(places(connection)) == 4
    assert places(connection, missing=True) == []


def test_a_library_that_moved_as_a_whole_is_the_same_library(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Under another root while the old one is gone: every file has moved, and the old folder is no longer asked for."""
    for number in range(3):
        draw(library / f"{number}.jpg", number)
    run(library)
    before = keys(connection)
    new = library.with_name("new disk")
    library.rename(new)
    summary = run(new)
    assert (counts(summary), summary.held) == ({"moved": 3}, [])
    assert (keys(connection), places(connection, missing=True)) == (before, [])
    summary = run()
    assert (counts(summary), summary.held) == ({"unchanged": 3}, [])


def test_a_time_that_no_database_holds_stops_nothing(run: Run, library: Path, draw: Draw) -> None:
    """A file of the year 2286, by a broken clock, is a photo, and unchanged the next time."""
    file = draw(library / "a.jpg")
    try:
        os.utime(file, (10**10, 10**10))
    except (OSError, OverflowError):
        pytest.skip("this disk keeps no such time")
    assert counts(run(library)) == {"new": 1}
    assert counts(run(library)) == {"unchanged": 1}


def test_an_index_made_anew_has_its_words_back(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, tmp_path: Path
) -> None:
    """Deleting the index, indexing again and restoring gives back every word, and it hangs on the same photos."""
    draw(library / "a.jpg", 1)
    run(library)
    with transaction(connection):
        tell_week(connection, date(2026, 3, 30), "done", holding=keys(connection))
        tell_setting(connection, "home.timezone", "Europe/Lisbon", TODAY)
    write_backup(connection, tmp_path / "words.json")
    with closing(open_for_writing(tmp_path / "anew.db", create=True)) as anew:
        index_folders(anew, [library], today=TODAY)
        restore(anew, read_backup(tmp_path / "words.json"), TODAY)
        assert all_words(anew) == all_words(connection)
        assert all_words(anew)["week_log"][0]["holding"] == keys(anew)
