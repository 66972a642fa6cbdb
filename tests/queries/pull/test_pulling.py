"""A whole pull, on real folders."""

import os
import stat
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from indexer.errors import FolderError, PullError
from queries.made_files import writing
from queries.photos import Photo
from queries.pull import PullResult

MakePhoto = Callable[..., Photo]
Pull = Callable[..., PullResult]
Snapshot = Callable[[Path], dict[str, tuple[bytes, int]]]
ReadJson = Callable[[Path], dict[str, Any]]


def test_a_week_becomes_a_working_folder(
    pull: Pull, photos: list[Photo], library: Path, tmp_path: Path, names: list[str], snapshot: Snapshot
) -> None:
    """Byte-exact copies with their file times, a sheet and week.json; the originals are as they were."""
    before = snapshot(library)
    result = pull(photos)
    assert list(result.added) == names
    assert (result.kept, result.left, result.not_found, result.failed, result.notes) == ((), (), (), (), ())
    assert result.sheets == (tmp_path / "out" / "week-sheet.pdf",)
    for name, photo in zip(names, photos, strict=True):
        copy = result.folder / name
        assert copy.read_bytes() == Path(photo.path).read_bytes()
        assert copy.stat().st_mtime_ns == photo.mtime_ns
        assert copy.stat().st_mode & stat.S_IWUSR
    assert sorted(path.name for path in result.folder.iterdir()) == sorted([*names, "week-sheet.pdf", "week.json"])
    assert result.bytes_written == sum(photo.size for photo in photos) + result.sheets[0].stat().st_size
    assert snapshot(library) == before


def test_week_json_tells_the_whole(pull: Pull, photos: list[Photo], names: list[str], read_json: ReadJson) -> None:
    """It holds source, hash, time, shape and code of each photo, in the order of the names."""
    result = pull(photos)
    body = read_json(result.folder)
    assert [row["file"] for row in body["photos"]] == names
    row, photo = body["photos"][0], photos[0]
    assert row["sha256"] == row["source_sha256"] == writing.file_sha256(Path(photo.path))
    facts = ("key", "code", "taken", "precision", "zone", "shape", "width", "height", "doubtful")
    assert {name: row[name] for name in facts} == {name: getattr(photo, name) for name in facts}
    assert (row["source"], row["size"], row["in_week"]) == (photo.path, photo.size, True)
    assert [sheet["file"] for sheet in body["sheet"]] == ["week-sheet.pdf"]


def test_the_plan_is_said_before_anything_is_written(pull: Pull, photos: list[Photo], tmp_path: Path) -> None:
    """When the sizes are told the folder does not even exist."""
    said = []

    def say(line: str) -> None:
        assert not (tmp_path / "out").exists()
        said.append(line)

    pull(photos, say=say)
    total = sum(photo.size for photo in photos)
    assert said == [f"30 Mar - 5 Apr 2026, week 14: 5 photos, 5 to copy ({total / 1000:.1f} kB)"]


def test_originals_that_are_gone_or_changed(
    pull: Pull, photos: list[Photo], library: Path, names: list[str], read_json: ReadJson
) -> None:
    """They are listed with the way out, another place of the photo serves, and the rest is copied."""
    elsewhere = library / "again.jpg"
    elsewhere.write_bytes(Path(photos[0].path).read_bytes())
    paths = [Path(photo.path) for photo in photos]
    for path in paths[:3]:
        path.chmod(0o644)
    paths[0].unlink()
    paths[1].unlink()
    paths[2].write_bytes(b"retouched")
    doubled = replace(photos[0], paths=(photos[0].path, str(elsewhere)))
    result = pull([doubled, *photos[1:]])
    assert list(result.added) == [names[0], *names[3:]]
    assert result.not_found == (
        (photos[1].path, "not found; connect its disk, or run weeksheaf index"),
        (photos[2].path, "changed since it was indexed; run weeksheaf index"),
    )
    assert read_json(result.folder)["photos"][0]["source"] == str(elsewhere)


def test_jpegs_of_a_mixed_week(
    pull: Pull, photos: list[Photo], library: Path, make_photo: MakePhoto, read_json: ReadJson
) -> None:
    """Other formats become JPEGs, what cannot be opened is listed with the reason, and a guess is noted."""
    picture, tagged, broken = library / "p.png", library / "t.png", library / "b.jpg"
    Image.new("RGBA", (64, 48), (9, 9, 200, 128)).save(picture)
    Image.new("RGB", (64, 48), "teal").save(tagged, icc_profile=b"broken")
    broken.write_bytes(Path(photos[0].path).read_bytes()[:600])
    mixed = [
        make_photo(picture, format="PNG", taken="2026-04-05T10:00:00"),
        make_photo(tagged, format="PNG", taken="2026-04-05T11:00:00"),
        make_photo(broken, taken="2026-04-05T12:00:00", damage="cut off"),
    ]
    result = pull([*photos, *mixed], as_jpeg=True)
    assert len(result.added) == 7
    assert all(Image.open(result.folder / name).format == "JPEG" for name in result.added)
    assert [path for path, _ in result.failed] == [str(broken)]
    assert result.notes == (
        (f"2026-04-05_1100_{mixed[1].code}.jpg", "its colour profile cannot be used; taken as sRGB"),
    )
    rows = {row["key"]: row for row in read_json(result.folder)["photos"]}
    row = rows[mixed[0].key]
    assert row["source_sha256"] == writing.file_sha256(Path(mixed[0].path))
    assert row["sha256"] == writing.file_sha256(result.folder / row["file"]) != row["source_sha256"]
    assert read_json(result.folder)["files_are"] == "jpegs"


def test_a_damaged_photo_is_copied_as_it_is(pull: Pull, library: Path, make_photo: MakePhoto) -> None:
    """An exact copy asks nothing of the pixels."""
    path = library / "cut.jpg"
    path.write_bytes(b"\xff\xd8\xff\xe0 cut off")
    result = pull([make_photo(path, damage="cut off")])
    assert (result.folder / result.added[0]).read_bytes() == path.read_bytes()


def test_a_name_that_is_no_unicode(
    pull: Pull, photos: list[Photo], library: Path, make_photo: MakePhoto, read_json: ReadJson
) -> None:
    """A path with bytes outside of the system's encoding is copied and recorded."""
    if sys.platform in ("win32", "darwin"):
        pytest.skip("names are always Unicode here")
    path = library / os.fsdecode(b"kite \xff\n.jpg")
    path.write_bytes(Path(photos[0].path).read_bytes() + b"\0")
    result = pull([make_photo(path)])
    assert len(result.added) == 1
    assert read_json(result.folder)["photos"][0]["source"] == str(path)
    assert pull([make_photo(path)]).kept == result.added


def test_a_week_without_photos(pull: Pull, tmp_path: Path, photos: list[Photo]) -> None:
    """Nothing is made for it; a folder that it was pulled into before is still looked after."""
    with pytest.raises(PullError, match=r"30 Mar - 5 Apr 2026, week 14 has no photos to pull; `weeksheaf weeks` lists"):
        pull([])
    assert not (tmp_path / "out").exists()
    pull(photos)
    assert len(pull([]).left) == len(photos)


def test_nothing_is_written_into_a_library(pull: Pull, photos: list[Photo], library: Path, snapshot: Snapshot) -> None:
    """A target in the library is refused before anything is done."""
    before = snapshot(library)
    with pytest.raises(FolderError, match="lies inside the library folder"):
        pull(photos, library / "out")
    assert snapshot(library) == before
