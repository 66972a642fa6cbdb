"""weeksheaf index"""

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from indexer import the_only_run
from tests.queries.cli.conftest import COMPACT, EARLY_END, PHONE, Household, Person, digest_of, jpeg, posix_only, put

SUMMARY = {
    "found",
    "new",
    "changed",
    "moved",
    "unchanged",
    "missing",
    "other",
    "unreadable",
    "undated",
    "late",
    "weeks",
}


def counts(person: Person, *words: str | Path) -> dict[str, int]:
    """The counts of the contract that are not 0."""
    document = person.json("index", *words)
    assert document.keys() >= SUMMARY
    return {name: document[name] for name in SUMMARY if document[name]}


STANDING = {"other": 2, "unreadable": 2, "undated": 4, "weeks": 4}


def test_the_first_run_counts_everything(newcomer: Person) -> None:
    """A first run finds every photo new, and counts what is no photo and what cannot be read."""
    assert counts(newcomer, newcomer.folder) == {"found": 26, "new": 26, **STANDING}


def test_a_second_run_finds_nothing_to_do(person: Person) -> None:
    """An unchanged library is all unchanged, whether its folder is named or not."""
    assert counts(person, person.folder) == {"found": 26, "unchanged": 26, **STANDING}
    assert counts(person) == {"found": 26, "unchanged": 26, **STANDING}


def test_the_summary_in_words(newcomer: Person) -> None:
    """A person reads what was found, what to look at, and which camera has not been copied yet."""
    assert newcomer.says("index", newcomer.folder).splitlines() == [
        f"26 photo files found in {newcomer.folder}: 26 new",
        "  2 other files, not photos",
        "  2 files not readable in full: weeksheaf unreadable",
        "4 weeks with photos in the whole library: weeksheaf weeks --unfinished",
        "  4 photos with a doubtful date: weeksheaf undated",
        EARLY_END,
    ]


def test_the_device_that_ends_early_is_in_the_document(newcomer: Person) -> None:
    """Scripts are told too which device ends weeks before the others."""
    (early,) = newcomer.json("index", newcomer.folder)["not_copied_yet"]
    assert early["camera"] == "Tidewell TW-100"


def test_several_folders_are_one_library(newcomer: Person) -> None:
    """Folders may be named together, also one inside another: no photo counts twice."""
    named = [newcomer.folder / "phone", newcomer.folder / "compact", newcomer.folder]
    assert counts(newcomer, *named) == {"found": 26, "new": 26, **STANDING}


def test_a_part_of_the_library_can_be_indexed_by_itself(owner: Person) -> None:
    """Naming a folder inside the library looks at that folder only and loses nothing of the rest."""
    put(owner.folder / "phone" / "new.jpg", jpeg("new", "2026:04:07 12:00:00", PHONE))
    put(owner.folder / "compact" / "new too.jpg", jpeg("new too", "2026:03:09 12:00:00", COMPACT))
    part = counts(owner, owner.folder / "phone")
    assert (part["found"], part["new"]) == (17, 1)
    assert owner.row("2026-W11")["photos"] == 5
    assert counts(owner)["new"] == 1


def test_what_became_of_each_file(owner: Person) -> None:
    """New, changed, moved and missing photos are told apart."""
    folder = owner.folder
    put(folder / "phone" / "0411.jpg", jpeg("0411", "2026:04:11 12:00:00", PHONE))
    (folder / "phone" / "0406.jpg").write_bytes(jpeg("phone/0406.jpg", "2026:04:07 07:10:00", PHONE))
    (folder / "phone" / "0412.jpg").rename(folder / "phone" / "last day.jpg")
    (folder / "phone" / "0318.jpg").unlink()
    assert counts(owner) == {
        "found": 26, "new": 1, "changed": 1, "moved": 1, "unchanged": 23, "missing": 1, **STANDING
    }  # fmt: skip


def test_a_renamed_photo_keeps_its_identity(owner: Person) -> None:
    """A file that was renamed and moved to another folder is the same photo, on the page of its done week."""
    code = owner.code("phone/0318.jpg")
    owner.says("mark", "2026-W12", "done")
    target = owner.folder / "sorted" / "march.jpg"
    target.parent.mkdir()
    (owner.folder / "phone" / "0318.jpg").rename(target)
    owner.says("index")
    page = owner.json("week", "2026-W12")
    assert (page["state"], page["late"], page["gone"]) == ("done", [], [])
    assert code in [photo["code"] for photo in page["photos"]]
    assert owner.code("sorted/march.jpg") == code


def test_a_retagged_photo_keeps_its_identity(owner: Person) -> None:
    """Writing metadata into a file does not make it another photo."""
    code = owner.code("phone/0406.jpg")
    (owner.folder / "phone" / "0406.jpg").write_bytes(
        jpeg("phone/0406.jpg", "2026:04:06 07:10:00", ("Lanternfish", "P4 by hand", ""))
    )
    assert counts(owner)["changed"] == 1
    assert owner.code("phone/0406.jpg") == code


def test_photos_that_come_late_are_counted_once_for_all_weeks(owner: Person) -> None:
    """Photos found in a week after it was marked done are counted in the summary, and said in words."""
    owner.says("mark", "2026-W12", "done")
    put(owner.folder / "from Aunt" / "a.jpg", jpeg("aunt", "2026:03:17 09:00:00", PHONE))
    put(owner.folder / "from Aunt" / "b.jpg", jpeg("aunt too", "2026:03:17 09:01:00", PHONE))
    assert counts(owner)["late"] == 2
    assert "  2 photos not on the pages of the done weeks they belong to: weeksheaf weeks\n" in owner.says("index")


def test_a_folder_that_is_empty_now_marks_nothing_missing(owner: Person) -> None:
    """A library folder whose disk shows nothing is reported with the way to insist; nothing is marked missing."""
    owner.says("mark", "2026-W12", "waiting", "--for", "prints")
    shutil.rmtree(owner.folder)
    owner.folder.mkdir()
    message = owner.error("index", stdout=True)
    assert str(owner.folder) in message
    assert "nothing was marked missing" in message
    assert f"weeksheaf index {owner.folder} --accept-missing" in message
    assert owner.row("2026-W12")["photos"] == 3
    document = owner.json("index", owner.folder, exit_code=1)
    assert (document["missing"], document["out_of_reach"]) == (0, [str(owner.folder)])


def test_a_folder_that_is_gone_marks_nothing_missing(owner: Person) -> None:
    """A library folder that is not there any more is treated like an empty one, also when it is named."""
    shutil.rmtree(owner.folder)
    for words in (["index"], ["index", owner.folder]):
        assert "nothing was marked missing" in owner.error(*words, stdout=True)
    assert owner.row("2026-W12")["photos"] == 3


def test_insisting_marks_missing_and_keeps_the_words(owner: Person) -> None:
    """--accept-missing believes the empty folder; what was told of its weeks stays."""
    owner.says("mark", "2026-W12", "waiting", "--for", "prints")
    shutil.rmtree(owner.folder)
    owner.folder.mkdir()
    assert owner.json("index", owner.folder, "--accept-missing")["missing"] == 25
    row = owner.row("2026-W12")
    assert (row["photos"], row["state"], row["waiting_for"]) == (0, "waiting", ["prints"])


def test_missing_photos_are_said_in_words(owner: Person) -> None:
    """A deleted photo is counted as missing, with the comfort that words stay."""
    (owner.folder / "phone" / "0406.jpg").unlink()
    assert owner.says("index").splitlines()[1] == ("  1 photo is no longer there; nothing told of them is lost")


def test_missing_photos_come_back_with_their_words(owner: Person) -> None:
    """Photos that were missing and lie there again are on their page as before."""
    owner.says("mark", "2026-W12", "done")
    away = owner.folder.with_name("unplugged")
    owner.folder.rename(away)
    assert owner.json("index", owner.folder, "--accept-missing")["missing"] == 25
    away.rename(owner.folder)
    owner.says("index", owner.folder)
    page = owner.json("week", "2026-W12")
    assert (len(page["photos"]), page["late"], page["gone"]) == (3, [], [])


def test_the_photos_stay_as_they_are(owner: Person) -> None:
    """No command of the main job writes, renames, re-dates or deletes anything in the library."""
    before = digest_of(owner.folder)
    for words in (
        ["index"], ["weeks"], ["week", "2026-W14"], ["mark", "2026-W14", "done"], ["undated"], ["devices"],
        ["why", owner.folder / "phone" / "0406.jpg"], ["pull", "2026-W14", owner.folder.with_name("w14")],
    ):  # fmt: skip
        owner.says(*words)
    assert digest_of(owner.folder) == before


def test_nothing_is_said_on_stderr_where_it_is_no_terminal(newcomer: Person) -> None:
    """The progress line is for terminals; a script's stderr stays empty."""
    assert newcomer.run("index", newcomer.folder).stderr == ""


def test_only_one_run_at_a_time(person: Person) -> None:
    """A second run while another indexes is refused by name; words can be told meanwhile."""
    with the_only_run(person.index):
        assert person.error("index") == (
            f"another run is indexing into {person.index} just now; wait until it is done, then try again"
        )
        person.says("mark", "2026-W12", "started")
    person.says("index")


def test_a_photo_of_the_year_one_harms_nobody(newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]) -> None:
    """A camera that says the year 1 at night has a doubtful photo in no week, whenever the day starts."""
    put(tmp_path / "year 1" / "a.jpg", picture("a", "0001:01:01 00:10:00"))
    newcomer.says("index", tmp_path / "year 1")
    newcomer.says("settings", "day.starts_at", "04:00")
    assert newcomer.json("weeks")["weeks"] == []
    (photo,) = newcomer.json("undated")["photos"]
    assert (photo["week"], photo["taken"]) == (None, "0001-01-01T00:10:00")


# ------------------------------------------------------------------------------------------------------- stopping


def test_a_stopped_run_says_so(person: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """A run stopped by Ctrl-C prints what it did, says that it was stopped, and ends with 130."""

    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("indexer.scan._gather", interrupted)
    document = person.json("index", exit_code=130)
    assert document["stopped"] is True
    result = person.run("index")
    assert (result.exit_code, result.stderr) == (
        130, "Stopped. What was read is kept; the same command goes on from here.\n"
    )  # fmt: skip


@pytest.fixture
def many(tmp_path: Path) -> Person:
    """A library that takes seconds to read."""
    body = jpeg("many", "2026:04:07 12:00:00", PHONE)
    cut = body.index(b"\xff\xda") + 14
    for number in range(6000):
        put(tmp_path / "many" / f"{number:04}.jpg", body[:cut] + number.to_bytes(3) + body[cut:])
    return Person(tmp_path / "index.db", Household(tmp_path / "many"))


@posix_only
def test_ctrl_c_keeps_what_was_read(many: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C ends a run within a second with 130 and no traceback; what was read is kept and the next run goes on."""
    run = _start(many, "index", many.folder)
    _wait_for_rows(many.index)
    assert "another run is indexing" in many.error("index")
    asked = time.monotonic()
    os.killpg(run.pid, signal.SIGINT)  # as a terminal does: to the whole group, reading processes included
    _, errors = run.communicate(timeout=10)
    assert time.monotonic() - asked < 1
    assert (run.returncode, errors) == (130, "Stopped. What was read is kept; the same command goes on from here.\n")
    with closing(sqlite3.connect(many.index)) as connection:
        (kept,) = connection.execute("SELECT count(*) FROM file").fetchone()
    assert 0 < kept < 6000
    monkeypatch.setattr("indexer.scan.compare_photos", lambda *_: 0)  # half a minute for so many copies
    assert counts(many) == {"found": 6000, "new": 6000 - kept, "unchanged": kept, "weeks": 1}


#: The command line with batches so short that the first is written long before the last file is read.
_SHORT_BATCHES = "import indexer.scan; indexer.scan.SECONDS_PER_BATCH = 0.02; from queries.cli import main; main()"


def _start(person: Person, *words: str | Path) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", _SHORT_BATCHES, "--index", person.index, *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def _wait_for_rows(index: Path) -> None:
    """Until the run has written down its first batch."""
    deadline = time.monotonic() + 20
    while time.monotonic() < deadline:
        if index.exists():
            with closing(sqlite3.connect(index)) as connection:
                try:
                    if connection.execute("SELECT 1 FROM file").fetchone():
                        return
                except sqlite3.OperationalError:
                    pass  # the tables are not there yet
        time.sleep(0.05)
    pytest.fail("nothing was written down in 20 seconds")


def test_sets_of_photos_alike_are_counted(person: Person) -> None:
    """Once photos are alike, the summary counts their sets by kind and names the command that lists them."""
    assert "alike" not in person.says("index")
    person.resemble("burst", "compact/DSC00011.jpg", "compact/DSC00012.jpg")
    assert "  1 set of photos alike (1 burst): weeksheaf alike\n" in person.says("index")
    person.resemble("copy", "phone/0406.jpg", "messages/IMG-20260401-WA0003.jpg")
    person.resemble("copy", "phone/0316.jpg", "phone/2026-04-02 drawing.jpg")
    assert "  3 sets of photos alike (2 copies, 1 burst): weeksheaf alike\n" in person.says("index")
    document = person.json("index")
    assert (document["copies"], document["bursts"], document["not_looked"]) == (2, 1, 0)


def test_likely_clock_corrections_are_told_of(person: Person) -> None:
    """One line leads to them; scripts get their number."""
    person.suggest("Tidewell", "TW-100", "0042", 3600)
    assert "  1 clock correction is likely: weeksheaf clock suggest\n" in person.says("index")
    assert person.json("index")["clock_suggestions"] == 1
