"""An index run where photos, or whole folders, are not where they were: absence is not deletion."""

import os
import shutil
import sqlite3
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from indexer.facts import folders as folders_module
from indexer.scan import Summary
from indexer.store.opening import transaction
from indexer.store.week_log import tell_week
from tests.indexer.library_runs import counts, key_at, keys, places

TODAY = date(2026, 6, 1)
Draw = Callable[..., Path]
Run = Callable[..., Summary]


def test_the_same_picture_in_two_places_is_one_photo(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """With two files; when one is deleted nothing is missing, when both are, one photo is."""
    draw(library / "a.jpg", 1)
    draw(library / "copy" / "b.jpg", 1)
    draw(library / "c.jpg", 2)
    assert run(library).new == 3
    assert (len(keys(connection)), len(places(connection))) == (2, 3)
    (library / "a.jpg").unlink()
    assert counts(run(library)) == {"unchanged": 2}
    shutil.rmtree(library / "copy")
    assert counts(run(library)) == {"unchanged": 1, "missing": 1}


def test_a_deleted_photo_is_missing_and_its_words_stay(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """The row, the place and what was told remain; when the file comes back, so does the photo."""
    file = draw(library / "a.jpg", 1)
    draw(library / "b.jpg", 2)
    run(library)
    key = key_at(connection, file)
    with transaction(connection):
        tell_week(connection, date(2026, 3, 30), "done", holding=[key])
    kept = file.rename(library.parent / "kept.jpg")
    assert counts(run(library)) == {"unchanged": 1, "missing": 1}
    assert keys(connection, present=False) == [key]
    assert places(connection, missing=True) == [str(file)]
    assert counts(run(library)) == {"unchanged": 1}
    assert connection.execute("SELECT photo_key FROM week_holding").fetchone()[0] == key
    kept.rename(file)
    assert counts(run(library)) == {"unchanged": 2}
    assert (keys(connection, present=False), places(connection, missing=True)) == ([], [])


@pytest.mark.parametrize("loss", ["emptied", "vanished", "only notes left", "a file in its place"])
def test_a_library_that_shows_nothing_is_out_of_reach(
    loss: str, run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Absence is not deletion: it is named and nothing is marked missing, until that is asked for."""
    draw(library / "2026" / "a.jpg", 1)
    draw(library / "b.jpg", 2)
    run(library)
    before = keys(connection)
    shutil.rmtree(library)
    if loss in ("emptied", "only notes left"):
        library.mkdir()
    if loss == "only notes left":
        (library / "notes.txt").write_text("a list")
    if loss == "a file in its place":
        library.write_text("a list")
    for named in ((), (library,)) if loss != "a file in its place" else ((),):
        summary = run(*named)
        assert (summary.held, summary.missing) == ([str(library)], 0)
        assert (keys(connection), len(places(connection))) == (before, 2)
    summary = run(accept_missing=True)
    assert (summary.held, summary.missing) == ([], 2)
    assert (keys(connection), keys(connection, present=False)) == ([], before)


@pytest.mark.parametrize("how", ["bare", "closed"])
def test_a_part_that_is_out_of_reach_is_held_alone(
    how: str, run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk mounted inside the library that is away, or may not be listed; the rest is looked at as ever."""
    draw(library / "disk" / "a.jpg", 1)
    draw(library / "b.jpg", 2)
    draw(library / "c.jpg", 3)
    run(library)
    (library / "c.jpg").unlink()
    if how == "bare":
        (library / "disk" / "a.jpg").unlink()
    else:
        plain = os.scandir

        def scandir(path: str) -> Any:
            if os.fspath(path).endswith("disk"):
                raise PermissionError(13, "Permission denied")
            return plain(path)

        monkeypatch.setattr(folders_module.os, "scandir", scandir)
    summary = run(library)
    assert (summary.held, summary.missing, summary.closed) == ([str(library / "disk")], 1, [])
    assert str(library / "disk" / "a.jpg") in places(connection)
    assert run(library, accept_missing=True).missing == 1


def test_a_closed_folder_without_known_photos_is_named(
    run: Run, library: Path, draw: Draw, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With the reason, and the run goes on."""
    draw(library / "a.jpg")
    (library / "closed").mkdir()
    plain = os.scandir

    def scandir(path: str) -> Any:
        if os.fspath(path).endswith("closed"):
            raise PermissionError(13, "Permission denied")
        return plain(path)

    monkeypatch.setattr(folders_module.os, "scandir", scandir)
    summary = run(library)
    assert (summary.new, summary.closed) == (1, [(str(library / "closed"), "Permission denied")])


def test_photos_moved_from_an_emptied_folder_are_not_held(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """All of one library folder went into another: they have moved, and the first is not complained of."""
    one, two = library / "one", library / "two"
    draw(one / "a.jpg", 1)
    draw(two / "b.jpg", 2)
    run(one, two)
    (one / "a.jpg").rename(two / "a.jpg")
    summary = run()
    assert (counts(summary), summary.held) == ({"moved": 1, "unchanged": 1}, [])
    assert places(connection) == [str(two / "a.jpg"), str(two / "b.jpg")]


def test_a_run_over_a_part_leaves_the_rest_alone(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """What was not looked at is neither missing nor counted."""
    draw(library / "2025" / "a.jpg", 1)
    draw(library / "2026" / "b.jpg", 2)
    run(library)
    shutil.rmtree(library / "2025")
    assert counts(run(library / "2026")) == {"unchanged": 1}
    assert places(connection, missing=True) == []
    assert counts(run(library)) == {"unchanged": 1, "missing": 1}


def test_a_file_that_went_into_another_library_folder_is_not_missing(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Also when only its new folder was looked at first."""
    one, two = library / "one", library / "two"
    draw(one / "a.jpg", 1)
    draw(one / "b.jpg", 2)
    draw(two / "c.jpg", 3)
    run(one, two)
    (one / "a.jpg").rename(two / "a.jpg")
    assert counts(run(two)) == {"new": 1, "unchanged": 1}
    assert counts(run()) == {"unchanged": 3}
    assert places(connection) == [str(one / "b.jpg"), str(two / "a.jpg"), str(two / "c.jpg")]


def test_a_hidden_folder_named_by_itself_stays_in_the_library(run: Run, library: Path, draw: Draw) -> None:
    """A run over the folder around it, which does not enter hidden folders, calls none of its photos missing."""
    hidden = library / ".private"
    draw(hidden / "a.jpg", 1)
    draw(library / "b.jpg", 2)
    assert counts(run(hidden)) == {"new": 1}
    assert counts(run(library)) == {"new": 1}
    assert counts(run()) == {"unchanged": 2}
