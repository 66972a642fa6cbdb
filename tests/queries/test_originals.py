"""The file of a photo to read from."""

import errno
import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from queries.originals import NoSource, Source, SourceError, find_source, source_blocks
from queries.photos import Photo

MakePhoto = Callable[..., Photo]


def source_of(path: Path) -> Source:
    info = path.stat()
    return Source(str(path), info.st_size, info.st_mtime_ns)


def test_the_photos_own_file_comes_first(photos: list[Photo]) -> None:
    """The original is the file that speaks for the photo, as long as it is as it was indexed."""
    photo = photos[0]
    assert find_source(photo) == Source(photo.path, photo.size, photo.mtime_ns)
    for changed in (replace(photo, size=photo.size + 1), replace(photo, mtime_ns=photo.mtime_ns + 1)):
        assert find_source(changed) == NoSource(photo.path, "changed since it was indexed; run weeksheaf index")


def test_another_place_of_the_photo_serves_when_the_first_is_gone(
    photos: list[Photo], library: Path, make_photo: MakePhoto
) -> None:
    """Of a photo's other places the first that is there is taken; with none, the first is named as not found."""
    gone, there = str(library / "gone.jpg"), photos[1].path
    photo = make_photo(gone, key=photos[1].key, paths=(gone, str(library / "gone too.jpg"), there))
    source = find_source(photo)
    assert isinstance(source, Source)
    assert source.path == there
    lost = find_source(replace(photo, paths=(gone,)))
    assert lost == NoSource(gone, "not found; connect its disk, or run weeksheaf index")


def test_a_folder_in_the_place_of_an_original_is_no_original(library: Path, make_photo: MakePhoto) -> None:
    """Only plain files are copied."""
    assert find_source(make_photo(library)) == NoSource(str(library), "no longer a file; run weeksheaf index")


def test_an_original_that_changes_under_the_copy_is_noticed(tmp_path: Path) -> None:
    """Reading to the end fails when the file is no longer the one that was planned."""
    path = tmp_path / "a.jpg"
    path.write_bytes(b"before")
    source = source_of(path)
    path.write_bytes(b"afterwards")
    with pytest.raises(SourceError, match="changed while it was read; run weeksheaf index"):
        list(source_blocks(source))


def test_an_original_that_cannot_be_read_is_named_in_words(tmp_path: Path) -> None:
    """The reason holds the system's words, without numbers."""
    with pytest.raises(SourceError, match=f"cannot be read: {os.strerror(errno.ENOENT).lower()}"):
        list(source_blocks(Source(str(tmp_path / "none.jpg"), 1, 1)))
