"""weeksheaf weeks"""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.queries.cli.conftest import PHONE, Person, posix_only, put

ROW = {
    "name", "first_day", "last_day", "state", "waiting_for", "photos", "keepers", "portrait", "landscape", "square",
    "doubtful", "late",
}  # fmt: skip


@pytest.fixture
def scattered(newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]) -> Callable[..., Person]:
    """A person with one photo on each of the given Exif days."""

    def index(*days: str) -> Person:
        for day in days:
            put(tmp_path / "scattered" / f"{day.replace(':', '')}.jpg", picture(day, f"{day} 12:00:00", PHONE))
        newcomer.says("index", tmp_path / "scattered")
        return newcomer

    return index


def names(person: Person, *words: str) -> list[str]:
    return [row["name"] for row in person.json("weeks", *words)["weeks"]]


def test_a_row_has_the_fields_of_the_contract(person: Person) -> None:
    """Every row carries what scripts rely on."""
    assert all(row.keys() >= ROW for row in person.json("weeks")["weeks"])
    row = person.row("2026-W14")
    assert {name: row[name] for name in ROW} == {
        "name": "2026-W14",
        "first_day": "2026-03-30",
        "last_day": "2026-04-05",
        "state": "open",
        "waiting_for": [],
        "photos": 12,
        "keepers": 12,
        "portrait": 4,
        "landscape": 7,
        "square": 1,
        "doubtful": 1,
        "late": 0,
    }


def test_every_week_is_listed_newest_last(person: Person) -> None:
    """All weeks from the first photo to the last are listed in order, the one without photos too."""
    assert names(person) == ["2026-W11", "2026-W12", "2026-W13", "2026-W14", "2026-W15"]
    assert person.row("2026-W13")["photos"] == 0


def test_doubtful_times_do_not_stretch_the_span(person: Person) -> None:
    """The photo of a camera that woke up in 1980 makes no row of 1980; it is counted, with the one without any day."""
    document = person.json("weeks")
    assert (document["weeks"][0]["name"], document["gaps"], document["doubtful_outside"]) == ("2026-W11", [], 2)
    assert person.says("weeks").splitlines()[-2:] == [
        "",
        "Photos with a doubtful date: 2 in these weeks, 2 outside: weeksheaf undated",
    ]
    assert person.says("weeks", "--until", "2026-04-04").splitlines()[-1] == (
        "Photos with a doubtful date: 1 in these weeks: weeksheaf undated"
    )
    assert "undated" not in person.says("weeks", "--until", "2026-03-22")


def test_the_table_as_a_person_reads_it(person: Person) -> None:
    """Days come first, numbers stand under each other, nothing is a dot, a wait has a line of its own."""
    person.says("mark", "2026-W14", "waiting", "--for", "slate-blue cards", "--for", "prints")
    person.says("mark", "2026-W11", "done")
    person.make_alike("burst", "compact/DSC00012.jpg", "compact/DSC00011.jpg", "compact/DSC00014.jpg")
    assert person.says("weeks").splitlines()[:-2] == [
        "week                          state    photos  keep  port  land  sq  doubt  late",
        "9 - 15 Mar 2026, week 11      done          5     3     1     4   .      .     .",
        "16 - 22 Mar 2026, week 12     open          3     3     .     3   .      .     .",
        "23 - 29 Mar 2026, week 13     open          .     .     .     .   .      .     .",
        "30 Mar - 5 Apr 2026, week 14  waiting      12    12     4     7   1      1     .",
        "    waits for supplies (slate-blue cards), prints",
        "6 - 12 Apr 2026, week 15      open          3     3     .     3   .      1     .",
    ]


@pytest.mark.parametrize("state", ["open", "started", "waiting", "done", "skipped"])
def test_unfinished_is_all_but_done_and_skipped(person: Person, state: str) -> None:
    """--unfinished leaves out weeks that are done or skipped, and no others: those without photos stay."""
    wait = ["--for", "prints"] if state == "waiting" else []
    person.says("mark", "2026-W12", state, *wait)
    rest = ["2026-W11", "2026-W13", "2026-W14", "2026-W15"]
    expected = rest if state in ("done", "skipped") else sorted([*rest, "2026-W12"])
    assert names(person, "--unfinished") == expected


@pytest.mark.parametrize("state", ["open", "started", "waiting", "done", "skipped"])
def test_ready_is_what_could_be_made_tonight(person: Person, state: str) -> None:
    """--ready lists weeks that have photos, are not finished and wait for nothing."""
    wait = ["--for", "prints"] if state == "waiting" else []
    person.says("mark", "2026-W12", state, *wait)
    assert ("2026-W12" in names(person, "--ready")) == (state in ("open", "started"))
    assert "2026-W13" not in names(person, "--ready")


def test_since_and_until_take_whole_weeks(person: Person) -> None:
    """A date stands for its week at both ends."""
    assert names(person, "--since", "2026-03-22", "--until", "2026-03-30") == ["2026-W12", "2026-W13", "2026-W14"]
    assert names(person, "--since", "2026-04-13") == []
    assert "No weeks to list." in person.says("weeks", "--since", "2026-04-13")


@pytest.mark.parametrize("date", ["2026-02-30", "yesterday", "2026-W14", ""])
def test_a_date_that_is_none_is_wrong_usage(person: Person, date: str) -> None:
    """A date that does not parse or exist ends with 2 and the form to use."""
    assert "write it like 2026-04-01" in person.misuse("weeks", "--since", date)


def test_late_photos_stand_in_the_row(owner: Person, picture: Callable[..., bytes]) -> None:
    """A done week counts the photos that turned up afterwards; marking it done again takes them in."""
    owner.says("mark", "2026-W12", "done")
    put(owner.folder / "late.jpg", picture("late", "2026:03:20 09:00:00", PHONE))
    owner.says("index")
    assert owner.row("2026-W12")["late"] == 1
    assert owner.says("weeks").splitlines()[2].split()[-1] == "1"
    owner.says("mark", "2026-W12", "done")
    assert owner.row("2026-W12")["late"] == 0


def test_eight_empty_weeks_are_rows(scattered: Callable[..., Person]) -> None:
    """Up to eight weeks without photos in a row are listed one by one."""
    document = scattered("2026:01:05", "2026:03:09").json("weeks")
    assert (len(document["weeks"]), document["gaps"]) == (10, [])


def test_nine_empty_weeks_are_one_line(scattered: Callable[..., Person]) -> None:
    """More than eight weeks without photos in a row are one line that says how many, and from when to when."""
    person = scattered("2026:01:05", "2026:03:16")
    document = person.json("weeks")
    assert [row["name"] for row in document["weeks"]] == ["2026-W02", "2026-W12"]
    assert document["gaps"] == [{"first_day": "2026-01-12", "last_day": "2026-03-15", "weeks": 9}]
    assert person.says("weeks").splitlines()[2] == "    9 weeks without photos, 12 Jan 2026 - 15 Mar 2026"


def test_an_old_scan_does_not_make_a_long_table(scattered: Callable[..., Person]) -> None:
    """A dated scan from 1994 is a row, a line, and then the weeks of today."""
    lines = scattered("1994:07:06", "2026:03:30", "2026:04:06").says("weeks").splitlines()
    assert lines[1].startswith("4 - 10 Jul 1994, week 27")
    assert lines[2] == "    1,655 weeks without photos, 11 Jul 1994 - 29 Mar 2026"
    assert len(lines) == 5


def test_a_week_that_was_told_of_is_listed_wherever_it_lies(person: Person) -> None:
    """A word about a week outside the photos' span makes its row."""
    person.says("mark", "2026-W20", "waiting", "--for", "photos:Aunt")
    assert names(person)[-1] == "2026-W20"


def test_an_index_without_photos_has_no_weeks(newcomer: Person) -> None:
    """Before anything is indexed the table says that there is nothing to list."""
    newcomer.says("settings", "week.first_day", "sunday")
    assert newcomer.json("weeks")["weeks"] == []
    assert newcomer.says("weeks") == "No weeks to list.\n"


def test_the_day_may_start_later(person: Person) -> None:
    """With day.starts_at 04:00 the photo of Monday 01:30 counts in the week before."""
    person.says("settings", "day.starts_at", "04:00")
    assert (person.row("2026-W13")["photos"], person.row("2026-W14")["photos"]) == (1, 11)


def test_weeks_may_begin_on_sunday(person: Person) -> None:
    """With week.first_day sunday the rows begin on Sundays, and no photo is lost or doubled."""
    person.says("settings", "week.first_day", "sunday")
    rows = person.json("weeks")["weeks"]
    assert [row["first_day"] for row in rows] == [
        "2026-03-08", "2026-03-15", "2026-03-22", "2026-03-29", "2026-04-05", "2026-04-12"
    ]  # fmt: skip
    assert [row["photos"] for row in rows] == [5, 2, 1, 12, 2, 1]


def test_a_narrow_table_leaves_away_the_first_year(scattered: Callable[..., Person]) -> None:
    """A week over the turn of the year shows the year of its last day alone, and both where there is room."""
    person = scattered("2025:12:31")
    assert person.says("weeks").splitlines()[1].startswith("29 Dec - 4 Jan 2026, week 1")
    person.env = {"COLUMNS": "120"}
    assert person.says("weeks").splitlines()[1].startswith("29 Dec 2025 - 4 Jan 2026, week 1")


def test_left_out_photos_are_no_keepers(person: Person) -> None:
    """`keepers` counts a set once, and does not count what the person left out."""
    person.make_alike("copy", "phone/0406.jpg", "phone/0412.jpg")
    assert (person.row("2026-W15")["photos"], person.row("2026-W15")["keepers"]) == (3, 2)


@pytest.mark.parametrize("columns", ["80", "200"])
def test_no_line_is_longer_than_the_terminal(scattered: Callable[..., Person], columns: str) -> None:
    """The longest rows, of weeks over a turn of the year that wait, fit on the terminal."""
    person = scattered("2020:12:30", "2021:01:01", "2025:12:31")
    person.says("mark", "2020-W53", "waiting", "--for", "prints")
    person.env = {"COLUMNS": columns}
    assert max(map(len, person.says("weeks").splitlines())) <= int(columns)


def test_a_wide_terminal_spells_the_headings_out(person: Person) -> None:
    """Where there is room the headings are whole words."""
    person.env = {"COLUMNS": "200"}
    assert person.says("weeks").split("\n")[0].split() == [
        "week", "state", "photos", "keepers", "portrait", "landscape", "square", "doubtful", "late"
    ]  # fmt: skip


@posix_only
def test_a_reader_that_stops_early_is_no_error(person: Person) -> None:
    """`weeksheaf weeks | head -1` ends without a word on stderr."""
    run = subprocess.Popen(
        [sys.executable, "-m", "queries.cli", "--index", person.index, "weeks"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},  # so that every line finds the pipe closed
    )
    assert run.stdout
    assert run.stderr
    run.stdout.close()
    assert run.stderr.read() == b""
    run.stderr.close()
    run.wait(10)
