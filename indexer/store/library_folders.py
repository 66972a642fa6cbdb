"""The folders that make up the library, kept free of overlap: a file lies below exactly one of them."""

import os
import sqlite3
from datetime import MAXYEAR
from pathlib import Path
from typing import NamedTuple

from indexer.errors import FolderError
from indexer.facts.folder_names import claim_from_folders
from indexer.facts.folders import is_entered


class LibraryFolder(NamedTuple):
    """A folder the person pointed the tool at; `path` is absolute and real (no links in it)."""

    id: int
    path: str


class Place(NamedTuple):
    """What is to be walked: a library folder, or only its subfolder `below` ("" for the whole)."""

    folder: LibraryFolder
    below: str


def library_folders(connection: sqlite3.Connection) -> list[LibraryFolder]:
    """All library folders, in the order of their paths."""
    rows = connection.execute("SELECT id, path FROM library_folder ORDER BY path")
    return [LibraryFolder(row["id"], os.fsdecode(row["path"])) for row in rows]


def folders_with_photos(connection: sqlite3.Connection) -> set[int]:
    """The ids of the library folders where a photo lies, or lay when last seen."""
    rows = connection.execute("SELECT DISTINCT folder_id FROM file WHERE kind = 'photo' AND missing_since IS NULL")
    return {folder_id for (folder_id,) in rows}


def place_of(connection: sqlite3.Connection, folder: str) -> Place:
    """Where a real path lies in the library; a path outside it becomes a library folder of its own.

    Library folders inside the new one become part of it, with all their files. Inside the caller's transaction.
    """
    known = library_folders(connection)
    for library in known:
        if is_reached(folder, library.path):
            return Place(library, "" if folder == library.path else os.path.relpath(folder, library.path))
    cursor = connection.execute("INSERT INTO library_folder (path) VALUES (?)", (os.fsencode(folder),))
    new = LibraryFolder(int(cursor.lastrowid or 0), folder)
    for library in known:
        if is_reached(library.path, folder):
            _absorb(connection, library, new)
    return Place(new, "")


def is_inside(path: str, folder: str) -> bool:
    """Whether a real path is a folder or lies below it, by the rules of this system's paths (case on Windows)."""
    inner, outer = os.path.normcase(path), os.path.normcase(folder)
    return inner == outer or inner.startswith(os.path.join(outer, ""))  # noqa: PTH118


def is_reached(path: str, folder: str) -> bool:
    """Whether a walk of the folder comes by that real path. A hidden folder below it, which the person named by itself,
    is a library folder of its own: as a part of this one its photos would be called missing."""
    return is_inside(path, folder) and all(map(is_entered, Path(os.path.relpath(path, folder)).parts))


def refuse_inside_library(connection: sqlite3.Connection, path: Path) -> None:
    """Raises FolderError for a place inside a library folder: nothing is ever written there."""
    real = Path(os.path.realpath(path))
    for library in library_folders(connection):
        if is_inside(str(real), library.path) or any(_is_same(place, library.path) for place in real.parents):
            raise FolderError(
                f"{path} lies in the library folder {library.path}, where nothing is ever written; choose another place"
            )


def _is_same(place: Path, folder: str) -> bool:
    """Whether two paths lead to one folder, also where the disk ignores case and the system's path rules do not."""
    try:
        return place.samefile(folder)
    except OSError:
        return False


def _absorb(connection: sqlite3.Connection, inner: LibraryFolder, outer: LibraryFolder) -> None:
    prefix = os.fsencode(str(Path(inner.path).relative_to(outer.path)) + os.sep)
    rows = connection.execute("SELECT id, path FROM file WHERE folder_id = ?", (inner.id,)).fetchall()
    connection.executemany(
        "UPDATE file SET folder_id = ?, path = ? WHERE id = ?",
        [(outer.id, prefix + row["path"], row["id"]) for row in rows],
    )
    if claim_from_folders(Path(inner.path).relative_to(outer.path).parts, MAXYEAR):
        # These names now count among the folders that tell when a photo was taken, so all in them is read again.
        connection.executemany("UPDATE file SET reader_version = 0 WHERE id = ?", [(row["id"],) for row in rows])
    connection.execute("DELETE FROM library_folder WHERE id = ?", (inner.id,))
