"""Photos to pull: values made up for a test, and JPEGs drawn into a library folder that is then read-only."""

import hashlib
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from indexer.facts.reading import read_file
from queries.photos import Photo
from queries.pull import PullResult, pull_week
from queries.pull.selection import LeftOut, Selection
from queries.weeks import Week, WeekRule

MakePhoto = Callable[..., Photo]


@dataclass(frozen=True)
class Told:
    """A week's state as it is handed to a pull."""

    state: str = "open"
    waiting_for: tuple[str, ...] = ()


@pytest.fixture(scope="session")
def week() -> Week:
    """30 Mar - 5 Apr 2026, week 14."""
    return WeekRule().week_named(2026, 14)


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


@pytest.fixture
def names(photos: list[Photo]) -> list[str]:
    """The file names that the five photos get."""
    starts = ("2026-03-30_0915-20", "2026-03-30_0915-40", "2026-03-31_1802", "2026-04-02_0700", "2026-04-02_notime")
    return [f"{start}_{photo.code}.jpg" for start, photo in zip(starts, photos, strict=True)]


@pytest.fixture
def snapshot() -> Callable[[Path], dict[str, tuple[bytes, int]]]:
    """Every file of a folder: its content and its file time."""

    def take(folder: Path) -> dict[str, tuple[bytes, int]]:
        return {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in folder.iterdir()}

    return take


@pytest.fixture
def read_json() -> Callable[[Path], dict[str, Any]]:
    """A folder's week.json."""

    def read(folder: Path) -> dict[str, Any]:
        body = json.loads((folder / "week.json").read_text("utf-8"))
        assert isinstance(body, dict)
        return body

    return read


@pytest.fixture
def pull(tmp_path: Path, library: Path, week: Week) -> Callable[..., PullResult]:
    """Pull photos into the folder "out", or another."""

    def run(
        photos: list[Photo],
        folder: Path | None = None,
        *,
        told: Told | None = None,
        as_jpeg: bool = False,
        of_week: Week = week,
        say: Callable[[str], None] = lambda _: None,
        left_out: Sequence[LeftOut] = (),
    ) -> PullResult:
        return pull_week(
            Selection(tuple(photos), tuple(left_out)),
            of_week,
            told or Told(),
            folder or tmp_path / "out",
            [library],
            as_jpeg=as_jpeg,
            say=say,
            day_of=lambda photo: date.fromisoformat((photo.taken or "2026-03-30")[:10]),
        )

    return run
