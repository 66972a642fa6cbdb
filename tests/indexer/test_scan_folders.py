"""Which folders an index run may be pointed at."""

import os
import sqlite3
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from indexer import scan
from indexer.errors import FolderError
from indexer.scan import Summary, check_before_opening
from tests.indexer.library_runs import counts, places

TODAY = date(2026, 6, 1)
Draw = Callable[..., Path]
Run = Callable[..., Summary]


@pytest.mark.parametrize("order", ["inner first", "outer first", "together", "inner twice"])
def test_a_file_lies_in_one_library_folder_only(
    order: str, run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """Nested folders in either order, and overlapping arguments, find each file once."""
    inner = library / "2026"
    draw(inner / "a.jpg", 1)
    draw(library / "b.jpg", 2)
    for named in {
        "inner first": [(inner,), (library,)],
        "outer first": [(library,), (inner,)],
        "together": [(inner, library, inner / ".." / "2026")],
        "inner twice": [(inner, inner), (library, library)],
    }[order]:
        run(*named)
    assert places(connection) == [str(inner / "a.jpg"), str(library / "b.jpg")]
    assert connection.execute("SELECT count(*) FROM file").fetchone()[0] == 2
    assert connection.execute("SELECT count(*) FROM library_folder").fetchone()[0] == 1
    assert counts(run()) == {"unchanged": 2}


@pytest.mark.skipif(os.name == "nt", reason="links need leave on Windows")
def test_a_library_named_through_a_link_is_the_same(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """The real path is what is kept."""
    draw(library / "a.jpg")
    (library.parent / "link").symlink_to(library)
    run(library.parent / "link")
    assert counts(run(library)) == {"unchanged": 1}
    assert places(connection) == [str(library / "a.jpg")]


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux takes names that are no text")
def test_names_that_are_no_text_are_indexed(
    run: Run, library: Path, draw: Draw, connection: sqlite3.Connection, no_reading: Callable[[], None]
) -> None:
    """Folders and files in another encoding are read, kept, and known again."""
    folder = Path(os.fsdecode(os.fsencode(library) + b"/\xfe"))
    draw(folder / os.fsdecode(b"\xff\n.jpg"))
    assert counts(run(folder)) == {"new": 1}
    assert counts(run(library)) == {"unchanged": 1}
    no_reading()
    assert counts(run()) == {"unchanged": 1}
    assert places(connection) == [str(folder / os.fsdecode(b"\xff\n.jpg"))]


@pytest.mark.parametrize("known", [False, True])
@pytest.mark.parametrize(("name", "words"), [("gone", "no folder"), ("file.jpg", "not a folder")])
def test_a_folder_that_does_not_exist_is_named(
    name: str, words: str, known: bool, run: Run, library: Path, draw: Draw, connection: sqlite3.Connection
) -> None:
    """So is a file, inside the library as well as outside; the other folders are not touched and none is added."""
    draw(library / "file.jpg")
    if known:
        run(library)
    before = list(connection.iterdump())
    with pytest.raises(FolderError, match=words) as caught:
        run(library, library / name)
    assert str(library / name) in str(caught.value)
    assert list(connection.iterdump()) == before


def test_a_folder_that_cannot_be_listed_is_named(run: Run, library: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the system's reason and what to do."""

    def refuse(path: str) -> None:
        raise PermissionError(13, "Permission denied", path)

    monkeypatch.setattr(scan.os, "scandir", refuse)
    with pytest.raises(FolderError, match=r"Permission denied.*permissions") as caught:
        run(library)
    assert str(library) in str(caught.value)


def test_a_run_without_folders_needs_some_known(run: Run) -> None:
    """The line says how to name one."""
    with pytest.raises(FolderError, match="weeksheaf index FOLDER"):
        run()


def test_an_empty_folder_is_no_trouble(run: Run, library: Path) -> None:
    """It never held photos, so nothing is held back."""
    summary = run(library)
    assert (counts(summary), summary.held, summary.found) == ({}, [], 0)


def test_an_index_inside_the_photos_is_refused(library: Path) -> None:
    """Nothing is ever written there, through a link neither."""
    with pytest.raises(FolderError, match=r"would lie inside.*--index"):
        check_before_opening(library / "2026" / "index.db", [library])
    check_before_opening(library.parent / "index.db", [library])
    if os.name != "nt":
        (library.parent / "link").symlink_to(library)
        with pytest.raises(FolderError):
            check_before_opening(library.parent / "link" / "index.db", [library])
