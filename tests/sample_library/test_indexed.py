"""The main job on the sample library: every photo found, and none in a wrong week unsaid."""

import csv
import json
import shutil
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from queries.cli import main

LIBRARY = Path(__file__).parents[2] / "sample_library"


@pytest.fixture(scope="module")
def index(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("sample") / "index.db"


def asked(index: Path, *words: str) -> Any:
    result = CliRunner().invoke(main, ["--index", str(index), *words, "--json"], catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


@pytest.fixture(scope="module")
def summary(index: Path) -> Any:
    return asked(index, "index", str(LIBRARY))


@pytest.fixture(scope="module")
def photos(index: Path, summary: Any) -> dict[str, Any]:
    assert summary["new"]
    return photos_in(index)


def photos_in(index: Path) -> dict[str, Any]:
    """What the tool says of each file, by its path in the library."""
    rows = [*asked(index, "undated")["photos"]]
    for week in asked(index, "weeks")["weeks"]:
        rows += asked(index, "week", week["name"])["photos"]
    return {Path(path).relative_to(LIBRARY).as_posix(): row for row in rows for path in row["paths"]}


@pytest.fixture(scope="module")
def truth() -> dict[str, dict[str, str]]:
    with (LIBRARY / "truth.csv").open(encoding="utf-8", newline="") as source:
        rows = {row["file"]: row for row in csv.DictReader(source)}
    return {file: row for file, row in rows.items() if (LIBRARY / file).exists()}


def test_every_photo_is_found_and_nothing_else(
    summary: Any, photos: dict[str, Any], truth: dict[str, dict[str, str]]
) -> None:
    """All photos of the truth, the hidden folder left aside; the odd files are rows of what cannot be read in full."""
    assert set(photos) == set(truth)
    assert summary["found"] == len(truth)
    assert summary["unreadable"] == 3


def wrong_unsaid(photos: dict[str, Any], truth: dict[str, dict[str, str]], *, weeks: bool) -> set[str]:
    """The photos that are not doubtful and whose time, or only whose week, is not that of the truth."""
    return {
        file
        for file, row in truth.items()
        if not photos[file]["doubtful"] and not _is_right(photos[file]["taken"] or "", row["taken"], weeks=weeks)
    }


def _is_right(taken: str, true: str, *, weeks: bool) -> bool:
    if weeks and len(taken) >= 10 and len(true) >= 10:
        return date.fromisoformat(taken[:10]).isocalendar()[:2] == date.fromisoformat(true[:10]).isocalendar()[:2]
    return taken[: len(true)] == true


def test_no_photo_is_in_a_wrong_week_unsaid(photos: dict[str, Any], truth: dict[str, dict[str, str]]) -> None:
    """Where the household knows better than the tool, the photo is doubtful; other times that are wrong are those of
    the camera whose clock is wrong, and they change no week."""
    assert wrong_unsaid(photos, truth, weeks=True) == set()
    compact = {file for file, row in truth.items() if row["device"] == "compact"}
    assert wrong_unsaid(photos, truth, weeks=False) <= compact


def test_the_truth_is_met_once_the_suggested_clock_is_taken(
    index: Path, truth: dict[str, dict[str, str]], tmp_path: Path
) -> None:
    """One suggestion, for the compact camera, by 3 days 7 hours 12 minutes; then no time is wrong unsaid, and none of
    that camera's photos is doubtful for its clock."""
    own = tmp_path / "own.db"
    shutil.copyfile(index, own)
    (suggestion,) = asked(own, "clock", "suggest")["suggestions"]
    assert (suggestion["camera"], suggestion["shift_seconds"]) == ("Brinlow Compact 12", ((3 * 24 + 7) * 60 + 12) * 60)
    asked(own, "clock", "set", "--suggested", "1")
    now = photos_in(own)
    assert wrong_unsaid(now, truth, weeks=False) == set()
    doubtful = [file for file, row in truth.items() if row["device"] == "compact" and now[file]["doubtful"]]
    assert doubtful == []


def test_the_weeks_run_over_the_turn_of_the_year(index: Path, summary: Any) -> None:
    """At least 12 weeks with photos, an empty one between two full ones, and one line for the years after the scan."""
    assert summary["weeks"] >= 12
    table = asked(index, "weeks", "--unfinished")
    rows = {row["name"]: row["photos"] for row in table["weeks"]}
    assert [rows[name] > 0 for name in ("2026-W03", "2026-W04", "2026-W05")] == [True, False, True]
    assert [gap["weeks"] for gap in table["gaps"]] == [1634]
