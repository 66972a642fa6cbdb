"""weeksheaf pull, as far as the command line goes"""

import json
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from tests.queries.cli.conftest import Person, posix_only, put


def pulled(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.glob("2026-*"))


def test_a_week_is_pulled_as_exact_copies(person: Person, tmp_path: Path) -> None:
    """Every photo of the week is copied byte for byte under a name of its time and code."""
    document = person.json("pull", "2026-W15", tmp_path / "w15")
    assert (document["week"]["name"], document["folder"]) == ("2026-W15", str(tmp_path / "w15"))
    assert document["added"] == pulled(tmp_path / "w15")
    assert (document["kept"], document["left"], document["failed"]) == ([], [], [])
    code = person.code("phone/0406.jpg")
    copy = tmp_path / "w15" / f"2026-04-06_0710_{code}.jpg"
    assert copy.read_bytes() == (person.folder / "phone" / "0406.jpg").read_bytes()


def test_week_json_says_where_each_file_comes_from(person: Person, tmp_path: Path) -> None:
    """Beside the copies lie a week.json with source, hash, time and state, and a week sheet."""
    person.says("mark", "2026-W15", "started")
    document = person.json("pull", "2026-W15", tmp_path / "w15")
    week = json.loads((tmp_path / "w15" / "week.json").read_text("utf-8"))
    assert (week["week"]["name"], week["state"]) == ("2026-W15", "started")
    row = next(row for row in week["photos"] if row["code"] == person.code("phone/0406.jpg"))
    assert row["source"] == str(person.folder / "phone" / "0406.jpg")
    assert row["sha256"] == sha256((tmp_path / "w15" / row["file"]).read_bytes()).hexdigest()
    assert (row["taken"], row["shape"]) == ("2026-04-06T07:10:00", "landscape")
    assert [Path(sheet).exists() for sheet in document["sheets"]] == [True]


def test_the_plan_is_said_before_the_copying(person: Person, tmp_path: Path) -> None:
    """What will be copied goes to stderr with its size; what was done goes to stdout."""
    result = person.run("pull", "2026-W15", tmp_path / "w15")
    assert result.exit_code == 0
    assert result.stderr.startswith("6 - 12 Apr 2026, week 15: 3 photos, 3 to copy (")
    assert result.stdout.startswith("3 photos added")
    assert str(tmp_path / "w15") in result.stdout


def test_a_second_pull_has_nothing_to_do(person: Person, tmp_path: Path) -> None:
    """Run again, the same names are there and nothing is written."""
    first = person.json("pull", "2026-W14", tmp_path / "w14")
    second = person.json("pull", "2026-W14", tmp_path / "w14")
    assert (second["added"], second["kept"]) == ([], first["added"])


def test_a_second_pull_adds_what_is_missing_and_leaves_what_was_changed(person: Person, tmp_path: Path) -> None:
    """A deleted copy comes back, an edited one is left as it is, and that is said."""
    deleted, edited, kept = person.json("pull", "2026-W15", tmp_path / "w15")["added"]
    (tmp_path / "w15" / deleted).unlink()
    (tmp_path / "w15" / edited).write_bytes(b"edited by hand")
    again = person.json("pull", "2026-W15", tmp_path / "w15")
    assert (again["added"], again["kept"]) == ([deleted], [kept])
    assert [left["file"] for left in again["left"]] == [edited]
    assert (tmp_path / "w15" / edited).read_bytes() == b"edited by hand"


def test_jpeg_turns_pictures_upright(person: Person, tmp_path: Path) -> None:
    """--jpeg writes pictures as they are displayed."""
    from PIL import Image

    person.says("pull", "2026-W14", tmp_path / "w14", "--jpeg")
    (turned,) = (tmp_path / "w14").glob(f"*{person.code('phone/turned 6.jpg')}.jpg")
    with Image.open(turned) as picture:
        assert (picture.size, picture.getexif().get(0x0112, 1)) == ((72, 96), 1)


@pytest.mark.parametrize("place", ["", "new", "phone", "deep/er"])
def test_a_target_inside_the_library_is_refused(person: Person, place: str) -> None:
    """A working folder in a library folder is refused by name, and not made."""
    target = person.folder / place
    there = target.exists()
    message = person.error("pull", "2026-W15", target)
    assert str(target) in message
    assert "library folder" in message
    assert target.exists() == there


@posix_only
def test_a_link_into_the_library_is_refused(person: Person, tmp_path: Path) -> None:
    """A way round through a link is seen."""
    (tmp_path / "shortcut").symlink_to(person.folder / "phone")
    assert "library folder" in person.error("pull", "2026-W15", tmp_path / "shortcut" / "w15")


def test_a_target_that_is_a_file_is_refused(person: Person, tmp_path: Path) -> None:
    """A file in the place of the working folder is left as it is."""
    put(tmp_path / "w15", b"a list")
    message = person.error("pull", "2026-W15", tmp_path / "w15")
    assert str(tmp_path / "w15") in message
    assert "not a folder" in message
    assert (tmp_path / "w15").read_bytes() == b"a list"


def test_another_weeks_folder_is_refused(person: Person, tmp_path: Path) -> None:
    """A folder that holds one week does not take another; both are named by their days."""
    person.says("pull", "2026-W15", tmp_path / "pulled")
    before = pulled(tmp_path / "pulled")
    message = person.error("pull", "2026-W12", tmp_path / "pulled")
    assert "6 - 12 Apr 2026" in message
    assert "16 - 22 Mar 2026" in message
    assert pulled(tmp_path / "pulled") == before


def test_a_week_without_photos_cannot_be_pulled(person: Person, tmp_path: Path) -> None:
    """An empty week is named with the way out, and no folder is made."""
    message = person.error("pull", "2026-W13", tmp_path / "w13")
    assert "23 - 29 Mar 2026" in message
    assert "weeksheaf weeks" in message
    assert not (tmp_path / "w13").exists()


def test_an_original_that_is_gone_is_said(owner: Person, tmp_path: Path) -> None:
    """A photo deleted since the last index run is named, also by the exit code; the others are pulled."""
    (owner.folder / "phone" / "0406.jpg").unlink()
    document = owner.json("pull", "2026-W15", tmp_path / "w15", exit_code=1)
    assert [row["path"] for row in document["not_found"]] == [str(owner.folder / "phone" / "0406.jpg")]
    assert len(document["added"]) == 2


def test_a_full_disk_is_seen_before_anything_is_copied(
    person: Person, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the photos do not fit, the needed and the free space are said, and nothing is copied."""
    monkeypatch.setattr("queries.made_files.folder.free_bytes", lambda _: 1000)
    result = person.run("pull", "2026-W15", tmp_path / "w15")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.splitlines()[-1].startswith(f"Error: {tmp_path / 'w15'} needs ")
    assert not (tmp_path / "w15").exists()


BURST = ("phone/turned 1.jpg", "phone/turned 2.jpg", "phone/turned 3.jpg")


def codes(document: dict[str, Any]) -> set[str]:
    return {name.rpartition("_")[2].partition(".")[0] for name in document["added"]}


def test_keepers_are_pulled_and_all_with_all(person: Person, tmp_path: Path) -> None:
    """Without an option the keepers come, and it is said that others are left out; --all takes every photo."""
    person.make_alike("burst", *BURST)
    left_out = {person.code(name) for name in BURST[1:]}
    document = person.json("pull", "2026-W14", tmp_path / "w14")
    assert set(document["left_out"]) == left_out
    assert (len(document["added"]), codes(document) & left_out) == (10, set())
    assert "2 photos left out, small on the week sheet; --all takes every photo" in person.says(
        "pull", "2026-W14", tmp_path / "again"
    )
    everything = person.json("pull", "2026-W14", tmp_path / "w14", "--all")
    assert (codes(everything), everything["left_out"]) == (left_out, [])
    back = person.json("pull", "2026-W14", tmp_path / "w14")
    assert {row["reason"] for row in back["left"]} == {"pulled earlier; its photo is left out now"}
    assert len(pulled(tmp_path / "w14")) == 12


def test_a_copy_of_a_photo_of_another_week_is_left_out(person: Person, tmp_path: Path) -> None:
    """Its keeper is pulled with its own week; a week of nothing else cannot be pulled, and the way out is said."""
    person.make_alike("copy", "phone/0318.jpg", "phone/0406.jpg")
    assert len(person.json("pull", "2026-W15", tmp_path / "w15")["added"]) == 2
    person.make_alike("copy", "phone/0316.jpg", "phone/0412.jpg", "messages/nothing known.jpg")
    message = person.error("pull", "2026-W15", tmp_path / "none")
    assert "weeksheaf pull --all" in message
    assert len(person.json("pull", "2026-W15", tmp_path / "none", "--all")["added"]) == 3
