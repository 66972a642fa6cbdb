"""weeksheaf tour"""

import re
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest

from queries.cli.commands import tour
from tests.queries.cli.conftest import Household, Person, digest_of, put


@pytest.fixture(autouse=True)
def scratch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where temporary folders are made in these tests."""
    folder = tmp_path / "scratch"
    folder.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(folder))
    return folder


def test_the_tour_shows_the_main_job(newcomer: Person) -> None:
    """From the index to the done week by way of plan and prints: each step has its why and command."""
    text = newcomer.says("tour", newcomer.folder)
    commands = re.findall(r"^\$ weeksheaf (\w+)", text, re.MULTILINE)
    first = ["index", "devices", "weeks", "week", "alike", "week", "pull", "fit", "prints"]
    assert commands == [*first, "order", "mark", "order", "mark", "weeks"]
    assert f"26 photo files found in {newcomer.folder}: 26 new" in text
    assert "30 Mar - 5 Apr 2026, week 14 (2026-W14): waiting for prints, supplies (slate-blue cards)" in text
    assert "12 photos added" in text


def test_the_tour_has_an_index_of_its_own(person: Person, newcomer: Person, scratch: Path) -> None:
    """The person's own index is neither made nor touched, the photos stay as they are, the temporary index goes."""
    before = (person.index.read_bytes(), digest_of(person.folder))
    person.says("tour", person.folder)
    assert (person.index.read_bytes(), digest_of(person.folder)) == before
    newcomer.says("tour", newcomer.folder)
    assert not newcomer.index.exists()
    assert {path.name[:8] for path in scratch.iterdir()} == {"2026-W14"}


def test_the_working_folder_stays(newcomer: Person, scratch: Path) -> None:
    """What was pulled is there to look at, and the last line says where."""
    text = newcomer.says("tour", newcomer.folder)
    (folder,) = scratch.iterdir()
    assert text.splitlines()[-1].endswith(str(folder))
    assert len(list(folder.glob("2026-*.jpg"))) == 12
    assert (folder / "prints" / "cutting-guide.pdf").is_file()


def test_without_a_folder_the_sample_library_is_shown(
    newcomer: Person, household: Household, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`weeksheaf tour` alone runs on the library that comes with the tool."""
    monkeypatch.setattr(tour, "sample_library", lambda: household.folder)
    assert "26 photo files found" in newcomer.says("tour")


def test_a_folder_without_photos_ends_the_tour(newcomer: Person, tmp_path: Path) -> None:
    """A folder with nothing to show says so."""
    put(tmp_path / "letters" / "a.txt", b"dear aunt")
    assert "the tour ends here" in newcomer.says("tour", tmp_path / "letters")


def test_a_folder_that_does_not_exist(newcomer: Person, tmp_path: Path, scratch: Path) -> None:
    """A wrong folder is a known error, and nothing is left behind."""
    assert str(tmp_path / "nowhere") in newcomer.error("tour", tmp_path / "nowhere", stdout=True)
    assert list(scratch.iterdir()) == []


def test_ctrl_c_ends_the_tour(newcomer: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """A tour stopped in its first step does not go on to the next."""

    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("indexer.scan._gather", interrupted)
    result = newcomer.run("tour", newcomer.folder)
    assert result.exit_code == 130
    assert "2." not in result.stdout


def test_a_folder_name_cannot_command_the_terminal(
    newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]
) -> None:
    """The command shown for a folder with an escape in its name shows the escape as text."""
    folder = tmp_path / "red\x1b[31m"
    put(folder / "a.jpg", picture("a", "2026:04:06 12:00:00"))
    assert "\x1b" not in newcomer.says("tour", folder)
