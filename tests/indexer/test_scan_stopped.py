"""An index run that is stopped, breaks off, or meets files that cannot be read, and the run after it."""

import sqlite3
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from indexer import comparing, scan
from indexer.facts.workers import read_all
from indexer.scan import Progress, Summary
from tests.indexer.library_runs import counts, key_at, keys, places, stop_after, successions

TODAY = date(2026, 6, 1)
Draw = Callable[..., Path]
Run = Callable[..., Summary]


def test_an_edit_seen_by_a_stopped_run_is_told_by_the_next(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Ctrl-C after the edited file was read must not lose the word that it was saved over."""
    draw(library / "a.jpg", 1)
    run(library)
    (old,) = keys(connection)
    draw(library / "a.jpg", 2)
    draw(library / "b.jpg", 3)
    assert run(library, report=stop_after(1)).was_stopped
    run(library)
    assert successions(connection) == [(old, key_at(connection, library / "a.jpg"))]


def test_a_stopped_run_keeps_what_is_done(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ctrl-C in the middle, with real processes: what was read is in the index, and the next run goes on from there."""
    for number in range(6):
        draw(library / f"{number}.jpg", number)
    with monkeypatch.context() as patch:
        patch.setattr("indexer.facts.workers.read_all", read_all)
        summary = run(library, report=stop_after(3))
    assert (summary.was_stopped, counts(summary), len(keys(connection))) == (True, {"new": 3}, 3)
    summary = run(library)
    assert (summary.was_stopped, counts(summary)) == (False, {"new": 3, "unchanged": 3})


def test_a_run_stopped_while_looking_changes_nothing(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Nothing is missing because it was not yet looked at."""
    draw(library / "a.jpg")
    run(library)
    (library / "a.jpg").unlink()
    draw(library / "b.jpg", 2)

    def stop(_: Progress) -> None:
        raise KeyboardInterrupt

    summary = run(library, report=stop)
    assert (summary.was_stopped, counts(summary)) == (True, {})
    assert places(connection, missing=True) == []
    assert not connection.in_transaction


def test_a_run_stopped_while_reading_marks_nothing_missing(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """The file that was not read yet may be the one that seems to be gone."""
    draw(library / "a.jpg", 1)
    run(library)
    (library / "a.jpg").rename(library / "z.jpg")
    draw(library / "b.jpg", 2)
    assert run(library, report=stop_after(1)).was_stopped
    assert places(connection, missing=True) == []
    summary = run(library)
    assert len(keys(connection)) == 2
    assert summary.missing == 0


def test_what_a_stopped_run_read_is_judged_by_the_other_photos_too(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A time or a doubt that a photo owes to others is not lost until the next run."""
    for number in range(6):
        draw(library / f"HRBR{number:04}.JPG", number, None if number == 3 else f"2025:12:30 09:1{number}:00")
    run(library)
    between = "SELECT path FROM photo WHERE source = 'file numbers'"
    assert [bytes(path) for (path,) in connection.execute(between)] == [b"HRBR0003.JPG"]
    monkeypatch.setattr(scan, "READER_VERSION", scan.READER_VERSION + 1)
    assert run(library, report=stop_after(5)).was_stopped
    assert [bytes(path) for (path,) in connection.execute(between)] == [b"HRBR0003.JPG"]


def test_ctrl_c_while_a_stopped_run_is_judged_leaves_that_to_the_next(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was read is kept all the same."""

    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    draw(library / "a.jpg")
    with monkeypatch.context() as patch:
        patch.setattr(comparing, "judge_all", interrupt)
        assert run(library).was_stopped
    assert (len(keys(connection)), connection.in_transaction) == (1, False)
    assert not run(library).was_stopped


def test_batches_are_written_as_they_fill(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A run that dies without a chance to tidy up loses no more than its last batch."""
    for number in range(3):
        draw(library / f"{number}.jpg", number)
    monkeypatch.setattr(scan, "SECONDS_PER_BATCH", -1.0)
    seen: list[int] = []
    run(library, report=lambda progress: seen.append(len(keys(connection))) if progress.doing == "reading" else None)
    assert seen == [0, 1, 2]


def test_a_disk_that_fills_up_keeps_what_was_written(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The run ends with SQLite's own reason, and with more room the next one goes on from there."""
    for number in range(30):
        draw(library / f"{number:0200}.jpg", number)
    monkeypatch.setattr(scan, "SECONDS_PER_BATCH", -1.0)
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.execute(f"PRAGMA max_page_count = {pages + 4}")
    with pytest.raises(sqlite3.OperationalError, match="full"):
        run(library)
    written = len(keys(connection))
    assert 0 < written < 30
    connection.execute("PRAGMA max_page_count = 100000")
    assert counts(run(library)) == {"new": 30 - written, "unchanged": written}


def test_an_unreadable_file_is_tried_again_when_it_changed(run: Run, library: Path, draw: Draw) -> None:
    """Until then it is only counted."""
    (library / "a.jpg").write_bytes(b"")
    assert counts(run(library)) == {"unreadable": 1}
    assert counts(run(library)) == {"unreadable": 1}
    draw(library / "a.jpg")
    assert counts(run(library)) == {"new": 1}


def test_a_file_that_could_not_be_opened_is_tried_every_time(
    run: Run, library: Path, draw: Draw, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither its size nor its time changes when it may be read again."""
    draw(library / "a.jpg")
    with monkeypatch.context() as patch:

        def refuse(*_: object) -> None:
            raise PermissionError(13, "Permission denied")

        patch.setattr(Path, "open", refuse)
        assert counts(run(library)) == {"unreadable": 1}
    assert counts(run(library)) == {"new": 1}


def test_a_known_photo_that_cannot_be_opened_stays_in_its_week(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that drops while a changed file is read again takes nothing that was known; the next run reads it."""
    file = draw(library / "a.jpg", 1)
    run(library)
    key = key_at(connection, file)
    draw(file, 2)

    def shut(_path: Path, *_: object) -> object:
        raise OSError(5, "Input/output error")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "open", shut)
        assert counts(run(library)) == {"unchanged": 1, "unreadable": 1}
    assert key_at(connection, file) == key
    assert counts(run(library)) == {"changed": 1}
    assert connection.execute("SELECT old_key FROM succession").fetchone()[0] == key


def test_a_photo_that_becomes_unreadable_and_recovers_keeps_its_key(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """It is a row in unreadable meanwhile, and what was told of it hangs on the key."""
    file = draw(library / "a.jpg")
    run(library)
    before, whole = keys(connection), file.read_bytes()
    file.write_bytes(b"\xff\xd8\xff")
    assert counts(run(library)) == {"unreadable": 1}
    file.write_bytes(whole)
    run(library)
    assert keys(connection) == before


def test_a_better_reader_reads_everything_again(
    run: Run, library: Path, draw: Draw, no_reading: Callable[[], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Once; and a file that it reads as before is unchanged."""
    draw(library / "a.jpg")
    (library / "notes.txt").write_text("a list")
    run(library)
    monkeypatch.setattr(scan, "READER_VERSION", scan.READER_VERSION + 1)
    read: list[str] = []
    summary = run(library, report=lambda progress: read.append(progress.path) if progress.doing == "reading" else None)
    assert (counts(summary), len(read)) == ({"unchanged": 1, "other": 1}, 2)
    no_reading()
    assert counts(run(library)) == {"unchanged": 1, "other": 1}
