"""Pulling into a folder where something is already."""

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from indexer.errors import PullError
from queries.photos import Photo
from queries.pull import PullResult
from queries.weeks import WeekRule

Pull = Callable[..., PullResult]
Snapshot = Callable[[Path], dict[str, tuple[bytes, int]]]
ReadJson = Callable[[Path], dict[str, Any]]


@pytest.mark.parametrize("as_jpeg", [False, True])
def test_a_second_run_changes_nothing(
    pull: Pull, photos: list[Photo], as_jpeg: bool, names: list[str], snapshot: Snapshot
) -> None:
    """Every file keeps its content and its file time, and all photos are reported as kept."""
    folder = pull(photos, as_jpeg=as_jpeg).folder
    before = snapshot(folder)
    again = pull(list(reversed(photos)), as_jpeg=as_jpeg)
    assert snapshot(folder) == before
    assert (again.added, again.bytes_written) == ((), 0)
    assert list(again.kept) == names


def test_what_is_missing_is_added(pull: Pull, photos: list[Photo], names: list[str]) -> None:
    """Late photos and deleted copies come, under names that fit, and the others stay untouched."""
    folder = pull(photos[:3]).folder
    (folder / names[0]).unlink()
    (folder / "week-sheet.pdf").unlink()
    result = pull(photos)
    assert list(result.added) == [names[0], *names[3:]]
    assert list(result.kept) == names[1:3]
    assert (folder / "week-sheet.pdf").is_file()


def test_what_the_person_changed_is_left_and_said(
    pull: Pull, photos: list[Photo], names: list[str], snapshot: Snapshot, read_json: ReadJson
) -> None:
    """Changed copies, a changed sheet and files of the person's own outlive every run."""
    folder = pull(photos).folder
    (folder / names[0]).write_bytes(b"cropped by hand")
    (folder / "week-sheet.pdf").write_bytes(b"annotated")
    (folder / "notes.txt").write_text("ferry, then kites")
    os.utime(folder / names[1])  # touched, and the same
    before = snapshot(folder)
    for _ in range(2):
        result = pull(photos, told=SimpleNamespace(state="started", waiting_for=()))
        assert result.left == (
            (names[0], "changed since it was pulled"),
            ("week-sheet.pdf", "changed since it was drawn; move it away to have a new one"),
        )
        assert list(result.kept) == names[1:]
        assert (result.added, result.sheets) == ((), ())
        after = snapshot(folder)
        assert before | {"week.json": after["week.json"]} == after
    assert read_json(folder)["state"] == "started"


def test_files_of_the_same_name_that_were_there_before(
    pull: Pull, photos: list[Photo], tmp_path: Path, names: list[str], read_json: ReadJson
) -> None:
    """The very bytes are taken over as ours; others are left, and so is what is no file."""
    folder = tmp_path / "out"
    (folder / names[2]).mkdir(parents=True)
    (folder / names[0]).write_bytes(Path(photos[0].path).read_bytes())
    (folder / names[1]).write_bytes(bytes(photos[1].size))
    result = pull(photos)
    assert list(result.kept) == names[:1]
    assert result.left == ((names[1], "another file has this name"), (names[2], "a folder or link has this name"))
    assert [row["file"] for row in read_json(folder)["photos"]] == [names[0], *names[3:]]
    assert (folder / names[1]).read_bytes() == bytes(photos[1].size)


def test_a_sheet_that_was_there_before(pull: Pull, photos: list[Photo], tmp_path: Path) -> None:
    """A file of the person's under the sheet's name is left; the very sheet, without a record of it, is ours."""
    sheet = pull(photos).sheets[0]
    (tmp_path / "out" / "week.json").unlink()
    assert pull(photos).sheets == (sheet,)
    (tmp_path / "other").mkdir()
    for content in (b"mine", sheet.read_bytes()[:-1] + b"?"):
        (tmp_path / "other" / "week-sheet.pdf").write_bytes(content)
        result = pull(photos, tmp_path / "other")
        assert result.left == (("week-sheet.pdf", "another file has this name; move it away to have the week sheet"),)
        assert (tmp_path / "other" / "week-sheet.pdf").read_bytes() == content


def test_what_the_cheap_marks_settle_is_not_read(
    pull: Pull, photos: list[Photo], monkeypatch: pytest.MonkeyPatch, names: list[str]
) -> None:
    """An unchanged folder is known by sizes and file times, and a file of another size is not compared."""
    folder = pull(photos[:4]).folder
    (folder / names[4]).write_bytes(b"of another size")

    def refuse(_: Path) -> str:
        raise AssertionError

    monkeypatch.setattr("queries.made_files.folder.file_sha256", refuse)
    assert list(pull(photos).kept) == names[:4]


def test_a_link_is_not_written_through(pull: Pull, photos: list[Photo], tmp_path: Path, names: list[str]) -> None:
    """A link under a wanted name is left, and what it leads to as well."""
    precious, folder = tmp_path / "precious.txt", tmp_path / "out"
    precious.write_text("mine")
    folder.mkdir()
    name = names[0]
    try:
        (folder / name).symlink_to(precious)
    except OSError:
        pytest.skip("this system makes no symbolic links here")
    assert (name, "a folder or link has this name") in pull(photos).left
    assert precious.read_text() == "mine"


@pytest.mark.parametrize("change", [b'"open"', b"{"])
def test_an_edited_week_json_is_left(
    pull: Pull, photos: list[Photo], change: bytes, names: list[str], snapshot: Snapshot
) -> None:
    """The person's words in it stay; files are judged by content, and the rest of the pull goes on."""
    folder = pull(photos[:4]).folder
    path = folder / "week.json"
    path.write_bytes(path.read_bytes().replace(change, b'"mine"' if change != b"{" else b"", 1))
    before = snapshot(folder)
    result = pull(photos[:4])
    assert [name for name, _ in result.left] == ["week.json"]
    assert "files are judged by their content alone" in result.left[0][1]
    assert list(result.kept) == names[:4]
    assert result.sheets == (folder / "week-sheet.pdf",)
    assert snapshot(folder) == before
    pull(photos)
    assert path.read_bytes() == before["week.json"][0]


def test_another_weeks_folder_stays_as_it_is(pull: Pull, photos: list[Photo], snapshot: Snapshot) -> None:
    """Whether its week.json is sealed or edited, a folder of another week is refused."""
    folder = pull(photos).folder
    other = WeekRule().week_named(2026, 15)
    path = folder / "week.json"
    for _ in ("sealed", "edited"):
        before = snapshot(folder)
        with pytest.raises(PullError, match="choose another folder for 6 - 12 Apr 2026"):
            pull(photos, of_week=other)
        assert snapshot(folder) == before
        path.write_text(path.read_text().replace('"open"', '"mine"'))


def test_a_photo_that_left_the_week_keeps_its_file(
    pull: Pull, photos: list[Photo], names: list[str], read_json: ReadJson
) -> None:
    """Its copy is said and kept on record, and it is the same file when the photo comes back."""
    folder = pull(photos).folder
    name = names[4]
    assert pull(photos[:4]).left == ((name, "its photo is not in this week now (moved to another, edited, or gone)"),)
    rows = {row["file"]: row["in_week"] for row in read_json(folder)["photos"]}
    assert [file for file, in_week in rows.items() if not in_week] == [name]
    assert name in pull(photos).kept


def test_state_and_waits_are_brought_up_to_date(
    pull: Pull, photos: list[Photo], snapshot: Snapshot, read_json: ReadJson
) -> None:
    """week.json follows what was told of the week, and only it changes."""
    folder = pull(photos).folder
    before = snapshot(folder)
    pull(photos, told=SimpleNamespace(state="waiting", waiting_for=["supplies: slate-blue cards"]))
    after = snapshot(folder)
    assert [name for name in before if before[name] != after[name]] == ["week.json"]
    body = read_json(folder)
    assert (body["state"], body["waiting_for"]) == ("waiting", ["supplies: slate-blue cards"])


def test_a_corrected_date_redraws_the_sheet(pull: Pull, photos: list[Photo], snapshot: Snapshot) -> None:
    """The sheet and week.json follow the index; no copy is written or renamed."""
    folder = pull(photos).folder
    before = snapshot(folder)
    result = pull([*photos[:4], replace(photos[4], taken="2026-04-03T10:00:00", precision="second")])
    after = snapshot(folder)
    assert sorted(name for name in before if before[name] != after[name]) == ["week-sheet.pdf", "week.json"]
    assert (result.added, result.left) == ((), ())


def test_jpegs_are_known_again_without_week_json(pull: Pull, photos: list[Photo], snapshot: Snapshot) -> None:
    """The same original gives the same JPEG, so a lost week.json is written anew without a single copy."""
    folder = pull(photos, as_jpeg=True).folder
    before = snapshot(folder)
    (folder / "week.json").unlink()
    result = pull(photos, as_jpeg=True)
    assert (result.added, result.left) == ((), ())
    after = snapshot(folder)
    assert {name: after[name][0] for name in after} == {name: before[name][0] for name in before}
