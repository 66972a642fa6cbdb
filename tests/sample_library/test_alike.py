"""Photos alike in the sample library: exactly the bursts and copies of the truth."""

import csv
import json
from collections import defaultdict
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from indexer.facts.reading import read_file
from queries.cli import main

LIBRARY = Path(__file__).parents[2] / "sample_library"

Sets = set[frozenset[str]]


def photo_of(file: str) -> str:
    """The key of the photo that a file holds: renamed and retagged files are one photo."""
    facts = read_file(str(LIBRARY / file)).facts
    assert facts, file
    return facts.key


@pytest.fixture(scope="module")
def alike(tmp_path_factory: pytest.TempPathFactory) -> Any:
    """What `alike` says of the whole library."""
    index = str(tmp_path_factory.mktemp("sample") / "index.db")
    for command in (("index", str(LIBRARY)), ("alike",)):
        result = CliRunner().invoke(main, ["--index", index, *command, "--json"], catch_exceptions=False)
        assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


@pytest.fixture(scope="module")
def truth() -> list[dict[str, str]]:
    with (LIBRARY / "truth.csv").open(encoding="utf-8", newline="") as source:
        return [row for row in csv.DictReader(source) if (LIBRARY / row["file"]).exists()]


def found(alike: Any, kind: str) -> Sets:
    sets = (frozenset([item["keeper"], *item["others"]]) for item in alike["sets"] if item["kind"] == kind)
    return {frozenset(photo_of(path) for path in paths) for paths in sets}


def test_the_copies_are_those_of_the_truth(alike: Any, truth: list[dict[str, str]]) -> None:
    """Every copy stands in a set with what it is a copy of, and nothing else is called a copy."""
    families: defaultdict[str, set[str]] = defaultdict(set)
    for row in truth:
        if row["copy_of"] and photo_of(row["file"]) != photo_of(row["copy_of"]):
            families[row["copy_of"]] |= {photo_of(row["file"]), photo_of(row["copy_of"])}
    assert found(alike, "copy") == {frozenset(family) for family in families.values()}


def test_the_bursts_are_those_of_the_truth(alike: Any, truth: list[dict[str, str]]) -> None:
    """Every burst is one set of its own frames, each shot standing in it once."""
    bursts: defaultdict[str, set[str]] = defaultdict(set)
    for row in truth:
        if row["burst"] and not row["copy_of"]:
            bursts[row["burst"]].add(photo_of(row["file"]))
    shots = {photo_of(row["file"]): photo_of(row["copy_of"] or row["file"]) for row in truth}
    assert {frozenset(shots[key] for key in keys) for keys in found(alike, "burst")} == {
        frozenset(keys) for keys in bursts.values()
    }


def test_what_cannot_be_read_takes_no_part(alike: Any) -> None:
    """The cut-off photo is listed apart, with the reason."""
    assert [Path(item["path"]).name for item in alike["not_compared"]] == ["cut off.jpg"]
