"""weeksheaf undated"""

from collections.abc import Callable
from pathlib import Path

from tests.queries.cli.conftest import PHONE, Person, put
from tests.queries.cli.test_week import PHOTO


def test_doubtful_photos_have_all_fields_and_the_reason(person: Person) -> None:
    """Every doubtful photo is listed with the fields of a week's photo, and why it is doubtful."""
    photos = person.json("undated")["photos"]
    assert all(photo.keys() >= PHOTO | {"reason"} for photo in photos)
    assert {Path(photo["path"]).name: (photo["week"], photo["reason"]) for photo in photos} == {
        "scan 1994-07 pier.jpg": (None, "only the month is known"),
        "reset clock.jpg": ("1980-W01", "a date before 1990 or in the future: was the clock set?"),
        "IMG-20260401-WA0003.jpg": ("2026-W14", "the name tells the day it arrived, not the day it was taken"),
        "nothing known.jpg": ("2026-W15", "only the file's own time is known, which copying changes"),
    }


def test_a_doubtful_photo_with_a_week_stands_in_both_lists(person: Person) -> None:
    """A doubtful photo of a known day is in its week too, marked doubtful there."""
    in_week = [photo for photo in person.json("week", "2026-W14")["photos"] if photo["doubtful"]]
    assert [photo["key"] for photo in in_week] == [
        photo["key"] for photo in person.json("undated")["photos"] if photo["week"] == "2026-W14"
    ]


def test_the_list_as_a_person_reads_it(person: Person) -> None:
    """Photos are gathered under what is wrong with them, with what is known of their time."""
    scan, message = person.code("scans/scan 1994-07 pier.jpg"), person.code("messages/IMG-20260401-WA0003.jpg")
    clock = person.code("compact/reset clock.jpg")
    lines = person.says("undated").splitlines()
    assert lines[0] == "4 photos to look at; weeksheaf why CODE shows what is known of one"
    assert lines[1:4] == [
        "",
        "a date before 1990 or in the future: was the clock set?",
        f"  {clock}  Tue 1 Jan 1980 00:00:00  1980-W01  reset clock.jpg",
    ]
    assert lines[-7:] == [
        "only the month is known:",
        f"  {scan}  1994-07  no week  scan 1994-07 pier.jpg",
        "",
        "the name tells the day it arrived, not the day it was taken:",
        f"  {message}  Wed 1 Apr 2026  2026-W14  IMG-20260401-WA0003.jpg",
        "",
        "To settle one: weeksheaf assign CODE WEEK, or weeksheaf assign CODE --taken TIME",
    ]


def test_likely_corrections_are_told_of(person: Person) -> None:
    """Where a clock is probably wrong, its correction may settle several at once."""
    person.suggest("Tidewell", "TW-100", "0042", 3600)
    assert person.says("undated").splitlines()[-2] == (
        "1 clock correction is likely and may settle some of these: weeksheaf clock suggest"
    )


def test_a_library_without_doubts(newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]) -> None:
    """Where nothing is doubtful the list says so."""
    put(tmp_path / "sure" / "a.jpg", picture("a", "2026:04:06 12:00:00", PHONE))
    newcomer.says("index", tmp_path / "sure")
    assert newcomer.json("undated")["photos"] == []
    assert newcomer.says("undated") == "Every photo has a time that nothing speaks against.\n"


def test_missing_photos_are_not_to_be_looked_at(owner: Person) -> None:
    """A doubtful photo whose file is gone leaves the list."""
    (owner.folder / "messages" / "IMG-20260401-WA0003.jpg").unlink()
    owner.says("index")
    assert len(owner.json("undated")["photos"]) == 3
