"""weeksheaf restore"""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.queries.cli.conftest import PHONE, Person, put
from tests.queries.cli.test_backup import unasked


@pytest.fixture
def told(person: Person) -> Person:
    """A person who has told something of every kind."""
    person.says("mark", "2026-W11", "done", "--note", "first spread")
    person.says("mark", "2026-W12", "skipped")
    person.says("mark", "2026-W13", "waiting", "--for", "photos:Aunt", "--note", 'she said "soon"\nor later 🐚')
    person.says("mark", "2026-W14", "started")
    person.says("mark", "2026-W14", "waiting", "--for", "slate-blue cards", "--for", "words")
    person.says("settings", "week.min_days", "1")
    person.says("settings", "day.starts_at", "03:00")
    return person


def everything(person: Person) -> dict[str, Any]:
    """All that an index shows of words: states, waits, history, late photos, settings."""
    days = [row["first_day"] for row in person.json("weeks")["weeks"]]
    return {
        "settings": person.json("settings"),
        "weeks": person.json("weeks"),
        "pages": [person.json("week", day) for day in days],
    }


def edited(file: Path, change: Callable[[dict[str, Any]], None]) -> Path:
    """The backup with a change by another hand."""
    document = json.loads(file.read_text("utf-8"))
    change(document)
    file.write_text(json.dumps(document), "utf-8")
    return file


def test_a_new_index_gets_every_word_back(told: Person, tmp_path: Path) -> None:
    """Deleting the index, indexing again and restoring gives back every state, wait, note, list and setting."""
    before = everything(told)
    told.says("backup", tmp_path / "words.json")
    for file in told.index.parent.glob("index.db*"):
        if file.is_file():
            file.unlink()
    told.says("index", told.folder)
    assert told.row("2026-W14")["state"] == "open"
    assert told.json("restore", tmp_path / "words.json") == {
        "file": str(tmp_path / "words.json"), "added": 7, "had": 0
    }  # fmt: skip
    assert everything(told) == before


def test_the_backup_made_unasked_is_enough(told: Person) -> None:
    """The newest backup beside the index brings everything back, also before anything is indexed."""
    before = everything(told)
    newest = unasked(told)[-1]
    told.index.unlink()
    told.says("restore", newest)
    told.says("index", told.folder)
    assert everything(told) == before


def test_restoring_twice_changes_nothing(told: Person, tmp_path: Path) -> None:
    """What the index has already stays as it is."""
    told.says("backup", tmp_path / "words.json")
    before = everything(told)
    assert told.json("restore", tmp_path / "words.json")["added"] == 0
    assert told.says("restore", tmp_path / "words.json") == (
        f"0 entries restored from {tmp_path / 'words.json'}, 7 were here already\n"
    )
    assert everything(told) == before


def test_two_indexes_become_one(told: Person, owner: Person, tmp_path: Path) -> None:
    """Restoring into an index that went on living adds to it; the word told last holds."""
    told.says("backup", tmp_path / "words.json")
    owner.says("mark", "2026-W14", "done")
    owner.says("mark", "2026-W15", "started")
    owner.says("restore", tmp_path / "words.json")
    assert owner.row("2026-W14")["state"] == "done"
    assert owner.row("2026-W15")["state"] == "started"
    assert [word["state"] for word in owner.json("week", "2026-04-01")["log"]] == ["started", "waiting", "done"]


def test_restored_words_are_backed_up_unasked(told: Person, newcomer: Person, tmp_path: Path) -> None:
    """What came in by a restore is in the backups beside the index too."""
    told.says("backup", tmp_path / "words.json")
    newcomer.says("restore", tmp_path / "words.json")
    assert len(json.loads(unasked(newcomer)[-1].read_text("utf-8"))["words"]["week_log"]) == 5


def test_a_done_week_knows_what_is_late_after_a_restore(owner: Person, tmp_path: Path, picture: Any) -> None:
    """The list of a done week comes back with its word, so a later photo is late as before."""
    owner.says("mark", "2026-W12", "done")
    owner.says("backup", tmp_path / "words.json")
    owner.index.unlink()
    put(owner.folder / "late.jpg", picture("late", "2026:03:20 09:00:00", PHONE))
    owner.says("index", owner.folder)
    owner.says("restore", tmp_path / "words.json")
    page = owner.json("week", "2026-W12")
    assert (page["late"], page["gone"]) == ([owner.code("late.jpg")], [])


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "not a weeksheaf backup"),
        (b"blue cards", "not a weeksheaf backup"),
        (b"\xff\xfe\x00", "not a weeksheaf backup"),
        (b"[]", "not a weeksheaf backup"),
        (b'{"words": {}}', "not a weeksheaf backup"),
        (b"[" * 100_000, "not a weeksheaf backup"),
        (b'{"made_by": "weeksheaf", "format": 99, "words": {}}', "newer version"),
        (b'{"made_by": "weeksheaf", "format": 1, "words": []}', "damaged"),
        (b'{"made_by": "weeksheaf", "format": 1, "words": {"week_log": [{}]}}', "damaged"),
        (b'{"made_by": "weeksheaf", "format": 1, "words": {"week_log": 5}}', "damaged"),
        (b'{"made_by": "weeksheaf", "format": 1, "words": {"week_log": ["word"]}}', "damaged"),
    ],
)
def test_a_file_that_is_no_backup(told: Person, tmp_path: Path, content: bytes, says: str) -> None:
    """Another file is named, nothing is restored, and it is left as it is."""
    put(tmp_path / "words.json", content)
    before = everything(told)
    message = told.error("restore", tmp_path / "words.json")
    assert str(tmp_path / "words.json") in message
    assert says in message
    assert everything(told) == before
    assert (tmp_path / "words.json").read_bytes() == content


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("state", "finished"),
        ("state", None),
        ("first_day", "2026-02-30"),
        ("first_day", "2026-W14"),
        ("first_day", 20260330),
        ("told_at", "yesterday"),
        ("told_at", "2026-04-01"),
        ("uuid", "1"),
        ("uuid", None),
        ("waiting_for", "prints"),
        ("waiting_for", [1]),
        ("note", None),
        ("note", {"a": 1}),
        ("holding", [1]),
        ("holding", None),
    ],
)
def test_one_damaged_word_restores_nothing(told: Person, tmp_path: Path, name: str, value: object) -> None:
    """A backup with a word that has no right form is refused whole."""
    told.says("backup", tmp_path / "words.json")
    edited(tmp_path / "words.json", lambda document: document["words"]["week_log"][-1].update({name: value}))
    told.index.unlink()
    told.says("settings", "home.timezone", "UTC")
    assert "nothing was restored" in told.error("restore", tmp_path / "words.json")
    assert told.json("weeks")["weeks"] == []


def test_a_setting_that_holds_no_value_of_its_kind_stops_nothing(
    told: Person, newcomer: Person, tmp_path: Path
) -> None:
    """One made up by another hand, or known to a newer version only, is kept and said; all else comes back."""
    told.says("backup", tmp_path / "words.json")
    for change, name in (({"value": "0"}, "week.min_days"), ({"name": "week.colour"}, "week.colour")):
        file = edited(
            tmp_path / "words.json", lambda document, change=change: document["words"]["setting_log"][0].update(change)
        )
        result = newcomer.run("restore", file)
        assert result.exit_code == 0
        assert result.stderr.startswith(f"Warning: a setting in {file} is kept and does not hold here: ")
        assert name in result.stderr or "week.min_days" in result.stderr
        assert newcomer.json("weeks")["weeks"] != []


def test_a_file_that_does_not_exist(newcomer: Person, tmp_path: Path) -> None:
    """A backup that is not there is named, and no index is made for it."""
    message = newcomer.error("restore", tmp_path / "words.json")
    assert str(tmp_path / "words.json") in message
    assert not newcomer.index.exists()
    assert str(tmp_path) in newcomer.misuse("restore", tmp_path)
