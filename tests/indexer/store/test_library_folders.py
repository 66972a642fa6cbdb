"""The folders that make up the library."""

# ruff: noqa: PTH100, PTH118 - the store's paths are plain strings and bytes

import os
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from indexer.errors import FolderError
from indexer.facts.records import FileReading
from indexer.store.files import FileRow, known_files, mark_missing, save
from indexer.store.library_folders import (
    Place,
    folders_with_photos,
    is_inside,
    library_folders,
    place_of,
    refuse_inside_library,
)
from indexer.store.opening import transaction

ROOT = os.path.abspath(os.sep)


def at(*parts: str) -> str:
    return os.path.join(ROOT, *parts)


def place(connection: sqlite3.Connection, *parts: str) -> Place:
    with transaction(connection):
        return place_of(connection, at(*parts))


def put(connection: sqlite3.Connection, folder_id: int, *parts: str, reading: FileReading | None = None) -> None:
    path = os.fsencode(os.path.join(*parts))
    with transaction(connection):
        save(connection, [FileRow(None, folder_id, path, 1, 1, 1, reading or FileReading("other"))])


def paths(connection: sqlite3.Connection) -> list[str]:
    return [folder.path for folder in library_folders(connection)]


def test_a_new_folder_becomes_part_of_the_library(connection: sqlite3.Connection) -> None:
    """It is one from then on, and the same the next time."""
    new = place(connection, "photos")
    assert (new.folder.path, new.below) == (at("photos"), "")
    assert place(connection, "photos") == new
    assert paths(connection) == [at("photos")]


def test_a_folder_inside_the_library_is_a_place_in_it(connection: sqlite3.Connection) -> None:
    """A file lies below exactly one library folder."""
    whole = place(connection, "photos")
    assert place(connection, "photos", "2026", "trip") == Place(whole.folder, os.path.join("2026", "trip"))
    assert paths(connection) == [at("photos")]


def test_a_folder_beside_it_is_another(connection: sqlite3.Connection) -> None:
    """A name that begins alike does not make it a part."""
    place(connection, "photos")
    place(connection, "photos-old")
    place(connection, "photo")
    assert paths(connection) == [at("photo"), at("photos"), at("photos-old")]


def test_a_folder_around_others_takes_them_in(connection: sqlite3.Connection) -> None:
    """Their files keep their rows; their places are now told from the outer folder."""
    one, two = place(connection, "photos", "2025"), place(connection, "photos", "b", "2026")
    beside = place(connection, "photos-old")
    put(connection, one.folder.id, "a.jpg")
    put(connection, two.folder.id, "trip", "b.jpg")
    put(connection, beside.folder.id, "c.jpg")
    ids = {row.id for folder in library_folders(connection) for row in known_files(connection, folder.id)}
    whole = place(connection, "photos")
    assert paths(connection) == [at("photos"), at("photos-old")]
    inside = {row.path for row in known_files(connection, whole.folder.id)}
    assert inside == {
        os.fsencode(os.path.join("2025", "a.jpg")),
        os.fsencode(os.path.join("b", "2026", "trip", "b.jpg")),
    }
    assert [row.path for row in known_files(connection, beside.folder.id)] == [b"c.jpg"]
    assert ids == {row.id for folder in library_folders(connection) for row in known_files(connection, folder.id)}


def test_the_whole_disk_may_be_the_library(connection: sqlite3.Connection) -> None:
    """The root ends in a separator already, and takes in all others."""
    inner = place(connection, "photos")
    put(connection, inner.folder.id, "a.jpg")
    whole = place(connection)
    assert (whole.folder.path, whole.below) == (ROOT, "")
    assert [row.path for row in known_files(connection, whole.folder.id)] == [
        os.fsencode(os.path.join("photos", "a.jpg"))
    ]
    assert place(connection, "photos").below == "photos"


@pytest.mark.parametrize("hidden", [".private", "$RECYCLE.BIN"])
@pytest.mark.parametrize("first", ["inner", "outer"])
def test_a_folder_that_the_outer_walk_does_not_enter_stays_its_own(
    hidden: str, first: str, connection: sqlite3.Connection
) -> None:
    """A hidden folder that was named by itself would otherwise be walked from above, and its photos called missing."""
    inner, outer = (at("photos", hidden, "2026"), at("photos"))
    for path in (inner, outer) if first == "inner" else (outer, inner):
        with transaction(connection):
            assert place_of(connection, path).below == ""
    assert sorted(paths(connection)) == sorted([inner, outer])
    assert place(connection, "photos", hidden, "2026", "trip").folder.path == inner


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such names")
def test_a_folder_whose_name_is_no_text_is_kept(connection: sqlite3.Connection) -> None:
    """As the bytes that the system gave, absorbed ones too."""
    odd = os.fsdecode(b"\xff\n")
    inner = place(connection, "photos", odd)
    put(connection, inner.folder.id, "a.jpg")
    assert paths(connection) == [at("photos", odd)]
    whole = place(connection, "photos")
    assert [row.path for row in known_files(connection, whole.folder.id)] == [b"\xff\n/a.jpg"]


@pytest.mark.parametrize(
    ("inner", "outer", "is_in"),
    [
        (("a",), ("a",), True),
        (("a", "b"), ("a",), True),
        (("a",), ("a", "b"), False),
        (("ab",), ("a",), False),
        (("a",), (), True),
        (("b",), ("a",), False),
    ],
)
def test_inside_goes_by_whole_names(inner: tuple[str, ...], outer: tuple[str, ...], is_in: bool) -> None:
    """A folder is inside itself, and not inside one whose name it merely continues."""
    assert is_inside(at(*inner), at(*outer)) is is_in


def test_a_place_inside_the_library_is_refused_for_writing(connection: sqlite3.Connection, library: Path) -> None:
    """Through a link too, and for files that are not there yet; the line names both."""
    with transaction(connection):
        place_of(connection, os.fspath(library))
    for path in (library, library / "new" / "words.json"):
        with pytest.raises(FolderError, match="nothing is ever written") as caught:
            refuse_inside_library(connection, path)
        assert str(library) in str(caught.value)
    refuse_inside_library(connection, library.parent / "words.json")
    refuse_inside_library(connection, library.with_name("library-2"))
    if os.name != "nt":
        (library.parent / "link").symlink_to(library)
        with pytest.raises(FolderError):
            refuse_inside_library(connection, library.parent / "link" / "words.json")


def test_folders_hold_photos_as_long_as_one_is_there(
    connection: sqlite3.Connection, photo_reading: Callable[..., FileReading]
) -> None:
    """Other files and missing photos do not count."""
    one, two = place(connection, "one"), place(connection, "two")
    put(connection, one.folder.id, "a.jpg", reading=photo_reading("a" * 32))
    put(connection, two.folder.id, "b.txt")
    assert folders_with_photos(connection) == {one.folder.id}
    mark_missing(connection, [known_files(connection, one.folder.id)[0].id], "2026-06-01T00:00:00.000000Z")
    assert folders_with_photos(connection) == set()
