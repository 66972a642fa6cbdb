"""weeksheaf assign"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.queries.cli.conftest import PHONE, Person, put

SUNDAY = "phone/0412.jpg"
MESSAGE = "messages/IMG-20260401-WA0003.jpg"
SCAN = "scans/scan 1994-07 pier.jpg"


def of_week(person: Person, week: str) -> dict[str, dict[str, Any]]:
    """The photos of a week by name."""
    return {Path(photo["path"]).name: photo for photo in person.json("week", week)["photos"]}


def test_a_photo_counts_in_the_week_that_it_was_put_into(person: Person) -> None:
    """There alone, with the time it has; pages and scripts tell that it was put there by hand."""
    code = person.code(SUNDAY)
    assert person.says("assign", code, "2026-W14") == (
        f"{code} is in 30 Mar - 5 Apr 2026, week 14, put there by hand; taken Sun 12 Apr 2026 21:00:00\n"
    )
    found = of_week(person, "2026-W14")["0412.jpg"]
    assert (found["week"], found["taken"], found["day"], found["assigned"]) == (
        "2026-W14", "2026-04-12T21:00:00", None, True
    )  # fmt: skip
    assert "0412.jpg" not in of_week(person, "2026-W15")
    assert (person.row("2026-W14")["photos"], person.row("2026-W15")["photos"]) == (13, 2)
    assert person.says("week", "2026-W14").splitlines()[-4:] == [
        "",
        "Put here by hand",
        f"  {code}  21:00     landscape  Lanternfish P4  0412.jpg",
        "         put here by hand; taken Sun 12 Apr 2026 21:00:00",
    ]
    assert sum(day["photos"] for day in person.json("week", "2026-W14")["days"]) == 12


def test_a_photo_put_into_its_own_week_keeps_its_day(person: Person) -> None:
    """The person has settled what was doubtful; it stands under the day that its time tells."""
    code = person.code(MESSAGE)
    person.says("assign", person.folder / MESSAGE, "2026-W14")
    found = of_week(person, "2026-W14")["IMG-20260401-WA0003.jpg"]
    assert (found["day"], found["doubtful"], found["assigned"]) == ("2026-04-01", False, True)
    assert person.row("2026-W14")["doubtful"] == 0
    text = person.says("week", "2026-W14")
    assert f"Wed 1 Apr\n  {code}" in text
    assert "Put here by hand" not in text


@pytest.mark.parametrize(
    ("told", "taken", "precision", "week"),
    [
        ("2026-03-30 14:00", "2026-03-30T14:00", "minute", "2026-W14"),
        ("2026-03-30 14:00:05", "2026-03-30T14:00:05", "second", "2026-W14"),
        ("2026-03-30", "2026-03-30", "day", "2026-W14"),
        ("1996-08", "1996-08", "month", None),
        ("1996", "1996", "year", None),
    ],
)
def test_a_time_told_by_hand(person: Person, told: str, taken: str, precision: str, week: str | None) -> None:
    """It is as exact as it is told, and outranks what the files say."""
    (photo,) = person.json("assign", person.folder / SCAN, "--taken", told)["photos"]
    assert (photo["taken"], photo["precision"], photo["week"]) == (taken, precision, week)
    assert photo["source"] == "by hand"
    assert photo["doubtful"] is (week is None)


def test_several_photos_at_once(person: Person) -> None:
    """A photo named twice is told of once; the last word is the week, whatever form it has."""
    first, second = person.code(SUNDAY), person.code("phone/0406.jpg")
    document = person.json("assign", first, second, person.folder / SUNDAY, "2026-04-01")
    assert [photo["code"] for photo in document["photos"]] == [first, second]
    assert {photo["week"] for photo in document["photos"]} == {"2026-W14"}
    assert (document["weeks_changed"], document["done_weeks"]) == (2, [])


def test_forget_goes_back_to_the_evidence(person: Person) -> None:
    """Week and time at once; a photo of which nothing was told says so."""
    code = person.code(SUNDAY)
    person.says("assign", code, "2026-W14")
    person.says("assign", code, "--taken", "2026-04-01 09:00")
    now = f"{code} is in 6 - 12 Apr 2026, week 15; taken Sun 12 Apr 2026 21:00:00\n"
    assert person.says("assign", code, "--forget") == now
    assert person.says("assign", code, "--forget") == now.replace(code, f"nothing was told of {code} by hand; it")


def test_a_done_week_is_never_touched_in_silence(person: Person) -> None:
    """The week that loses a photo and the one that gains it are named."""
    for week in ("2026-W14", "2026-W15"):
        person.says("mark", week, "done")
    lines = person.says("assign", person.code(SUNDAY), "2026-W14").splitlines()
    assert [line.partition(" is done and stays as made; ")[0] for line in lines[1:]] == [
        "30 Mar - 5 Apr 2026, week 14",
        "6 - 12 Apr 2026, week 15",
    ]
    assert person.row("2026-W14")["late"] == 1
    page = person.json("week", "2026-W15")
    assert (page["late"], len(page["gone"])) == ([], 1)
    assert person.json("assign", person.code(SUNDAY), "2026-W11")["done_weeks"] == ["2026-W14"]


def test_copies_go_with_it(person: Person) -> None:
    """And it is said how many."""
    person.resemble("copy", SUNDAY, "phone/0406.jpg")
    code = person.code("phone/0406.jpg")
    lines = person.says("assign", code, "2026-W11").splitlines()
    assert lines[1:] == ["1 photo goes with it, being a copy or dated by it"]
    assert {"0406.jpg", "0412.jpg"} <= of_week(person, "2026-W11").keys()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["{code}", "2026-W54"], "there is no week 2026-W54"),
        (["{code}", "{code}"], "'{code}' is not a week: give 2026-W14"),
        (["nowhere.jpg", "2026-W14"], "no photo in the index answers to nowhere.jpg"),
        (["{code}", "nowhere.jpg", "2026-W14"], "no photo in the index answers to nowhere.jpg"),
        (["{code}", "--taken", "2026-02-30"], "there is no time 2026-02-30"),
        (["{code}", "--taken", "30.3.2026"], "'30.3.2026' is no time; write it like 2026-03-30 14:00"),
        (["{code}", "--taken", "2027"], "2027 is yet to come"),
    ],
)
def test_what_cannot_be_told_is_refused(person: Person, words: list[str], says: str) -> None:
    """One line, and nothing is told of any photo."""
    code = person.code(SUNDAY)
    message = person.error("assign", *(word.replace("{code}", code) for word in words))
    assert message.startswith(says.replace("{code}", code))
    assert person.json("why", code)["by_hand"] == {"first_day": None, "taken": None}


@pytest.mark.parametrize(
    "words", [[], ["2026-W14"], ["--taken", "2026-03-30"], ["x", "--taken", "2026-03-30", "--forget"]]
)
def test_wrong_usage(person: Person, words: list[str]) -> None:
    """No photo, or two things at once."""
    person.misuse("assign", *words)


def test_the_words_outlive_all(owner: Person, newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]) -> None:
    """A moved and renamed file, one retagged, another index run, a new index and a restore, twice."""
    owner.says("assign", owner.folder / SUNDAY, "2026-W14")
    owner.says("assign", owner.folder / "phone" / "0406.jpg", "--taken", "2026-03-10 10:00")
    (owner.folder / SUNDAY).rename(owner.folder / "moved.jpg")
    put(owner.folder / "phone" / "0406.jpg", picture("phone/0406.jpg", "2020:01:01 00:00:00", PHONE))
    owner.says("index")
    owner.says("backup", tmp_path / "words.json")
    newcomer.says("restore", tmp_path / "words.json")
    newcomer.says("index", newcomer.folder)
    newcomer.says("restore", tmp_path / "words.json")
    assert "moved.jpg" in of_week(owner, "2026-W14")
    assert "0412.jpg" in of_week(newcomer, "2026-W14")
    for person in (owner, newcomer):
        assert of_week(person, "2026-W11")["0406.jpg"]["taken"] == "2026-03-10T10:00"


def test_another_start_of_the_week_keeps_it_in_the_week_of_its_fourth_day(person: Person) -> None:
    """What was told of 30 March to 5 April holds for 29 March to 4 April, as all words about weeks do."""
    person.says("assign", person.code(SUNDAY), "2026-W14")
    person.says("settings", "week.first_day", "sunday")
    assert "0412.jpg" in of_week(person, "2026-04-02")


def test_a_working_folder_shows_what_was_put_there(person: Person, tmp_path: Path) -> None:
    """The photo is pulled with the others of the week, its name keeps its time."""
    person.says("assign", person.code(SUNDAY), "2026-W14")
    person.says("pull", "2026-W14", tmp_path / "w14")
    assert len(list((tmp_path / "w14").glob("2026-04-12_2100_*.jpg"))) == 1
    person.says("assign", person.code(SUNDAY), "--forget")
    assert "not in this week" in person.says("pull", "2026-W14", tmp_path / "w14")


@pytest.mark.parametrize("options", [["--taken", "2026-03-30"], ["--forget"]])
def test_a_week_beside_a_time_is_refused_as_a_week(person: Person, options: list[str]) -> None:
    """A week is not taken for a photo that is unknown."""
    message = person.misuse("assign", person.code(SUNDAY), "2026-W14", *options)
    assert "2026-W14 is a week: with --taken or --forget name photos only" in message


def test_a_week_that_is_yet_to_come_is_refused(person: Person) -> None:
    """No photo was taken in it: a year was mistyped."""
    code = person.code(SUNDAY)
    assert person.error("assign", code, "2026-W18") == (
        "27 Apr - 3 May 2026, week 18, 2026-W18, is yet to come: name a week that has begun"
    )
    person.says("assign", code, "2026-W17")


def test_a_photo_whose_file_is_gone_can_still_be_told_of(owner: Person) -> None:
    """The word is kept, and the answer says that the file is no longer there."""
    code = owner.code(SUNDAY)
    (owner.folder / SUNDAY).unlink()
    owner.says("index")
    assert owner.says("assign", code, "2026-W14").endswith("; its file is no longer there\n")


@pytest.mark.parametrize(("told", "unit"), [("1996-08", "month"), ("1996", "year")])
def test_a_month_told_by_hand_is_no_day(person: Person, told: str, unit: str) -> None:
    """All photos of which the month alone was told stand below one reason."""
    person.says("assign", person.folder / SCAN, "--taken", told)
    assert f"\nyou told the {unit} alone:\n" in person.says("undated")
    person.says("assign", person.folder / SCAN, "1996-W33")
    assert f"Settled: you put it into this week; as for its time, you told the {unit} alone.\n" in person.says(
        "why", person.folder / SCAN
    )
