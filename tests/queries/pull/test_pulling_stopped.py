"""A pull that is stopped, or cannot begin."""

import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from indexer.errors import FolderError
from queries.made_files import folder as made_folder
from queries.made_files import writing
from queries.photos import Photo
from queries.pull import PullResult

Pull = Callable[..., PullResult]
Snapshot = Callable[[Path], dict[str, tuple[bytes, int]]]
ReadJson = Callable[[Path], dict[str, Any]]


@pytest.mark.parametrize("as_jpeg", [False, True])
@pytest.mark.parametrize("stop_at", [1, 2, 3, 4, 6, 8])
def test_an_interrupt_leaves_no_half_file(
    pull: Pull,
    photos: list[Photo],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    stop_at: int,
    as_jpeg: bool,
    names: list[str],
    snapshot: Snapshot,
    read_json: ReadJson,
) -> None:
    """Wherever Ctrl-C falls, what is finished stays and is recorded, and the next run makes the folder whole."""
    folder, reads = tmp_path / "out", 0
    read_block = writing.read_block

    def stopping(file: Any) -> bytes:
        nonlocal reads
        reads += 1
        if reads == stop_at:
            raise KeyboardInterrupt
        return read_block(file)

    monkeypatch.setattr(writing, "read_block", stopping)
    with pytest.raises(KeyboardInterrupt):
        pull(photos, as_jpeg=as_jpeg)
    monkeypatch.undo()
    there = sorted(path.name for path in folder.iterdir())
    assert there == [*[row["file"] for row in read_json(folder)["photos"]], "week.json"] or there == []
    finished = {name: content for name, content in snapshot(folder).items() if name.endswith(".jpg")}
    result = pull(photos, as_jpeg=as_jpeg)
    assert sorted(result.kept) == sorted(finished)
    assert sorted([*result.kept, *result.added]) == names
    assert {name: snapshot(folder)[name] for name in finished} == finished


def test_an_interrupt_while_the_sheet_is_drawn(
    pull: Pull,
    photos: list[Photo],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    names: list[str],
    read_json: ReadJson,
) -> None:
    """The copies are there and recorded, though there is no sheet yet."""

    def stop(*_: object) -> bytes:
        raise KeyboardInterrupt

    monkeypatch.setattr("queries.pull.sheet_file.draw_sheet", stop)
    with pytest.raises(KeyboardInterrupt):
        pull(photos)
    body = read_json(tmp_path / "out")
    assert ([row["file"] for row in body["photos"]], body["sheet"]) == (names, [])


def test_leftovers_of_a_killed_run_go(pull: Pull, photos: list[Photo], tmp_path: Path) -> None:
    """Temporary files that a killed run left behind are removed."""
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / f".weeksheaf-{photos[0].code}.part").write_bytes(b"half")
    pull(photos)
    assert not list((tmp_path / "out").glob(".weeksheaf-*"))


def test_a_disk_that_fills_up(
    pull: Pull,
    photos: list[Photo],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    names: list[str],
    read_json: ReadJson,
) -> None:
    """The error names the folder, what is still needed and what is free; the finished copies are recorded."""
    fsync, calls = os.fsync, 0

    def filling(descriptor: int) -> None:
        nonlocal calls
        calls += 1
        if calls == 3:
            raise OSError(errno.ENOSPC, "No space left on device")
        fsync(descriptor)

    monkeypatch.setattr("os.fsync", filling)
    monkeypatch.setattr(made_folder, "free_bytes", lambda _: 50_000_000)
    with pytest.raises(FolderError, match=r"out needs [\d.]+ kB and its disk has 50 MB free; make room, or choose"):
        pull(photos)
    assert [row["file"] for row in read_json(tmp_path / "out")["photos"]] == names[:2]
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [*names[:2], "week.json"]


def test_a_disk_without_room_is_refused_before(
    pull: Pull, photos: list[Photo], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sizes are still told, and nothing is made."""
    said: list[str] = []
    monkeypatch.setattr(made_folder, "free_bytes", lambda _: 100)
    with pytest.raises(FolderError, match=r"out needs .* and its disk has 100 bytes free"):
        pull(photos, say=said.append)
    assert len(said) == 1
    assert not (tmp_path / "out").exists()


def test_a_folder_that_cannot_be_made(pull: Pull, photos: list[Photo], tmp_path: Path) -> None:
    """What the system says is told in one line that names the folder."""
    (tmp_path / "file").touch()
    with pytest.raises(FolderError, match=r"inside cannot be used \(.+\); allow it, or choose another folder"):
        pull(photos, tmp_path / "file" / "inside")
