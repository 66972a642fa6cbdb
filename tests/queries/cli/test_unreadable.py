"""weeksheaf unreadable"""

from collections.abc import Callable
from pathlib import Path

from tests.queries.cli.conftest import PHONE, Person, put


def test_files_with_the_step_and_the_reason(person: Person) -> None:
    """Every file that promises a picture and shows none is a row."""
    assert person.json("unreadable")["files"] == [
        {"path": str(person.folder / "odd" / "empty.jpg"), "step": "header", "reason": "the file is empty"},
        {
            "path": str(person.folder / "odd" / "letter.jpg"),
            "step": "header",
            "reason": "it holds plain text",
        },
    ]


def test_the_list_as_a_person_reads_it(person: Person) -> None:
    """Each file stands above its step and reason."""
    assert person.says("unreadable").splitlines()[:2] == [
        str(person.folder / "odd" / "empty.jpg"),
        "    no photo in it: the file is empty",
    ]


def test_a_cut_off_photo_is_in_its_week_and_in_the_list(owner: Person, picture: Callable[..., bytes]) -> None:
    """Half a JPEG keeps its date and its week, with the damage said in both places."""
    whole = picture("half", "2026:04:07 12:00:00", PHONE, size=(400, 300))
    put(owner.folder / "half.jpg", whole[: len(whole) * 3 // 4])
    assert owner.json("index")["unreadable"] == 3
    (half,) = [photo for photo in owner.json("week", "2026-W15")["photos"] if photo["path"].endswith("half.jpg")]
    assert half["damage"]
    assert "         damaged: " in owner.says("week", "2026-W15")
    assert str(owner.folder / "half.jpg") in [row["path"] for row in owner.json("unreadable")["files"]]


def test_a_repaired_file_leaves_the_list(owner: Person, picture: Callable[..., bytes]) -> None:
    """A file that could not be read is read again once it changes."""
    put(owner.folder / "odd" / "empty.jpg", picture("repaired", "2026:04:07 12:00:00", PHONE))
    owner.says("index")
    assert [Path(row["path"]).name for row in owner.json("unreadable")["files"]] == ["letter.jpg"]


def test_a_library_without_trouble(newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]) -> None:
    """Where everything could be read the list says so."""
    put(tmp_path / "sound" / "a.jpg", picture("a", "2026:04:06 12:00:00", PHONE))
    newcomer.says("index", tmp_path / "sound")
    assert newcomer.json("unreadable") == {"files": []}
    assert newcomer.says("unreadable") == "Every file could be read.\n"
