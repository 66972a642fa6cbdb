"""Pulling some of a week's photos: what is left out, and what was pulled before."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from indexer.errors import PullError
from queries.made_files.sealed import sealed_text
from queries.membership import Alike
from queries.photos import Photo
from queries.pull import PullResult
from queries.pull.manifest import Manifest, parse_manifest
from queries.pull.selection import LeftOut

Pull = Callable[..., PullResult]
ReadJson = Callable[[Path], dict[str, Any]]


@pytest.fixture
def burst(photos: list[Photo]) -> list[Photo]:
    """The five photos, the second of which is left out of a burst with the first."""
    keeper = photos[0]
    told = Alike("burst", 2, True, keeper.key, keeper.code, keeper.path, False, "sharpest of 2")
    left = replace(photos[1], keeper=False, alike=replace(told, is_keeper=False))
    return [replace(keeper, alike=told), left, *photos[2:]]


def test_what_is_left_out_is_not_copied_and_said(
    pull: Pull, burst: list[Photo], names: list[str], read_json: ReadJson
) -> None:
    """Only what is taken is copied; the plan counts the others, the result names them, week.json tells of sets."""
    said: list[str] = []
    keepers = [burst[0], *burst[2:]]
    result = pull(keepers, left_out=[LeftOut(burst[1], burst[0].key)], say=said.append)
    assert said[0].startswith("30 Mar - 5 Apr 2026, week 14: 4 photos, 4 to copy (")
    assert said[0].endswith(", 1 left out")
    assert (list(result.added), result.left_out) == ([names[0], *names[2:]], (burst[1].code,))
    rows = read_json(result.folder)["photos"]
    assert rows[0]["keeper"] is True
    assert rows[0]["alike"] == {"kind": "burst", "keeper": burst[0].code, "photos": 2}
    assert rows[1]["alike"] is None


def test_a_file_whose_photo_is_left_out_now_stays_and_is_said(
    pull: Pull, burst: list[Photo], names: list[str], read_json: ReadJson
) -> None:
    """After all photos, only the keepers: nothing is deleted, the file is named, and its record says what it is."""
    folder = pull(burst).folder
    for _ in range(2):
        result = pull([burst[0], *burst[2:]], left_out=[LeftOut(burst[1], burst[0].key)])
        assert (folder / names[1]).is_file()
        assert result.left == ((names[1], "pulled earlier; its photo is left out now"),)
        row = next(row for row in read_json(folder)["photos"] if row["file"] == names[1])
        assert (row["in_week"], row["keeper"], row["alike"]["keeper"]) == (True, False, burst[0].code)
    assert (pull(burst).added, pull(burst).left) == ((), ())


def test_a_week_that_is_left_out_whole_cannot_be_pulled(pull: Pull, burst: list[Photo], tmp_path: Path) -> None:
    """The error says that there are photos and how to have them, and no folder is made."""
    with pytest.raises(PullError, match="has 5 photos, all of them left out; weeksheaf pull --all takes them"):
        pull([], left_out=[LeftOut(photo, None, ("left out by you",)) for photo in burst])
    assert not (tmp_path / "out").exists()


def test_the_sheet_is_drawn_anew_when_the_choice_changes(pull: Pull, burst: list[Photo]) -> None:
    """What stands small on the sheet is part of it: another choice makes another sheet, the same one the same."""
    keepers, left_out = [burst[0], *burst[2:]], [LeftOut(burst[1], burst[0].key)]
    sheet = pull(keepers, left_out=left_out).folder / "week-sheet.pdf"
    first = sheet.read_bytes()
    assert pull(keepers, left_out=left_out).bytes_written == 0
    pull(keepers)
    assert sheet.read_bytes() != first


def test_a_week_json_of_before_there_were_sets_is_read(pull: Pull, photos: list[Photo], read_json: ReadJson) -> None:
    """A folder pulled when nothing was known of photos alike is added to as ever."""
    folder = pull(photos[:2]).folder
    body = read_json(folder)
    body.pop("seal")
    for row in body["photos"]:
        del row["keeper"], row["alike"]
    (folder / "week.json").write_text(sealed_text(body))
    assert isinstance(parse_manifest((folder / "week.json").read_bytes()), Manifest)
    assert len(pull(photos).kept) == 2
