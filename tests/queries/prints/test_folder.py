"""The folder of an order: all of its files, or none."""

import math
import os
from collections.abc import Sequence
from pathlib import Path

import pytest

from indexer.errors import PrintError
from queries.prints.folder import check_names, held_in, put_in_place, staged
from queries.prints.order_file import HeldOrder, MadeFile, order_text

FILES = {"o12-01.jpg": b"one", "o12-02.jpg": b"two"}


def text_of(made: Sequence[MadeFile]) -> str:
    return order_text("id-12", 12, {"prints": []}, made)


def make(folder: Path, files: dict[str, bytes] = FILES) -> HeldOrder:
    """An order's folder as a run makes it."""
    with staged(folder) as staging:
        held = held_in(folder)
        check_names(folder, list(files), held)
        for name, data in files.items():
            staging.add(name, data)
        put_in_place(staging, held, text_of)
    made = held_in(folder)
    assert made
    return made


def content(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.name != "order.json"}


def test_all_files_stand_and_are_recorded(tmp_path: Path) -> None:
    """Files, order.json and nothing else; the order's number and identity come back."""
    held = make(tmp_path / "out")
    assert content(tmp_path / "out") == FILES
    assert (held.id, held.number, [file.file for file in held.files]) == ("id-12", 12, sorted(FILES))


def test_made_again_files_are_replaced_and_strays_removed(tmp_path: Path) -> None:
    """A print that the order no longer has would be sent along: it goes."""
    make(tmp_path)
    make(tmp_path, {"o12-01.jpg": b"other"})
    assert content(tmp_path) == {"o12-01.jpg": b"other"}


@pytest.mark.parametrize("name", ["o12-01.jpg", "o12-02.jpg"])
def test_what_the_person_changed_is_never_replaced(tmp_path: Path, name: str) -> None:
    """A changed file stops the run before anything is written, a print that is no longer wanted too."""
    make(tmp_path)
    (tmp_path / name).write_bytes(b"mine")
    with pytest.raises(PrintError, match=rf"{name} was changed since it was written; move it away"):
        make(tmp_path, {"o12-01.jpg": b"other"})
    assert content(tmp_path) == FILES | {name: b"mine"}


def test_a_touched_file_is_still_ours(tmp_path: Path) -> None:
    """Another file time with the same content, as a copied folder has, is no change."""
    make(tmp_path)
    os.utime(tmp_path / "o12-01.jpg", (1, 1))
    make(tmp_path, {"o12-01.jpg": b"other"})
    assert content(tmp_path) == {"o12-01.jpg": b"other"}


def test_files_of_other_makers_are_left(tmp_path: Path) -> None:
    """A file in the way is named; any other stays where it is."""
    (tmp_path / "notes.txt").write_bytes(b"mine")
    make(tmp_path)
    (tmp_path / "o12-03.jpg").write_bytes(b"mine")
    with pytest.raises(PrintError, match=r"o12-03\.jpg is there already and was not made for this order"):
        make(tmp_path, {"o12-03.jpg": b"x"})
    assert (tmp_path / "notes.txt").read_bytes() == b"mine"


@pytest.mark.parametrize("trouble", [KeyboardInterrupt(), OSError(28, "No space left on device"), PrintError("x")])
def test_nothing_half_written_stays(tmp_path: Path, trouble: BaseException) -> None:
    """Whatever ends the run before the last file, the folder is as it was, or gone where it was new."""
    make(tmp_path / "old")

    def broken_off(folder: Path) -> None:
        with staged(folder) as staging:
            staging.add("o12-01.jpg", b"other")
            raise trouble

    for folder in (tmp_path / "old", tmp_path / "new"):
        with pytest.raises(type(trouble)):
            broken_off(folder)
    assert content(tmp_path / "old") == FILES
    assert not (tmp_path / "new").exists()


def test_two_runs_do_not_share_a_folder(tmp_path: Path) -> None:
    """The second is told so, and the first goes on."""
    with staged(tmp_path) as staging:
        with pytest.raises(PrintError, match="another run is writing into"), staged(tmp_path):
            pass
        assert staging.place.is_dir()
        staging.add("o12-01.jpg", b"one")
    assert list(tmp_path.iterdir()) == []


def test_what_a_killed_run_left_is_cleared_at_once(tmp_path: Path) -> None:
    """Its lock went with it."""
    (tmp_path / ".weeksheaf-prints.part").mkdir()
    for name in ("running", "o12-01.jpg", ".weeksheaf-file.part"):
        (tmp_path / ".weeksheaf-prints.part" / name).write_bytes(b"")
    make(tmp_path)
    assert content(tmp_path) == FILES


@pytest.mark.parametrize(
    ("said", "reason"),
    [
        ("{}", "was not made by weeksheaf"),
        ("no", "no JSON that can be read"),
        (text_of([MadeFile("../../x.jpg", "0", 1, 1)]), "does not hold what it should"),
        (text_of([MadeFile("order.json", "0", 1, 1)]), "does not hold what it should"),
        (text_of([MadeFile("o12-01.jpg", "0", math.inf, 1)]), "does not hold what it should"),  # type: ignore[arg-type]
        (text_of([]).replace('"order": 12', '"order": 13'), "edited by hand"),
        (text_of([]).replace('"format": 1', '"format": 2'), "another version of weeksheaf"),
    ],
)
def test_an_order_json_that_is_not_ours_is_refused(tmp_path: Path, said: str, reason: str) -> None:
    """Nothing is written beside it, and no name in it leads out of the folder."""
    (tmp_path / "order.json").write_text(said)
    with pytest.raises(PrintError, match=rf"order\.json cannot be relied on: .*{reason}.*; move it away"):
        held_in(tmp_path)
