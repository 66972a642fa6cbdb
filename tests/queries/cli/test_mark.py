"""weeksheaf mark"""

import sqlite3
from collections.abc import Callable
from contextlib import closing

import pytest

from tests.queries.cli.conftest import PHONE, Person, put

STATES = ["open", "started", "waiting", "done", "skipped"]


@pytest.mark.parametrize("state", STATES)
def test_each_state_is_kept(person: Person, state: str) -> None:
    """A week is what it was last told to be."""
    person.says("mark", "2026-W12", "started")
    person.says("mark", "2026-W12", state, *(["--for", "prints"] if state == "waiting" else []))
    assert person.row("2026-W12")["state"] == state


def test_the_answer_names_the_week_and_the_state(person: Person) -> None:
    """The person reads back what was understood, days first."""
    answer = "30 Mar - 5 Apr 2026, week 14 (2026-W14): {}; 12 photos in this week\n"
    assert person.says("mark", "2026-W14", "Done") == answer.format("done")
    assert person.says("mark", "2026-W14", "waiting", "--for", "slate-blue cards") == (
        answer.format("waiting for supplies (slate-blue cards)")
    )
    document = person.json("mark", "2026-W14", "done")
    assert {name: document[name] for name in ("name", "first_day", "last_day", "state", "waiting_for")} == {
        "name": "2026-W14",
        "first_day": "2026-03-30",
        "last_day": "2026-04-05",
        "state": "done",
        "waiting_for": [],
    }


@pytest.mark.parametrize(
    ("told", "kept"),
    [
        ("slate-blue cards", "supplies:slate-blue cards"),
        ("supplies:slate-blue cards", "supplies:slate-blue cards"),
        ("supplies: slate-blue cards ", "supplies:slate-blue cards"),
        ("supplies", "supplies"),
        ("prints", "prints"),
        ("Prints:second try", "prints:second try"),
        ("photos:Aunt", "photos:Aunt"),
        ("PHOTOS", "photos"),
        ("words", "words"),
        ("cards: blue, 3x4", "supplies:cards: blue, 3x4"),
        ("photosynthesis stickers", "supplies:photosynthesis stickers"),
        ("  brads  ", "supplies:brads"),
        ("stickers 🐟", "supplies:stickers 🐟"),
    ],
)
def test_what_is_waited_for(person: Person, told: str, kept: str) -> None:
    """The four kinds are understood in any case; a plain text counts as supplies."""
    person.says("mark", "2026-W12", "waiting", "--for", told)
    assert person.row("2026-W12")["waiting_for"] == [kept]


def test_several_waits_keep_their_order(person: Person) -> None:
    """A week may wait for several things; the same one twice is one."""
    words = [word for wait in ("words", "prints", "prints", "cards") for word in ("--for", wait)]
    person.says("mark", "2026-W12", "waiting", *words)
    assert person.row("2026-W12")["waiting_for"] == ["words", "prints", "supplies:cards"]


def test_waiting_says_for_what(person: Person) -> None:
    """`waiting` without --for is refused, and nothing is told."""
    assert "--for" in person.misuse("mark", "2026-W12", "waiting")
    assert person.json("week", "2026-W12")["log"] == []


@pytest.mark.parametrize("state", ["open", "started", "done", "skipped"])
def test_only_a_waiting_week_waits(person: Person, state: str) -> None:
    """--for with another state is refused."""
    assert "only a waiting week" in person.misuse("mark", "2026-W12", state, "--for", "prints")


@pytest.mark.parametrize("wait", ["", "  ", ":", " : "], ids=repr)
def test_an_empty_wait_is_refused(person: Person, wait: str) -> None:
    """A wait that says nothing is wrong usage, answered with an example."""
    assert "slate-blue cards" in person.misuse("mark", "2026-W12", "waiting", "--for", wait)


@pytest.mark.parametrize("state", ["finished", "", "DONE!", "waiting for"])
def test_a_state_that_does_not_exist(person: Person, state: str) -> None:
    """Another state is wrong usage; the five are named, and nothing is told."""
    message = person.misuse("mark", "2026-W12", state)
    assert all(state in message for state in STATES)
    assert person.json("week", "2026-W12")["log"] == []


def test_a_week_without_photos_can_be_marked(person: Person) -> None:
    """Marking works for weeks with no photos, inside the span and far outside."""
    for week in ("2026-W13", "1999-W30"):
        person.says("mark", week, "skipped", "--note", "no film")
        assert person.row(week)["state"] == "skipped"


def test_marking_needs_an_index(newcomer: Person) -> None:
    """Without an index marking says how to make one, and makes none."""
    assert newcomer.error("mark", "2026-W12", "done") == (
        f"there is no index at {newcomer.index}; make one with: weeksheaf index FOLDER (a folder that holds photos)"
    )
    assert not newcomer.index.exists()


def test_a_later_word_leaves_the_earlier_ones(person: Person) -> None:
    """The log is append-only: what was told before is still there."""
    for state in ("started", "done", "open"):
        person.says("mark", "2026-W12", state)
    assert [word["state"] for word in person.json("week", "2026-W12")["log"]] == ["started", "done", "open"]


def test_done_takes_the_weeks_photos_at_that_time(person: Person) -> None:
    """Marking a week done says how many photos its list holds."""
    assert person.json("mark", "2026-W14", "done")["photos"] == 12


def test_done_again_takes_late_photos_in(owner: Person, picture: Callable[..., bytes]) -> None:
    """Late photos are on the page once the week is marked done again; the earlier list stays as it was."""
    owner.says("mark", "2026-W12", "done")
    put(owner.folder / "late.jpg", picture("late", "2026:03:20 09:00:00", PHONE))
    owner.says("index")
    assert owner.json("week", "2026-W12")["late"] == [owner.code("late.jpg")]
    assert owner.json("mark", "2026-W12", "done")["photos"] == 4
    assert owner.json("week", "2026-W12")["late"] == []
    assert owner.json("index")["late"] == 0
    with closing(sqlite3.connect(owner.index)) as connection:
        lists = connection.execute("SELECT count(*) FROM week_holding GROUP BY log_uuid ORDER BY 1").fetchall()
    assert lists == [(3,), (4,)]


@pytest.mark.parametrize("state", ["open", "started", "waiting", "skipped"])
def test_only_a_done_week_has_late_photos(owner: Person, picture: Callable[..., bytes], state: str) -> None:
    """A week that was done and is opened again has nothing late."""
    owner.says("mark", "2026-W12", "done")
    put(owner.folder / "late.jpg", picture("late", "2026:03:20 09:00:00", PHONE))
    owner.says("index")
    owner.says("mark", "2026-W12", state, *(["--for", "prints"] if state == "waiting" else []))
    assert owner.row("2026-W12")["late"] == 0
    assert owner.json("week", "2026-W12")["late"] == []


@pytest.mark.parametrize("told", [["--note", "\udcff"], ["--for", "supplies:\udcff"], ["--for", "\ud800"]])
def test_bytes_that_are_no_text_are_refused(person: Person, told: list[str]) -> None:
    """What no backup could bring back is refused before it is told."""
    wait = ["waiting"] if told[0] == "--for" else ["started"]
    assert "bytes that are no text" in person.misuse("mark", "2026-W12", *wait, *told)
    assert person.json("week", "2026-W12")["log"] == []


def test_this_week_is_marked_by_the_persons_calendar(person: Person) -> None:
    """`last` is the week before today's, by the person's own first day."""
    person.says("mark", "last", "started")
    assert person.row("2026-W16")["state"] == "started"


def test_a_note_may_hold_anything(person: Person) -> None:
    """Quotes, line breaks and emoji in a note come back as they were told."""
    note = 'the "blue" one\'s\nleft over 🐚'
    person.says("mark", "2026-W12", "started", "--note", note)
    assert person.json("week", "2026-W12")["log"][0]["note"] == note
