"""weeksheaf week"""

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from queries.cli import week_page_words, wording
from queries.cli.session import Session
from queries.photos import Photo
from queries.settings import Settings
from queries.week_page import WeekPage
from queries.weeks import WeekRule
from tests.queries.cli.conftest import PHONE, Person, put

PHOTO = {
    "path", "paths", "key", "code", "week", "taken", "precision", "source", "doubtful", "shape", "width", "height",
    "orientation", "camera", "alike", "keeper",
}  # fmt: skip


def photo(person: Person, week: str, name: str) -> dict[str, Any]:
    photos = person.json("week", week)["photos"]
    found: dict[str, Any] = next(photo for photo in photos if Path(photo["path"]).name == name)
    return found


def test_a_photo_has_the_fields_of_the_contract(person: Person) -> None:
    """Every photo carries what scripts rely on; its path is absolute, its times are ISO 8601."""
    found = photo(person, "2026-W14", "turned 6.jpg")
    path = str(person.folder / "phone" / "turned 6.jpg")
    assert len(found["key"]) == 32
    assert {name: found[name] for name in PHOTO - {"key"}} == {
        "path": path,
        "paths": [path],
        "code": found["key"][:5],
        "week": "2026-W14",
        "taken": "2026-03-31T09:06:00",
        "precision": "second",
        "source": "exif original",
        "doubtful": False,
        "shape": "portrait",
        "width": 72,
        "height": 96,
        "orientation": 6,
        "camera": "Lanternfish P4",
        "alike": None,
        "keeper": True,
    }
    assert found["choice"] is None


def test_the_document_of_a_week(person: Person) -> None:
    """A week has its name, first and last day, state, seven days with their photos, and its history."""
    document = person.json("week", "2026-W14")
    assert {name: document[name] for name in ("name", "first_day", "last_day", "state", "waiting_for", "log")} == {
        "name": "2026-W14",
        "first_day": "2026-03-30",
        "last_day": "2026-04-05",
        "state": "open",
        "waiting_for": [],
        "log": [],
    }
    assert [(day["day"], day["photos"]) for day in document["days"]] == [
        ("2026-03-30", 1),
        ("2026-03-31", 8),
        ("2026-04-01", 1),
        ("2026-04-02", 1),
        ("2026-04-03", 1),
        ("2026-04-04", 0),
        ("2026-04-05", 0),
    ]


@pytest.mark.parametrize("turn", range(1, 9))
def test_the_shape_is_that_of_the_picture_as_displayed(person: Person, turn: int) -> None:
    """Orientation 5 to 8 turn a landscape file into a portrait picture (Exif 2.32, tag 0x0112)."""
    found = photo(person, "2026-W14", f"turned {turn}.jpg")
    turned = turn >= 5
    assert (found["shape"], found["width"], found["height"], found["orientation"]) == (
        ("portrait", 72, 96, turn) if turned else ("landscape", 96, 72, turn)
    )


def test_a_square_is_neither_portrait_nor_landscape(person: Person) -> None:
    """Sides within three percent make a square."""
    assert photo(person, "2026-W14", "0403 square.jpg")["shape"] == "square"


def test_a_photo_in_two_places_is_one_photo(person: Person) -> None:
    """The same picture in two folders is one row with two paths."""
    found = [photo for photo in person.json("week", "2026-W12")["photos"] if photo["taken"] == "2026-03-16T08:00:00"]
    assert len(found) == 1
    assert sorted(found[0]["paths"]) == [
        str(person.folder / "backup of phone" / "0316.jpg"),
        str(person.folder / "phone" / "0316.jpg"),
    ]
    assert found[0]["path"] == found[0]["paths"][0]


def test_photos_stand_in_the_order_they_were_taken(person: Person) -> None:
    """Photos come by their time, those known by day only on their day."""
    taken = [photo["taken"] for photo in person.json("week", "2026-W14")["photos"]]
    assert taken == sorted(taken)
    assert taken[9:11] == ["2026-04-01", "2026-04-02"]


@pytest.mark.parametrize(
    "text", ["2026-W14", "2026-w14", "2026W14", "2026-03-30", "2026-04-05", " 2026-04-01 "], ids=repr
)
def test_the_forms_of_a_week(person: Person, text: str) -> None:
    """A week is its name or any date in it."""
    assert person.json("week", text)["name"] == "2026-W14"


def test_this_and_last_week(person: Person) -> None:
    """`this` and `last` count from today, in any case."""
    assert person.json("week", "this")["name"] == "2026-W17"
    assert person.json("week", "Last")["name"] == "2026-W16"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("2026-W54", "2026 has 53 weeks"),
        ("2026-W00", "2026 has 53 weeks"),
        ("2025-W53", "2025 has 52 weeks, and the last is 2025-W52"),
        ("2026-02-30", "there is no date 2026-02-30"),
        ("2026-13-01", "there is no date 2026-13-01"),
        ("next", "'next' is not a week"),
        ("W14", "'W14' is not a week"),
        ("14", "'14' is not a week"),
        ("", "'' is not a week"),
        ("1.4.2026", "'1.4.2026' is not a week"),
        ("2026-W14\n2026-W15", "is not a week"),
        ("0000-W01", "there is no year 0000"),
        ("9999-12-31", "too near the edge of the calendar"),
    ],
)
@pytest.mark.parametrize("command", ["week", "mark", "pull"])
def test_a_week_that_is_none(person: Person, command: str, text: str, says: str) -> None:
    """A week that does not parse or exist is named, with what would be right."""
    more = {"mark": ["done"], "pull": ["w"], "week": []}[command]
    assert says in person.error(command, text, *more)


def test_the_last_week_of_a_short_year_follows_the_persons_calendar(person: Person) -> None:
    """Whether there is a week 53 depends on the person's own rule: 2025 has one where weeks begin on Sunday."""
    person.says("settings", "week.first_day", "sunday")
    assert person.json("week", "2025-W53")["first_day"] == "2025-12-28"  # CLDR weekData for PT, by UTS #35


def test_a_week_without_photos_can_be_shown(person: Person) -> None:
    """A week with no photos has a page that says so."""
    assert person.says("week", "2026-W13") == "23 - 29 Mar 2026, week 13 (2026-W13): open, 0 photos\n"
    assert person.json("week", "1999-W01")["photos"] == []


def test_the_page_as_a_person_reads_it(person: Person) -> None:
    """Photos stand under their days with code, time, shape, camera and name; doubts and copies are said."""
    assert person.says("week", "2026-W15").splitlines() == [
        "6 - 12 Apr 2026, week 15 (2026-W15): open, 3 photos",
        "",
        "Mon 6 Apr",
        f"  {person.code('phone/0406.jpg')}  07:10  landscape  Lanternfish P4  0406.jpg",
        "",
        "Wed 8 Apr",
        *_doubtful_lines(person),
        "",
        "Sun 12 Apr",
        f"  {person.code('phone/0412.jpg')}  21:00  landscape  Lanternfish P4  0412.jpg",
    ]
    copy = str(person.folder / "phone" / "0316.jpg")
    assert f"         also at {copy}\n" in person.says("week", "2026-W12")


def _doubtful_lines(person: Person) -> list[str]:
    """The file time is shown in the computer's zone."""
    found = photo(person, "2026-W15", "nothing known.jpg")
    return [
        f"  {found['code']}  {found['taken'][11:16]}  landscape  -               nothing known.jpg",
        "         date doubtful: only the file's own time is known, which copying changes",
    ]


def test_a_roomy_page_shows_sizes(person: Person) -> None:
    """Where there is room the size of each picture is shown, in pixels as displayed."""
    person.env = {"COLUMNS": "200"}
    assert "portrait   72 x 96  Lanternfish P4  turned 8.jpg" in person.says("week", "2026-W14")


def test_the_history_is_shown(person: Person) -> None:
    """Everything told of a week is shown with when and what, oldest first; the last word holds."""
    person.says("mark", "2026-W13", "started", "--note", "sorted the cards")
    person.says("mark", "2026-W13", "waiting", "--for", "photos:Aunt", "--for", "words")
    document = person.json("week", "2026-W13")
    assert (document["state"], document["waiting_for"]) == ("waiting", ["photos:Aunt", "words"])
    assert [(word["state"], word["waiting_for"], word["note"]) for word in document["log"]] == [
        ("started", [], "sorted the cards"),
        ("waiting", ["photos:Aunt", "words"], ""),
    ]
    lines = person.says("week", "2026-W13").splitlines()
    assert lines[0] == "23 - 29 Mar 2026, week 13 (2026-W13): waiting for photos from Aunt, words; 0 photos"
    assert lines[1].endswith("  started  sorted the cards")
    assert lines[2].endswith("  waiting for photos from Aunt, words")


def test_what_changed_since_the_week_was_done(owner: Person, picture: Callable[..., bytes]) -> None:
    """Photos that came later, and photos of the page that are gone, are both shown."""
    owner.says("mark", "2026-W12", "done")
    (owner.folder / "phone" / "0318.jpg").unlink()
    put(owner.folder / "phone" / "0319.jpg", picture("0319", "2026:03:19 08:00:00", PHONE))
    owner.says("index")
    late = owner.code("phone/0319.jpg")
    document = owner.json("week", "2026-W12")
    assert (document["state"], document["late"], len(document["gone"])) == ("done", [late], 1)
    text = owner.says("week", "2026-W12")
    assert f"  not on the done page: {late}\n" in text
    assert "  1 photo of the done page no longer in this week or library\n" in text


def test_the_last_whole_week_of_the_calendar(person: Person) -> None:
    """The edge of the calendar is a week like any other."""
    person.says("settings", "week.first_day", "friday")
    assert person.json("week", "9999-12-25")["first_day"] == "9999-12-24"


def _ordinary(name: str, clock: str) -> Photo:
    return Photo(
        key="3f9a2" + "0" * 27, code="3f9a2", path=name, paths=(name,), size=1, mtime_ns=0, format="JPEG",
        taken=f"2026-03-30{clock}", fraction="", precision="second" if clock else "day", zone=None,
        source="exif original", doubtful=False, reason="", shape="landscape", width=4032, height=3024, orientation=1,
        camera="Lanternfish P4 Pro", damage=None, placed=f"2026-03-30{clock}",
    )  # fmt: skip


@pytest.mark.parametrize("columns", ["80", "200"])
def test_no_row_is_longer_than_the_terminal(monkeypatch: pytest.MonkeyPatch, columns: str) -> None:
    """Phone photos with the names that phones give, and one known by day only, fit on the terminal."""
    monkeypatch.setenv("COLUMNS", columns)
    photos = [_ordinary("PXL_20260330_091520123.jpg", "T09:15:20"), _ordinary("IMG-20260330-WA0003.jpg", "")]
    page = WeekPage(WeekRule().week_of(date(2026, 3, 30)), photos)
    assert max(map(len, week_page_words.lines(page, Settings({})))) <= int(columns)


def test_a_photo_between_two_others_is_shown_as_a_guess() -> None:
    """Its day is that of the earlier neighbour, and nothing says that it is its own."""
    photo = replace(_ordinary("HRBR0007.JPG", ""), precision="between")
    assert (wording.clock_words(photo), wording.taken_words(photo)) == ("about then", "about Mon 30 Mar 2026")


def test_this_week_begins_when_the_persons_day_does(person: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """At 01:30 on a Monday, with days that start at 04:00, it is still the week before."""
    person.says("settings", "day.starts_at", "04:00")
    monkeypatch.setattr(Session, "now", datetime(2026, 4, 20, 1, 30, tzinfo=UTC))
    assert person.json("week", "this")["name"] == "2026-W16"
    monkeypatch.setattr(Session, "now", datetime(2026, 4, 20, 4, 0, tzinfo=UTC))
    assert person.json("week", "this")["name"] == "2026-W17"


def test_a_day_lived_in_two_zones_shows_them() -> None:
    """There the clocks do not tell the order; on other days no zone stands beside the time."""
    home, abroad, later = (
        replace(_ordinary("a.jpg", "T00:00:00"), zone=zone, taken=time, placed=time)
        for time, zone in (
            ("2026-03-30T23:30:00", "+02:00"),
            ("2026-03-30T17:45:00", "-05:00"),
            ("2026-03-31T09:00:00", "-05:00"),
        )
    )
    page = list(
        week_page_words.lines(WeekPage(WeekRule().week_of(date(2026, 3, 30)), [home, abroad, later]), Settings({}))
    )
    assert [line.split("  ")[2] for line in page if "landscape" in line] == ["23:30 +02:00", "17:45 -05:00", "09:00"]
