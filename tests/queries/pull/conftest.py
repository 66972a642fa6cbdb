"""Photos to pull: values made up for a test, and JPEGs drawn into a library folder that is then read-only."""

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from queries.photos import Photo
from queries.pull import PullResult, pull_week
from queries.pull.selection import LeftOut, Selection
from queries.weeks import Week, WeekRule


@dataclass(frozen=True)
class Told:
    """A week's state as it is handed to a pull."""

    state: str = "open"
    waiting_for: tuple[str, ...] = ()


@pytest.fixture(scope="session")
def week() -> Week:
    """30 Mar - 5 Apr 2026, week 14."""
    return WeekRule().week_named(2026, 14)


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
