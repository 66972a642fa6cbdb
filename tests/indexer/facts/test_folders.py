"""Walking a library folder."""

# ruff: noqa: PTH102, PTH118, PTH123 - the walk's paths are plain strings and bytes

import os
import sys
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import Any

import pytest

from indexer.facts import folders
from indexer.facts.folders import FoundFile, walk

ON_WINDOWS = os.name == "nt"
posix_only = pytest.mark.skipif(ON_WINDOWS, reason="Windows allows no such name or file")


def put(path: Path, text: str = "x") -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)
    return path


def below(*names: str) -> set[bytes]:
    return {os.fsencode(name.replace("/", os.sep)) for name in names}


def test_every_file_is_found_with_size_and_time(library: Path) -> None:
    """Files of all kinds, in folders however deep, are listed by their place below the root and not opened."""
    file = put(library / "2026" / "trip" / "a.jpg", "hello")
    put(library / "notes.txt")
    os.utime(file, ns=(5, 123_456_700))
    found = walk(os.fspath(library))
    assert set(found.files) == below("2026/trip/a.jpg", "notes.txt")
    assert found.files[os.fsencode(os.path.join("2026", "trip", "a.jpg"))] == FoundFile(5, 123_456_700)
    assert (found.closed, found.bare, found.skipped) == ({}, set(), 0)


def test_a_walk_of_one_subfolder_names_files_from_the_root(library: Path) -> None:
    """Only that folder is walked; its places are still those below the root."""
    put(library / "2025" / "a.jpg")
    put(library / "2026" / "trip" / "b.jpg")
    assert set(walk(os.fspath(library), "2026").files) == below("2026/trip/b.jpg")


@posix_only
def test_links_are_not_followed_out_of_the_library(library: Path, tmp_path: Path) -> None:
    """A link to a folder or a file outside, or to nothing, is counted as skipped and not entered."""
    outside = put(tmp_path / "outside" / "secret.jpg")
    (library / "folder").symlink_to(outside.parent)
    (library / "file.jpg").symlink_to(outside)
    (library / "broken.jpg").symlink_to(tmp_path / "nothing")
    put(library / "a.jpg")
    found = walk(os.fspath(library))
    assert set(found.files) == below("a.jpg")
    assert found.skipped == 3


@posix_only
def test_circular_links_end(library: Path) -> None:
    """A link to the folder above, and two that point at each other, do not turn the walk round in a circle."""
    (library / "up").symlink_to(library)
    (library / "one").symlink_to(library / "two")
    (library / "two").symlink_to(library / "one")
    put(library / "a.jpg")
    assert set(walk(os.fspath(library)).files) == below("a.jpg")


def test_a_folder_that_comes_by_twice_is_walked_once(library: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder mounted inside itself has the same number on the disk and is not entered again."""
    put(library / "2026" / "a.jpg")
    (library / "2026" / "again").mkdir()
    plain = os.stat

    def mounted(path: Any, **how: Any) -> os.stat_result:
        return plain(library / "2026" if os.fspath(path).endswith("again") else path, **how)

    monkeypatch.setattr(folders.os, "stat", mounted)
    found = walk(os.fspath(library))
    assert (set(found.files), found.skipped) == (below("2026/a.jpg"), 1)


@posix_only
def test_the_root_itself_may_be_a_link(library: Path, tmp_path: Path) -> None:
    """The person named it, so it is entered."""
    put(library / "a.jpg")
    (tmp_path / "link").symlink_to(library)
    assert set(walk(os.fspath(tmp_path / "link")).files) == below("a.jpg")


@pytest.mark.parametrize(
    "name", [".hidden", ".Trash-1000", "$RECYCLE.BIN", "System Volume Information", "lost+found", "__MACOSX"]
)
def test_hidden_and_system_folders_are_not_entered(name: str, library: Path) -> None:
    """They hold what the system keeps, such as thrown away photos."""
    put(library / name / "a.jpg")
    put(library / "2026" / name / "b.jpg")
    put(library / "2026" / "c.jpg")
    found = walk(os.fspath(library))
    assert (set(found.files), found.skipped) == (below("2026/c.jpg"), 2)


def test_hidden_files_are_left_out(library: Path) -> None:
    """A name that begins with a dot is some program's, such as the shadow files on sticks."""
    put(library / "._a.jpg")
    put(library / "a.jpg")
    assert set(walk(os.fspath(library)).files) == below("a.jpg")


@posix_only
@pytest.mark.parametrize("name", ["line\nbreak.jpg", "sail ⛵️ 😀.jpg", " .jpg", "é.jpg", "a\\b.jpg", "q'\"?*.jpg"])
def test_odd_names_are_kept_as_they_are(name: str, library: Path) -> None:
    """A name with a line break, an emoji or quotes is a name like any other, in folders too."""
    put(library / "folder" / name)
    put(library / f"{name}-folder" / "a.jpg")
    found = {os.fsdecode(path) for path in walk(os.fspath(library)).files}
    assert found == {f"folder/{name}", f"{name}-folder/a.jpg"}


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux takes names that are no text")
def test_bytes_that_are_no_text_are_kept(library: Path) -> None:
    """A name in another encoding than the system's comes out as the bytes that the system gave."""
    folder = os.path.join(os.fsencode(library), b"\xfe")
    os.mkdir(folder)
    with open(os.path.join(folder, b"\xff.jpg"), "wb"):
        pass
    assert set(walk(os.fspath(library)).files) == {b"\xfe/\xff.jpg"}


def test_a_folder_that_cannot_be_listed_is_named_with_the_reason(
    library: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The others are walked all the same."""
    put(library / "closed" / "a.jpg")
    put(library / "open" / "b.jpg")
    plain = os.scandir

    def scandir(path: str) -> AbstractContextManager[Iterator[os.DirEntry[str]]]:
        if os.fspath(path).endswith("closed"):
            raise PermissionError(13, "Permission denied", path)
        return plain(path)

    monkeypatch.setattr(folders.os, "scandir", scandir)
    found = walk(os.fspath(library))
    assert found.closed == {b"closed": "Permission denied"}
    assert set(found.files) == below("open/b.jpg")
    assert not found.bare


def test_a_disk_that_breaks_off_amid_a_listing_closes_the_folder(
    library: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was listed before is kept, and the folder counts as closed, so that nothing in it is called missing."""
    for name in ("a.jpg", "b.jpg"):
        put(library / "disk" / name)
    plain = os.scandir

    class Breaking:
        def __init__(self, path: str) -> None:
            self.entries = sorted(plain(path), key=lambda entry: entry.name)

        def __enter__(self) -> Iterator[os.DirEntry[str]]:
            yield self.entries[0]
            raise OSError(5, "Input/output error")

        def __exit__(self, *_: object) -> None:
            pass

    def scandir(path: str) -> Any:
        return Breaking(path) if os.fspath(path).endswith("disk") else plain(path)

    monkeypatch.setattr(folders.os, "scandir", scandir)
    found = walk(os.fspath(library))
    assert (set(found.files), found.closed) == (below("disk/a.jpg"), {b"disk": "Input/output error"})


@pytest.mark.parametrize("kind", ["missing", "file"])
def test_a_root_that_is_no_folder_is_closed(kind: str, library: Path) -> None:
    """A root that is gone, or has become a file, is named as the empty path."""
    root = library / "root"
    if kind == "file":
        put(root)
    found = walk(os.fspath(root))
    assert set(found.closed) == {b""}
    assert found.closed[b""]
    assert not found.files


def test_a_folder_with_nothing_in_it_is_bare(library: Path) -> None:
    """Nothing that a walk enters: what the system leaves behind in a folder does not count."""
    (library / "bare").mkdir()
    put(library / "left" / ".thumbs")
    put(library / "kept" / "note.txt")
    assert walk(os.fspath(library)).bare == {b"bare", b"left"}
    assert walk(os.fspath(library / "bare")).bare == {b""}


@posix_only
def test_what_is_neither_file_nor_folder_is_passed_over(library: Path) -> None:
    """A pipe would block whoever opens it."""
    os.mkfifo(library / "pipe.jpg")
    assert not walk(os.fspath(library)).files


def test_a_time_that_no_database_holds_is_brought_into_its_range(library: Path) -> None:
    """Disks take years whose nanoseconds do not fit into 64 bits (after 2262); such a time must not stop a run."""
    file = put(library / "late.jpg")
    try:
        os.utime(file, (10**10, 10**10))  # the year 2286
    except (OSError, OverflowError):
        pytest.skip("this disk keeps no such time")
    found = walk(os.fspath(library)).files[b"late.jpg"]
    assert -(2**63) <= found.mtime_ns < 2**63
    assert walk(os.fspath(library)).files[b"late.jpg"] == found


def test_the_heartbeat_counts_the_files_so_far(library: Path) -> None:
    """It is told once a folder and ends with the count of all."""
    for name in ("a.jpg", "2026/b.jpg", "2026/trip/c.jpg"):
        put(library / name)
    counts: list[int] = []
    walk(os.fspath(library), heartbeat=counts.append)
    assert counts == [1, 2, 3]


def test_a_file_that_vanishes_during_the_walk_closes_nothing(library: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is passed over, and the others of its folder are found."""
    put(library / "a.jpg")
    put(library / "b.jpg")
    listing = os.scandir

    class Vanished:
        """An entry whose file is gone when it is asked for."""

        def __init__(self, entry: os.DirEntry[str]) -> None:
            self.name, self.is_symlink, self.is_dir, self.is_file = (
                entry.name,
                entry.is_symlink,
                entry.is_dir,
                entry.is_file,
            )

        def stat(self, **_: object) -> os.stat_result:
            raise FileNotFoundError(2, "No such file or directory")

    @contextmanager
    def with_one_gone(folder: str) -> Iterator[list[object]]:
        with listing(folder) as entries:
            yield [Vanished(entry) if entry.name == "a.jpg" else entry for entry in entries]

    monkeypatch.setattr(os, "scandir", with_one_gone)
    found = walk(os.fspath(library))
    assert (list(found.files), found.closed) == ([b"b.jpg"], {})
