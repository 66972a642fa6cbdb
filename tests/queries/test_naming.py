"""From what a person types to the photo meant."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from indexer import index_folders, open_for_writing
from indexer.errors import UnknownPhotoError
from queries.naming import photo_named

patient = settings(deadline=None)


@pytest.fixture(scope="module")
def library(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two photos, one of which is called like a code."""
    folder = tmp_path_factory.mktemp("library")
    for number, name in enumerate(["harbour.jpg", "abcde"]):
        out = BytesIO()
        Image.new("RGB", (48, 32), (number * 90, 90, 140)).save(out, "JPEG")
        (folder / name).write_bytes(out.getvalue())
    return folder


@pytest.fixture(scope="module")
def index(library: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[sqlite3.Connection]:
    with closing(open_for_writing(tmp_path_factory.mktemp("index") / "index.db", create=True)) as connection:
        index_folders(connection, [library], today=date(2026, 4, 20))
        yield connection


def test_a_photo_answers_to_path_code_and_key(index: sqlite3.Connection, library: Path) -> None:
    """Path, code and every longer prefix of the key lead to the one photo."""
    photo = photo_named(index, str(library / "harbour.jpg"))
    for end in range(5, len(photo.key) + 1):
        assert photo_named(index, photo.key[:end]) == photo
    assert photo_named(index, photo.key.upper()) == photo


def test_fewer_letters_than_a_code_are_no_name(index: sqlite3.Connection, library: Path) -> None:
    """Four letters are too few even where only one key begins so."""
    photo = photo_named(index, str(library / "harbour.jpg"))
    with pytest.raises(UnknownPhotoError):
        photo_named(index, photo.key[:4])


def test_a_file_that_is_there_comes_before_a_code(
    index: sqlite3.Connection, library: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file whose name could be a code is that file where the person stands beside it."""
    monkeypatch.chdir(library)
    assert photo_named(index, "abcde").path == str(library / "abcde")


@pytest.mark.parametrize("way", ["another/../harbour.jpg", "./harbour.jpg", "harbour.jpg"])
def test_paths_are_taken_from_where_the_person_stands(
    index: sqlite3.Connection, library: Path, monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    """A relative path, also with a way back in it, is the file it leads to."""
    monkeypatch.chdir(library)
    assert photo_named(index, way).path == str(library / "harbour.jpg")


def test_a_link_to_a_photo_is_the_photo(index: sqlite3.Connection, library: Path, tmp_path: Path) -> None:
    """A link outside the library leads to the photo it points at."""
    link = tmp_path / "favourite.jpg"
    try:
        link.symlink_to(library / "harbour.jpg")
    except OSError:
        pytest.skip("this system allows no links")
    assert photo_named(index, os.fspath(link)).path == str(library / "harbour.jpg")


@patient
@given(st.one_of(st.text(), st.binary().map(os.fsdecode)).filter(lambda text: "\0" not in text))
def test_anything_typed_is_a_photo_or_a_known_error(index: sqlite3.Connection, text: str) -> None:
    """No text makes the search fail in any other way than by saying that no photo answers to it."""
    try:
        assert photo_named(index, text).code
    except UnknownPhotoError:
        return


def test_a_folder_is_no_photo(index: sqlite3.Connection, library: Path) -> None:
    """It is said that a folder was named, and what to name instead."""
    with pytest.raises(UnknownPhotoError, match="is a folder; name a photo by its path or by the code"):
        photo_named(index, str(library))
