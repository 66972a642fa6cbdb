"""The folder that files are made in."""

import os
from pathlib import Path

import pytest

from indexer.errors import FolderError
from queries.made_files.folder import check_space, check_target


def link(place: Path, target: Path) -> Path:
    try:
        place.symlink_to(target, target_is_directory=True)
    except OSError:
        pytest.skip("this system makes no symbolic links here")
    return place


@pytest.mark.parametrize("below", ["", "new", "a/b/c", "../library", "../elsewhere/../library/x"])
def test_a_target_inside_a_library_is_refused(library: Path, below: str) -> None:
    """The library folder itself and every place in it, there or not, is refused by name."""
    with pytest.raises(FolderError, match=r"lies inside the library folder .* choose a folder outside of it"):
        check_target(library / below, [library])


def test_links_do_not_lead_into_a_library(tmp_path: Path, library: Path) -> None:
    """A link to the library, a link to a folder in it, and a library named by a link are seen through."""
    (library / "2026").mkdir()
    for target, libraries in (
        (link(tmp_path / "one", library) / "new", [library]),
        (link(tmp_path / "two", library / "2026"), [library]),
        (library / "2026", [link(tmp_path / "three", library)]),
    ):
        with pytest.raises(FolderError, match="lies inside the library folder"):
            check_target(target, libraries)


def test_a_disk_that_ignores_case_is_seen_through(library: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the system compares paths in one case, so do we."""
    monkeypatch.setattr("os.path.normcase", lambda path: os.fspath(path).lower())
    with pytest.raises(FolderError, match="lies inside the library folder"):
        check_target(library.parent / "LIBRARY" / "new", [library])


def test_a_disk_that_ignores_case_on_its_own_is_seen_through(library: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where only the disk ignores case, the folders themselves are compared and not their paths."""

    def is_same(one: Path, other: Path) -> bool:
        return str(one).lower() == str(other).lower()

    monkeypatch.setattr("pathlib.Path.samefile", is_same)
    with pytest.raises(FolderError, match="lies inside the library folder"):
        check_target(library.parent / "LIBRARY" / "new", [library])


def test_neighbours_of_a_library_are_fine(tmp_path: Path, library: Path) -> None:
    """A folder beside, around or named like a library may be pulled into."""
    for folder in (tmp_path, tmp_path / "library 2", tmp_path / "lib", tmp_path / "out" / "library"):
        check_target(folder, [library, tmp_path / "a disk that is away"])


def test_a_target_that_is_a_file_is_refused(tmp_path: Path) -> None:
    """A file is no folder, and the error says so."""
    (tmp_path / "out").touch()
    with pytest.raises(FolderError, match="out is not a folder; give the name of a folder"):
        check_target(tmp_path / "out", [])


def test_space_is_checked_where_the_folder_will_be(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that does not exist yet is measured by its nearest parent, with some room kept for the sheet."""
    asked = []

    def usage(path: Path) -> object:
        asked.append(path)
        return type("Usage", (), {"free": 20_000_000})

    monkeypatch.setattr("shutil.disk_usage", usage)
    folder = tmp_path / "not" / "yet"
    check_space(folder, 11_000_000)
    check_space(folder, 0)
    with pytest.raises(
        FolderError, match=r"yet needs 19 MB and its disk has 20 MB free; make room, or choose a folder on"
    ):
        check_space(folder, 19_000_000)
    assert set(asked) == {tmp_path}
