"""An empty index, bare tables in the place of its views, and photos: values made up, and JPEGs drawn into a folder."""

import hashlib
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest
from PIL import Image

from indexer import open_for_writing
from indexer.facts.reading import read_file
from queries.photos import Photo

MakePhoto = Callable[..., Photo]


@pytest.fixture
def index(tmp_path: Path) -> Iterator[sqlite3.Connection]:
    """A new index, open for writing."""
    with closing(open_for_writing(tmp_path / "index.db", create=True)) as connection:
        yield connection


@pytest.fixture(scope="module")
def bare_photos() -> Iterator[sqlite3.Connection]:
    """Bare tables in the place of the views that are counted in."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        connection.row_factory = sqlite3.Row
        connection.execute("CREATE TABLE photo (key, placed, shape, doubtful, present, keeper)")
        connection.execute("CREATE TABLE week_holding (log_uuid, photo_key)")
        connection.execute("CREATE TABLE alike_set (set_id, kind, photo_key)")
        yield connection


@pytest.fixture(scope="session")
def make_photo() -> MakePhoto:
    """A maker of photos as the index would know them; of a real file, if `path` is one."""

    def make(path: Path | str = "/library/photo.jpg", **facts: object) -> Photo:
        file = Path(path)
        there = file.is_file()
        shown = read_file(str(path)).facts if there else None
        key = shown.key if shown else hashlib.sha256(str(path).encode(errors="surrogateescape")).hexdigest()
        info = file.stat() if there else None
        values: dict[str, object] = {
            "key": key,
            "path": str(path),
            "size": info.st_size if info else 1000,
            "mtime_ns": info.st_mtime_ns if info else 10**18,
            "format": "JPEG",
            "taken": "2026-03-30T09:15:20",
            "fraction": "",
            "precision": "second",
            "zone": "+02:00",
            "source": "exif original",
            "doubtful": False,
            "reason": "",
            "shape": "landscape",
            "width": 64,
            "height": 48,
            "orientation": 1,
            "camera": None,
            "damage": None,
        } | facts
        values.setdefault("code", str(values["key"])[:5])
        values.setdefault("paths", (values["path"],))
        values.setdefault("placed", values["taken"])
        return Photo(**values)  # type: ignore[arg-type]

    return make


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """An empty library folder."""
    folder = tmp_path / "library"
    folder.mkdir()
    return folder


@pytest.fixture
def photos(library: Path, make_photo: MakePhoto) -> list[Photo]:
    """Five photos of three days, their files read-only."""
    times = ("2026-03-30T09:15:20", "2026-03-30T09:15:40", "2026-03-31T18:02:00", "2026-04-02T07:00:59", "2026-04-02")
    made = []
    for number, taken in enumerate(times):
        path = library / f"shot {number}.jpg"
        Image.effect_noise((64, 48), 20 + number).convert("RGB").save(path, quality=80)
        path.chmod(0o444)
        made.append(make_photo(path, taken=taken, precision="second" if "T" in taken else "day"))
    return made
