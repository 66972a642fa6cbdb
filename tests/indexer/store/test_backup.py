"""Words out as one readable file, and back again."""

import json
import os
import sqlite3
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from indexer.errors import WordError
from indexer.facts.records import Camera, Claim, FileReading
from indexer.store import backup, files
from indexer.store.assignments import tell_taken
from indexer.store.assignments import tell_week as tell_week_of
from indexer.store.backup import KEPT, Restored, all_words, keep_backup, read_backup, restore, write_backup
from indexer.store.choices import tell_choice
from indexer.store.clocks import take_back, tell_correction
from indexer.store.library_folders import place_of
from indexer.store.notes import take_back as take_back_note
from indexer.store.notes import tell_note
from indexer.store.opening import backup_folder, open_for_writing, transaction
from indexer.store.orders import tell_order
from indexer.store.pictures import judge
from indexer.store.settings import tell_setting
from indexer.store.sleeves import take_back_drawing, tell_drawing, tell_owned
from indexer.store.successions import tell_succession
from indexer.store.week_log import tell_week
from indexer.store.words import WORD_TABLES

MONDAY, TODAY = date(2026, 3, 30), date(2026, 6, 1)
ORDER = "0d5e4a1c-2f0b-4b54-8a55-3f9d6a0c7e11"
NextIndex = Callable[[], sqlite3.Connection]


@pytest.fixture
def another(tmp_path: Path) -> Iterator[NextIndex]:
    """A maker of further empty indexes."""
    opened: list[sqlite3.Connection] = []

    def make() -> sqlite3.Connection:
        opened.append(open_for_writing(tmp_path / f"other-{len(opened)}" / "index.db", create=True))
        return opened[-1]

    yield make
    for connection in opened:
        connection.close()


def tell_all(connection: sqlite3.Connection) -> None:
    """One word of each kind, and more about the week."""
    tell_week(connection, MONDAY, "waiting", waiting_for=['supplies:"slate" cards', "words"], note="Ærø\n😀")
    tell_week(connection, MONDAY, "done", holding=["a" * 32, "b" * 32])
    tell_setting(connection, "home.timezone", "Europe/Lisbon", TODAY)
    tell_setting(connection, "week.min_days", None, TODAY)
    tell_succession(connection, "a" * 32, "c" * 32)
    tell_choice(connection, ["a" * 32], "keep")
    tell_choice(connection, ["b" * 32], None)
    tell_week_of(connection, ["a" * 32], MONDAY, TODAY)
    tell_taken(connection, ["b" * 32], "2026-03", TODAY)
    camera = Camera("Tidewell", "TW-100", "0042")
    tell_correction(connection, camera, -3600, None, "2026-03-30T00:00:00", TODAY)
    take_back(connection, tell_correction(connection, camera, 60, "2026-03-30T00:00:00", None, TODAY), TODAY)
    tell_drawing(connection, "narrow, Ærø", "1x1in", "AAB\nAAB")
    take_back_drawing(connection, "narrow, Ærø")
    tell_owned(connection, ["6 wide"], owned=False)
    take_back_note(connection, tell_note(connection, MONDAY, date(2026, 4, 1), "Snø på Ærø 🐟\n\nשלום"))
    tell_order(connection, ORDER, 12, "planned", '{"folder":"prints \\udcff"}')
    tell_order(connection, ORDER, 12, "sent")
    tell_order(connection, ORDER, 12, "reprint", '{"print":"o12-07"}')


def test_a_backup_restored_into_an_empty_index_is_all_of_it(
    connection: sqlite3.Connection, another: NextIndex, tmp_path: Path
) -> None:
    """Whatever can be told comes back, letter for letter."""
    tell_all(connection)
    assert write_backup(connection, tmp_path / "words.json") == 20
    empty = another()
    assert restore(empty, read_backup(tmp_path / "words.json"), TODAY) == Restored(added=20, had=0)
    assert all_words(empty) == all_words(connection)


def test_restoring_twice_adds_nothing(connection: sqlite3.Connection, another: NextIndex, tmp_path: Path) -> None:
    """Nothing is doubled, in another index and in the one that the backup was made of."""
    tell_all(connection)
    write_backup(connection, tmp_path / "words.json")
    words = read_backup(tmp_path / "words.json")
    empty = another()
    restore(empty, words, TODAY)
    assert restore(empty, words, TODAY) == Restored(added=0, had=20)
    assert restore(connection, words, TODAY) == Restored(added=0, had=20)
    assert all_words(empty) == all_words(connection) == words


def test_restoring_into_an_index_that_went_on_living_is_a_union(
    connection: sqlite3.Connection, another: NextIndex, tmp_path: Path
) -> None:
    """Words of both sides stand, in the order they were told, so that the latest one holds."""
    tell_all(connection)
    write_backup(connection, tmp_path / "words.json")
    other = another()
    restore(other, read_backup(tmp_path / "words.json"), TODAY)
    tell_week(other, MONDAY, "skipped")
    tell_week(connection, MONDAY, "started")
    tell_week(connection, date(2026, 4, 6), "open")
    mine, theirs = all_words(connection), all_words(other)
    assert restore(other, mine, TODAY) == Restored(added=2, had=20)
    assert restore(connection, theirs, TODAY) == Restored(added=1, had=20)
    assert all_words(connection) == all_words(other)
    assert [word["state"] for word in all_words(other)["week_log"]] == ["waiting", "done", "skipped", "started", "open"]
    held = other.execute("SELECT state FROM week_state WHERE first_day = '2026-03-30'").fetchone()[0]
    assert held == "started"


def test_a_restored_zone_judges_every_photo_anew(
    connection: sqlite3.Connection, another: NextIndex, photo_reading: Callable[..., FileReading]
) -> None:
    """Verdicts are derived: they follow the setting in the same transaction."""
    tell_setting(connection, "home.timezone", "America/New_York", TODAY)
    other = another()
    claim = Claim("file name", "PXL_20260105_020000000.jpg", "2026-01-05T02:00:00", "second", is_utc=True)
    with transaction(other):
        folder = place_of(other, "/library").folder
        files.save(other, [files.FileRow(None, folder.id, b"a.jpg", 1, 1, 1, photo_reading("a" * 32, claim))])
        judge(other, {"a" * 32}, TODAY)
    assert other.execute("SELECT doubtful FROM photo").fetchone()[0] == 1
    restore(other, all_words(connection), TODAY)
    # FACTS "File names": at UTC-5 it is Sunday evening.
    assert tuple(other.execute("SELECT taken, doubtful FROM photo").fetchone()) == ("2026-01-04T21:00:00", 0)


def test_a_zone_that_this_computer_does_not_know_stops_nothing(
    connection: sqlite3.Connection, photo_reading: Callable[..., FileReading]
) -> None:
    """A backup from a computer with a newer zone database is restored; until then the zone counts as not told."""
    claim = Claim("file name", "PXL_20260105_020000000.jpg", "2026-01-05T02:00:00", "second", is_utc=True)
    with transaction(connection):
        folder = place_of(connection, "/library").folder
        files.save(connection, [files.FileRow(None, folder.id, b"a.jpg", 1, 1, 1, photo_reading("a" * 32, claim))])
        judge(connection, {"a" * 32}, TODAY)
    word = {"uuid": "6f1f8a44-5f0d-4c57-9d1c-0c1b54a9b7aa", "told_at": "2026-01-01T00:00:00.000000Z"}
    setting = word | {"name": "home.timezone", "value": "Moon/Tranquility"}
    words = {table: [] for table in WORD_TABLES} | {"setting_log": [setting]}
    assert restore(connection, words, TODAY).added == 1
    assert connection.execute("SELECT doubtful FROM photo").fetchone()[0] == 1


def test_a_restore_that_fails_adds_nothing(
    connection: sqlite3.Connection, another: NextIndex, monkeypatch: pytest.MonkeyPatch
) -> None:
    """All or none: an interruption at the last step undoes the first."""
    tell_all(connection)
    other = another()

    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(backup, "judge_all", interrupt)
    with pytest.raises(KeyboardInterrupt):
        restore(other, all_words(connection), TODAY)
    assert not any(all_words(other).values())
    assert not other.in_transaction


def test_the_file_says_what_it_is(connection: sqlite3.Connection, tmp_path: Path) -> None:
    """One JSON document that a person can read: maker, form, when, of which index, and the words by table."""
    tell_all(connection)
    write_backup(connection, tmp_path / "words.json")
    document = json.loads((tmp_path / "words.json").read_text("utf-8"))
    assert (document["made_by"], document["format"]) == ("weeksheaf", 2)
    assert datetime.fromisoformat(document["made_at"]).utcoffset() == UTC.utcoffset(None)
    assert document["index_id"] == connection.execute("SELECT value FROM about").fetchone()[0]
    assert sorted(document["words"]) == sorted(WORD_TABLES)
    assert document["words"]["week_log"][1]["holding"] == ["a" * 32, "b" * 32]
    assert document["words"]["week_log"][0]["waiting_for"] == ['supplies:"slate" cards', "words"]


def test_a_backup_goes_on_in_the_same_file(connection: sqlite3.Connection, tmp_path: Path) -> None:
    """A backup with no word that the index lacks is replaced by a fuller one, and no other file is left."""
    file = tmp_path / "saved" / "words.json"
    file.parent.mkdir()
    tell_week(connection, MONDAY, "open")
    write_backup(connection, file)
    tell_week(connection, MONDAY, "done")
    assert write_backup(connection, file) == 2
    assert read_backup(file) == all_words(connection)
    assert os.listdir(file.parent) == ["words.json"]


@pytest.mark.parametrize("kind", ["week_log", "setting_log", "succession"])
def test_a_backup_with_words_that_the_index_lacks_is_left_as_it_is(
    kind: str, connection: sqlite3.Connection, another: NextIndex, tmp_path: Path
) -> None:
    """Of whichever kind the word is: saving would lose it, so another name is asked for."""
    file = tmp_path / "words.json"
    if kind == "week_log":
        tell_week(connection, MONDAY, "open")
    elif kind == "setting_log":
        tell_setting(connection, "week.min_days", "1", TODAY)
    else:
        tell_succession(connection, "a", "b")
    write_backup(connection, file)
    before = file.read_bytes()
    with pytest.raises(WordError, match=r"this index lacks.*another name.*restore"):
        write_backup(another(), file)
    assert file.read_bytes() == before


@pytest.mark.parametrize("content", [b"my diary", b"", b"{}", b"\xff\xd8\xff", b'{"made_by": "weeksheaf"}', b"[" * 99])
def test_a_file_that_is_no_backup_is_left_as_it_is(
    content: bytes, connection: sqlite3.Connection, tmp_path: Path
) -> None:
    """Nothing of the person's is written over."""
    file = tmp_path / "words.json"
    file.write_bytes(content)
    with pytest.raises(WordError, match="another name") as caught:
        write_backup(connection, file)
    assert str(file) in str(caught.value)
    assert file.read_bytes() == content


def test_a_backup_that_cannot_be_finished_leaves_the_old_one(
    connection: sqlite3.Connection, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whole or not at all: a full disk leaves the file of before and no half one beside it."""
    file = tmp_path / "saved" / "words.json"
    file.parent.mkdir()
    write_backup(connection, file)
    before = file.read_bytes()

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(backup.os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_backup(connection, file)
    assert (os.listdir(file.parent), file.read_bytes()) == (["words.json"], before)


def test_no_other_file_is_touched_on_the_way(connection: sqlite3.Connection, tmp_path: Path) -> None:
    """The temporary name is nobody else's."""
    (tmp_path / ".words.json.part").write_text("a note of mine")
    write_backup(connection, tmp_path / "words.json")
    assert (tmp_path / ".words.json.part").read_text() == "a note of mine"


def test_a_week_of_one_photo_comes_back(connection: sqlite3.Connection, another: NextIndex) -> None:
    """A single photo held by a single done week is restored, and once more."""
    tell_week(connection, MONDAY, "done", holding=["a" * 32])
    other = another()
    for added in (1, 0):
        assert restore(other, all_words(connection), TODAY).added == added
    assert all_words(other) == all_words(connection)


def kept(index: Path) -> list[str]:
    return sorted(os.listdir(backup_folder(index)))


def test_the_last_ten_are_kept(connection: sqlite3.Connection, index: Path) -> None:
    """The newest of them holds all words."""
    for number in range(KEPT + 3):
        tell_week(connection, MONDAY, "open", note=str(number))
        keep_backup(connection, index)
    assert KEPT == 10
    assert len(kept(index)) == KEPT
    notes = [len(read_backup(backup_folder(index) / name)["week_log"]) for name in kept(index)]
    assert notes == list(range(4, KEPT + 4))


def test_only_backups_of_this_index_are_cleared_away(
    connection: sqlite3.Connection, index: Path, another: NextIndex
) -> None:
    """An index made anew in the same place leaves the words of the one before, and files of any other name."""
    earlier = another()
    tell_week(earlier, MONDAY, "open")
    keep_backup(earlier, index)
    (backup_folder(index) / "mine.json").write_text("{}")
    before = kept(index)
    for number in range(KEPT + 2):
        tell_week(connection, MONDAY, "open", note=str(number))
        keep_backup(connection, index)
    assert set(before) < set(kept(index))
    assert len(kept(index)) == KEPT + 2


def test_restored_words_are_backed_up_too(connection: sqlite3.Connection, another: NextIndex, index: Path) -> None:
    """They are a change of words, though they are older than the last one told here."""
    tell_week(connection, MONDAY, "started")
    older = all_words(connection)
    living = another()
    tell_week(living, MONDAY, "done")
    keep_backup(living, index)
    restore(living, older, TODAY)
    keep_backup(living, index)
    held = [read_backup(backup_folder(index) / name) for name in kept(index)]
    assert all_words(living) in held


def test_nothing_new_makes_no_new_file(connection: sqlite3.Connection, index: Path) -> None:
    """The file of the last word stands until the next word."""
    tell_week(connection, MONDAY, "open")
    keep_backup(connection, index)
    (name,) = kept(index)
    before = (backup_folder(index) / name).stat().st_mtime_ns
    keep_backup(connection, index)
    assert [(name, before)] == [(name, (backup_folder(index) / name).stat().st_mtime_ns) for name in kept(index)]
