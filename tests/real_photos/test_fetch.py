"""The fetcher without a network: what it unpacks, what it refuses, and when it fetches again."""

import io
import json
import tarfile
import zipfile
from pathlib import Path

import pytest

from tests.real_photos.fetch import FetchError, Package, cached_version, unpack


@pytest.mark.parametrize("name", ["../outside.jpg", "/outside.jpg", "a/../../outside.jpg", "C:outside.jpg"])
def test_a_name_that_leads_out_of_the_folder_is_refused(tmp_path: Path, name: str) -> None:
    """An archive cannot write outside of the folder that it is unpacked into."""
    archive = tmp_path / "odd.zip"
    with zipfile.ZipFile(archive, "w") as zipped:
        zipped.writestr(name, b"x")
    folder = tmp_path / "in" / "here"
    folder.mkdir(parents=True)
    with pytest.raises(FetchError, match="outside of the folder"):
        unpack(archive, folder)
    assert not list(tmp_path.rglob("outside.jpg"))


def test_only_regular_files_are_unpacked(tmp_path: Path) -> None:
    """Links in a tar archive are left out, files come whole."""
    archive = tmp_path / "odd.tar.gz"
    with tarfile.open(archive, "w:gz") as tarred:
        link = tarfile.TarInfo("pictures/link.jpg")
        link.type, link.linkname = tarfile.SYMTYPE, "/etc/hostname"
        tarred.addfile(link)
        picture = tarfile.TarInfo("pictures/one.jpg")
        picture.size = 5
        tarred.addfile(picture, io.BytesIO(b"bytes"))
    folder = tmp_path / "here"
    folder.mkdir()
    unpack(archive, folder)
    assert [path.read_bytes() for path in folder.rglob("*") if not path.is_dir()] == [b"bytes"]


@pytest.mark.parametrize(
    ("noted", "wanted", "found"),
    [("1.0", "1.0", "1.0"), ("1.0", None, "1.0"), ("1.0", "2.0", None), (None, None, None)],
)
def test_another_version_in_the_cache_will_not_do(
    tmp_path: Path, noted: str | None, wanted: str | None, found: str | None
) -> None:
    """A package is there when it was fetched to its end, in the pinned version where there is a pin."""
    if noted:
        (tmp_path / "some.json").write_text(json.dumps({"version": noted}), "utf-8")
    assert cached_version(tmp_path, Package("some", "sdist", wanted, "MIT", "this test")) == found
