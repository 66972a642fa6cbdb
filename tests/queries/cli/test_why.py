"""weeksheaf why"""

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from PIL import Image

from tests.queries.cli.conftest import PHONE, Person, put


def test_the_document_holds_the_verdict_and_all_evidence(person: Person) -> None:
    """The verdict is there as in `week`, and every claim with its source, its text and whether it was believed."""
    document = person.json("why", person.folder / "phone" / "0406.jpg")
    assert (document["week"], document["taken"], document["source"]) == (
        "2026-W15", "2026-04-06T07:10:00", "exif original"
    )  # fmt: skip
    assert [(row["source"], row["text"], row["chosen"]) for row in document["evidence"]][:1] == [
        ("exif original", "2026:04:06 07:10:00", True)
    ]
    assert {row["source"]: row["chosen"] for row in document["evidence"]} == {"exif original": True, "file time": False}
    assert {row["path"] for row in document["evidence"]} == {document["path"]}


def test_the_evidence_as_a_person_reads_it(person: Person) -> None:
    """The verdict comes in words, days first; an arrow marks the believed claim."""
    lines = person.says("why", person.folder / "messages" / "IMG-20260401-WA0003.jpg").splitlines()
    code = person.code("messages/IMG-20260401-WA0003.jpg")
    assert lines[:5] == [
        f"{code}  {person.folder / 'messages' / 'IMG-20260401-WA0003.jpg'}",
        "taken Wed 1 Apr 2026, in 30 Mar - 5 Apr 2026, week 14",
        "Doubtful: the name tells the day it arrived, not the day it was taken.",
        "",
        "    source     says                     as written",
    ]
    assert lines[5] == "->  file name  2026-04-01 arrived       IMG-20260401-WA0003.jpg"
    assert lines[6].startswith("    file time  2026-")
    assert lines[7:] == ["", f"To settle it: weeksheaf assign {code} WEEK, or --taken TIME"]


def test_a_photo_in_no_week_says_so(person: Person) -> None:
    """Where only the month is known the photo is in no week."""
    lines = person.says("why", person.folder / "scans" / "scan 1994-07 pier.jpg").splitlines()
    assert lines[1:3] == ["taken 1994-07, in no week", "Doubtful: only the month is known."]


def test_claims_of_several_files_are_told_apart(person: Person) -> None:
    """Of a photo that lies in two places, a person sees which file makes which claim."""
    text = person.says("why", person.code("phone/0316.jpg"))
    assert text.count(str(person.folder / "phone" / "0316.jpg")) == 1
    assert text.count("exif original  2026-03-16 08:00:00      2026:03:16 08:00:00\n") == 2


def test_the_names_of_a_photo(person: Person) -> None:
    """A photo answers to its path, its code in any case, the whole key and every longer prefix of it."""
    path = person.folder / "phone" / "0406.jpg"
    key = person.json("why", path)["key"]
    for name in (key[:5], key[:5].upper(), key[:9], key, os.path.relpath(path)):
        assert person.json("why", name)["key"] == key


@pytest.mark.parametrize("place", ["phone/0316.jpg", "backup of phone/0316.jpg", "phone/../phone/0316.jpg"])
def test_every_place_of_a_photo_names_it(person: Person, place: str) -> None:
    """Each path of a photo leads to it, also one with a way back in it."""
    assert person.json("why", person.folder / place)["taken"] == "2026-03-16T08:00:00"


def test_a_missing_photo_still_answers(owner: Person) -> None:
    """A photo whose file was deleted is known by its old path and its code."""
    path = owner.folder / "phone" / "0406.jpg"
    code = owner.code("phone/0406.jpg")
    path.unlink()
    owner.says("index")
    assert owner.json("why", path)["code"] == code
    assert owner.json("why", code)["code"] == code
    assert owner.json("why", code)["missing"] is True
    assert owner.says("why", code).splitlines()[0] == f"{code}  {path}, which is no longer there"


@pytest.mark.parametrize("form", [[], ["--jpeg"]], ids=["exact", "jpeg"])
def test_a_pulled_copy_counts_as_its_photo(person: Person, tmp_path: Path, form: list[str]) -> None:
    """The path of a copy in a working folder leads to the photo, also where the copy was turned into a JPEG."""
    pulled = tmp_path / "w15"
    person.says("pull", "2026-W15", pulled, *form)
    copy = next(pulled.glob("2026-04-06*.jpg"))
    assert person.json("why", copy)["code"] == person.code("phone/0406.jpg")


def test_a_copy_elsewhere_counts_as_its_photo(person: Person, tmp_path: Path) -> None:
    """A file outside the library that holds the same picture leads to the photo."""
    copy = tmp_path / "sent by mail.jpg"
    shutil.copyfile(person.folder / "phone" / "0406.jpg", copy)
    assert person.json("why", copy)["code"] == person.code("phone/0406.jpg")


@pytest.mark.parametrize("name", ["zzzzz", "fffff0f", "ab", "nowhere/photo.jpg", "", "a" * 300], ids=lambda n: n[:20])
def test_a_photo_that_does_not_exist(person: Person, name: str) -> None:
    """What no photo answers to is named, with the way out."""
    message = person.error("why", name)
    assert message.startswith(f"no photo in the index answers to {name}")
    assert "its path or the code printed beside it" in message


def test_a_file_that_is_no_photo(person: Person, tmp_path: Path, picture: Callable[..., bytes]) -> None:
    """A text, a folder and a photo that was never indexed are named with the way out."""
    put(tmp_path / "stranger.jpg", picture("stranger", "2026:04:06 12:00:00", PHONE))
    assert f"answers to {tmp_path / 'stranger.jpg'}" in person.error("why", tmp_path / "stranger.jpg")
    for path in (person.folder, tmp_path):
        assert person.error("why", path).startswith(f"{path} is a folder; name a photo")
    for path in (person.folder / "odd" / "notes.txt", person.folder / "odd" / "empty.jpg"):
        assert person.error("why", path).startswith(f"{path} is no photo, or none that can be read")


def test_letters_that_may_be_several_photos(person: Person) -> None:
    """A beginning that two keys share is refused with the codes that would do."""
    key = person.json("why", person.folder / "phone" / "0406.jpg")["key"]
    twin = key[:6] + ("0" if key[6] != "0" else "1") + key[7:]
    with closing(sqlite3.connect(person.index)) as connection, connection:
        connection.execute("UPDATE picture SET code = ? WHERE key = ?", (key[:7], key))
        columns = [row[1] for row in connection.execute("PRAGMA table_info(picture)")]
        rest = ", ".join(columns[2:])
        connection.execute(
            f"INSERT INTO picture (key, code, {rest}) SELECT ?, ?, {rest} FROM picture WHERE key = ?",
            (twin, twin[:7], key),
        )
    first, second = sorted((key[:7], twin[:7]))
    assert person.error("why", key[:6]) == f"{key[:6]} may be any of {first}, {second}; give more letters"
    assert person.json("why", key[:7])["key"] == key


def test_the_code_of_an_edited_photo_finds_the_edit(owner: Person, picture: Callable[..., bytes]) -> None:
    """A code on a printed week sheet still finds its photo when that was edited and saved over, and says so."""
    file = owner.folder / "phone" / "0406.jpg"
    old = owner.code("phone/0406.jpg")
    owner.says("mark", "2026-W15", "done")
    file.write_bytes(picture("edited", "2026:04:06 07:10:00"))
    owner.says("index")
    new = owner.code("phone/0406.jpg")
    result = owner.run("why", old)
    assert result.stdout.startswith(new)
    assert result.stderr == f"Warning: {old} was edited and saved over; it is {new} now\n"
    assert f"  not on the done page: {new} (an edit of {old}, which is)\n" in owner.says("week", "2026-W15")


def test_a_clock_correction_stands_below_the_claim_it_corrects(person: Person) -> None:
    """With what it makes of the camera's own time, and its number; scripts get it too."""
    person.says("clock", "set", "2", "+1h")
    path = person.folder / "compact" / "DSC00011.jpg"
    lines = person.says("why", path).splitlines()
    assert lines[1] == "taken Mon 9 Mar 2026 11:00:00, in 9 - 15 Mar 2026, week 11"
    believed = next(place for place, line in enumerate(lines) if line.startswith("->"))
    assert lines[believed : believed + 2] == [
        "->  exif original      2026-03-09 10:00:00      2026:03:09 10:00:00",
        "      clock corrected  2026-03-09 11:00:00      +1 h, correction 1",
    ]
    correction = person.json("why", path)["correction"]
    assert (correction["number"], correction["shift"], correction["corrected"]) == (1, "+1h", "2026-03-09T11:00:00")
    assert person.json("why", person.folder / "phone" / "0406.jpg")["correction"] is None


def test_a_copy_shows_whose_time_it_has(person: Person) -> None:
    """The twin is named by code and file name, and marked as what was believed."""
    message, twin = "messages/IMG-20260401-WA0003.jpg", "phone/turned 1.jpg"
    person.resemble("copy", message, twin)
    person.says("assign", person.folder / "phone" / "0406.jpg", "--taken", "2026-04-06")  # which judges all anew
    document = person.json("why", person.folder / message)
    assert (document["twin"]["path"], document["taken"]) == (str(person.folder / twin), "2026-03-31T09:01:00")
    lines = person.says("why", person.folder / message).splitlines()
    assert lines[-1] == f"->  its copy   2026-03-31 09:01:00      {person.code(twin)} turned 1.jpg"


def test_what_was_told_by_hand_stands_in_the_table(person: Person) -> None:
    """The week and the time, the time as what was believed; the evidence stays to be seen."""
    path = person.folder / "phone" / "0406.jpg"
    person.says("assign", path, "2026-W14")
    person.says("assign", path, "--taken", "2026-04-12 10:00")
    lines = person.says("why", path).splitlines()
    assert lines[1] == "taken Sun 12 Apr 2026 10:00, in 30 Mar - 5 Apr 2026, week 14, put there by hand"
    assert lines[-2:] == [
        "->  you            2026-04-12 10:00         weeksheaf assign --taken",
        "    you            week 2026-W14            weeksheaf assign WEEK",
    ]
    assert "    exif original  2026-04-06 07:10:00      2026:04:06 07:10:00" in lines
    assert person.json("why", path)["by_hand"] == {"first_day": "2026-03-30", "taken": "2026-04-12T10:00"}


def test_a_claim_that_cannot_be_used_says_why_below_it(
    newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]
) -> None:
    """A date that does not exist is shown as written, and why it is not used."""
    put(tmp_path / "bad" / "a.jpg", picture("a", "2026:13:06 12:00:00", PHONE))
    newcomer.says("index", tmp_path / "bad")
    lines = newcomer.says("why", tmp_path / "bad" / "a.jpg").splitlines()
    place = next(place for place, line in enumerate(lines) if line.startswith("    exif original  -"))
    assert lines[place].endswith("  2026:13:06 12:00:00")
    assert lines[place + 1].startswith("      not used: ")


@pytest.mark.parametrize("columns", ["80", "60"])
def test_no_line_of_the_table_is_longer_than_the_terminal(
    newcomer: Person, tmp_path: Path, picture: Callable[..., bytes], columns: str
) -> None:
    """A long file name is cut in its middle; --json has it whole."""
    name = f"2026-03-30 09.15.20 {'a very long name of a very long day ' * 3}end.jpg"
    put(tmp_path / "long" / name, picture("long"))
    newcomer.says("index", tmp_path / "long")
    newcomer.env = {"COLUMNS": columns}
    lines = newcomer.says("why", tmp_path / "long" / name).splitlines()
    assert max(map(len, lines[lines.index("") :])) <= int(columns)
    (row,) = (line for line in lines if line.startswith("->  file name"))
    assert row.endswith("end.jpg")
    assert "..." in row
    assert newcomer.json("why", tmp_path / "long" / name)["evidence"][0]["text"] == name


def test_a_claim_that_is_used_with_a_reservation(
    newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]
) -> None:
    """An offset that does not exist is left aside and the time believed: it is not called unused."""
    exif = Image.Exif()
    ifd = exif.get_ifd(0x8769)
    ifd[0x9003], ifd[0x9011] = "2026:04:06 12:00:00", "+99:00"
    file = tmp_path / "odd" / "a.jpg"
    put(file, picture("a"))
    Image.open(file).save(file, exif=exif)
    newcomer.says("index", tmp_path / "odd")
    lines = newcomer.says("why", file).splitlines()
    place = next(place for place, line in enumerate(lines) if line.startswith("->  exif original"))
    assert lines[place + 1] == "      offset +99:00 does not exist, left aside"


def test_a_time_between_two_others_is_marked_as_believed(
    newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]
) -> None:
    """The number in the file's name stands in the table as what was believed."""
    for number, time in enumerate(("2026:04:06 12:00:00", "    :  :     :  :  ", "2026:04:06 18:00:00"), start=11):
        put(tmp_path / "run" / f"DSC_00{number}.JPG", picture(str(number), time, PHONE))
    newcomer.says("index", tmp_path / "run")
    lines = newcomer.says("why", tmp_path / "run" / "DSC_0012.JPG").splitlines()
    assert lines[1] == "taken about Mon 6 Apr 2026, in 6 - 12 Apr 2026, week 15"
    assert lines[-1].split() == ["->", "its", "number", "about", "2026-04-06", "DSC_0012.JPG"]


def test_a_reason_that_asks_ends_with_its_question_mark(person: Person) -> None:
    """No full stop follows it."""
    lines = person.says("why", person.folder / "compact" / "reset clock.jpg").splitlines()
    assert lines[2] == "Doubtful: a date before 1990 or in the future: was the clock set?"
