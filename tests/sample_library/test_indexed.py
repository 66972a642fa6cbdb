"""The main job on the sample library: every photo found, and no date wrong unsaid but those of the wrong clock."""

import csv
import json
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
    """What the tool says of each file, by its path in the library."""
    assert summary["new"]
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


def test_no_date_is_wrong_unsaid_but_those_of_the_wrong_clock(
    photos: dict[str, Any], truth: dict[str, dict[str, str]]
) -> None:
    """Where the household knows better than the tool, the tool marked the photo doubtful; a camera whose clock is wrong
    throughout is not found out yet, and only that."""
    wrong = {
        file
        for file, row in truth.items()
        if not photos[file]["doubtful"] and (photos[file]["taken"] or "")[: len(row["taken"])] != row["taken"]
    }
    assert wrong == {file for file, row in truth.items() if row["device"] == "compact"}


def test_the_weeks_run_over_the_turn_of_the_year(index: Path, summary: Any) -> None:
    """At least 12 weeks with photos, an empty one between two full ones, and one line for the years after the scan."""
    assert summary["weeks"] >= 12
    table = asked(index, "weeks", "--unfinished")
    rows = {row["name"]: row["photos"] for row in table["weeks"]}
    assert [rows[name] > 0 for name in ("2026-W03", "2026-W04", "2026-W05")] == [True, False, True]
    assert [gap["weeks"] for gap in table["gaps"]] == [1634]
