"""weeksheaf backup, and the backups made unasked"""

import json
from pathlib import Path

import pytest

from tests.queries.cli.conftest import Person, digest_of, posix_only, put


def unasked(person: Person) -> list[Path]:
    """The backups beside the index, newest last."""
    return sorted(person.index.with_name(person.index.name + "-backups").iterdir())


def words(file: Path) -> list[tuple[str, str]]:
    """State and note of each word of the week log in a backup."""
    rows = json.loads(file.read_text("utf-8"))["words"]["week_log"]
    return [(row["state"], row["note"]) for row in rows]


def test_a_backup_holds_all_that_was_told(person: Person, tmp_path: Path) -> None:
    """States, waits, notes, settings and the lists of done weeks are in the file, readable."""
    person.says("mark", "2026-W12", "done", "--note", "three pockets left 🐚")
    person.says("mark", "2026-W14", "waiting", "--for", "slate-blue cards", "--for", "photos:Aunt")
    person.says("settings", "week.first_day", "sunday")
    assert person.json("backup", tmp_path / "words.json") == {"file": str(tmp_path / "words.json"), "words": 3}
    document = json.loads((tmp_path / "words.json").read_text("utf-8"))
    assert (document["made_by"], document["format"]) == ("weeksheaf", 2)
    done, waiting = document["words"]["week_log"]
    assert (done["first_day"], done["state"], done["note"], len(done["holding"])) == (
        "2026-03-16", "done", "three pockets left 🐚", 3
    )  # fmt: skip
    assert waiting["waiting_for"] == ["supplies:slate-blue cards", "photos:Aunt"]
    (setting,) = document["words"]["setting_log"]
    assert (setting["name"], setting["value"]) == ("week.first_day", "sunday")


def test_the_answer_in_words(person: Person, tmp_path: Path) -> None:
    """The person reads how much was saved, and where."""
    person.says("mark", "2026-W12", "started")
    assert person.says("backup", tmp_path / "words.json") == f"1 entry saved to {tmp_path / 'words.json'}\n"


def test_a_backup_inside_the_library_is_refused(person: Person) -> None:
    """Nothing is written into a library folder, not even what the person asks for."""
    before = digest_of(person.folder)
    message = person.error("backup", person.folder / "phone" / "words.json")
    assert message == (
        f"{person.folder / 'phone' / 'words.json'} lies in the library folder {person.folder}, where nothing is ever"
        " written; choose another place"
    )
    assert digest_of(person.folder) == before


@posix_only
def test_a_backup_through_a_link_into_the_library_is_refused(person: Person, tmp_path: Path) -> None:
    """A way round through a link is seen."""
    (tmp_path / "shortcut").symlink_to(person.folder)
    assert "library folder" in person.error("backup", tmp_path / "shortcut" / "words.json")


def test_a_photo_of_another_kind_of_file_is_never_replaced(person: Person, tmp_path: Path) -> None:
    """A file that is no backup is left as it is."""
    put(tmp_path / "list.txt", b"blue cards")
    message = person.error("backup", tmp_path / "list.txt")
    assert str(tmp_path / "list.txt") in message
    assert "choose another name" in message
    assert (tmp_path / "list.txt").read_bytes() == b"blue cards"


def test_a_backup_with_other_words_is_never_replaced(person: Person, newcomer: Person, tmp_path: Path) -> None:
    """A backup that holds words this index lacks is left; one of the same words may be renewed."""
    person.says("mark", "2026-W12", "started")
    person.says("backup", tmp_path / "words.json")
    person.says("mark", "2026-W12", "done")
    person.says("backup", tmp_path / "words.json")
    assert words(tmp_path / "words.json") == [("started", ""), ("done", "")]
    newcomer.says("settings", "week.min_days", "1")
    assert "restore it first" in newcomer.error("backup", tmp_path / "words.json")
    assert words(tmp_path / "words.json") == [("started", ""), ("done", "")]


def test_a_folder_that_does_not_exist_is_named(person: Person, tmp_path: Path) -> None:
    """A backup into a folder that is not there names what the person asked for."""
    target = tmp_path / "nowhere" / "words.json"
    message = person.error("backup", target)
    assert str(target) in message
    assert ".part" not in message


def test_a_folder_in_the_place_of_the_file_is_wrong_usage(person: Person, tmp_path: Path) -> None:
    """A backup is a file, not a folder."""
    assert str(tmp_path) in person.misuse("backup", tmp_path)


def test_every_change_of_words_is_backed_up_unasked(person: Person) -> None:
    """After each word a backup lies beside the index that holds all words so far."""
    person.says("mark", "2026-W12", "started", "--note", "one")
    person.says("mark", "2026-W12", "done", "--note", "two")
    person.says("settings", "week.min_days", "1")
    first, second, third = unasked(person)
    assert words(first) == [("started", "one")]
    assert words(second) == words(third) == [("started", "one"), ("done", "two")]


def test_reading_makes_no_backup(person: Person) -> None:
    """Commands that tell nothing write nothing beside the index."""
    for command in (["weeks"], ["week", "2026-W12"], ["undated"], ["devices"], ["settings"], ["index"]):
        person.says(*command)
    assert not person.index.with_name(person.index.name + "-backups").exists()


def test_the_last_ten_are_kept(person: Person) -> None:
    """Of the backups made unasked the newest ten stay; those of another index are never touched."""
    stranger = person.index.with_name(person.index.name + "-backups") / "words-00000000-20200101T000000000000Z.json"
    put(stranger, b"{}")
    for number in range(12):
        person.says("mark", "2026-W12", "started", "--note", str(number))
    own = [file for file in unasked(person) if file != stranger]
    assert len(own) == 10
    assert len(words(own[0])) == 3
    assert len(words(own[-1])) == 12
    assert stranger.exists()


def test_a_backup_that_cannot_be_written_does_not_lose_the_word(person: Person) -> None:
    """Where the backup beside the index fails, the word is kept and one warning says how to save it elsewhere."""
    put(person.index.with_name(person.index.name + "-backups"), b"a file in the way")
    result = person.run("mark", "2026-W12", "started")
    assert result.exit_code == 0
    (line,) = result.stderr.splitlines()
    assert line.startswith("Warning: ")
    assert line.endswith("weeksheaf backup FILE")
    assert person.row("2026-W12")["state"] == "started"


def test_words_told_while_the_backup_failed_are_in_the_next_one(person: Person) -> None:
    """The next command that backs up catches up with what was told meanwhile."""
    blocker = person.index.with_name(person.index.name + "-backups")
    put(blocker, b"a file in the way")
    person.run("mark", "2026-W12", "started")
    blocker.unlink()
    person.says("index")
    assert words(unasked(person)[-1]) == [("started", "")]


@pytest.mark.parametrize("answer", ["words", "file"])
def test_the_document(person: Person, tmp_path: Path, answer: str) -> None:
    """Scripts are told where the backup lies and how many words it holds."""
    assert answer in person.json("backup", tmp_path / "words.json")
