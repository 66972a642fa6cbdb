"""weeksheaf clock"""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from tests.queries.cli.conftest import COMPACT, PHONE, Person, put

CAMERAS = "the cameras are: 1 Lanternfish P4, 2 Tidewell TW-100 (0042)"
EXAMPLES = 'write it like +1h, -6h30m, +3d7h12m, +90s, or "2015-01-01 00:00 is 2026-03-02 18:20"'


def times(person: Person, week: str) -> dict[str, str]:
    """When the photos of a week were taken, by name."""
    return {Path(photo["path"]).name: photo["taken"] for photo in person.json("week", week)["photos"]}


def test_the_cameras_with_their_own_clocks(person: Person) -> None:
    """Numbered, with the span of their own times, the reset clock's too; photos that name none are not listed."""
    document = person.json("clock")
    assert [(row["number"], row["camera"], row["serial"], row["photos"]) for row in document["cameras"]] == [
        (1, "Lanternfish P4", "", 15),
        (2, "Tidewell TW-100", "0042", 6),
    ]
    compact = document["cameras"][1]
    assert (compact["first"], compact["last"], compact["corrections"]) == (
        "1980-01-01T00:00:00", "2026-03-13T17:45:10", []
    )  # fmt: skip
    assert person.says("clock").splitlines() == [
        "   camera           serial  photos  first        last",
        "1  Lanternfish P4               15  16 Mar 2026  12 Apr 2026",
        "2  Tidewell TW-100  0042         6  1 Jan 1980   13 Mar 2026",
        "First and last are what the cameras' own clocks say.",
        "",
        "No clock is corrected; weeksheaf clock set CAMERA SHIFT corrects one.",
    ]


def test_a_correction_moves_photos_and_says_how_many(person: Person) -> None:
    """It holds at once and stands in the list; taken back, all is as it was."""
    before = times(person, "2026-W11")
    assert person.says("clock", "set", "tw-100", "+3d7h12m", "--from", "2026-03-01").splitlines() == [
        "Corrected: Tidewell TW-100 (0042): +3 d 7 h 12 min, its own times from 1 Mar",
        "2026 on",
        "1 photo is in another week now.",
    ]
    assert times(person, "2026-W12")["DSC00015.jpg"] == "2026-03-17T00:57:10"
    assert person.says("clock").splitlines()[5:] == [
        "Corrections that hold:",
        "1  Tidewell TW-100 (0042): +3 d 7 h 12 min, its own times from 1 Mar 2026 on",
        "weeksheaf clock forget NUMBER takes one back.",
    ]
    (held,) = person.json("clock")["cameras"][1]["corrections"]
    assert {name: held[name] for name in ("number", "shift", "shift_seconds", "from", "until")} == {
        "number": 1, "shift": "+3d7h12m", "shift_seconds": 285_120, "from": "2026-03-01T00:00:00", "until": None
    }  # fmt: skip
    assert person.says("clock", "forget", "1").splitlines() == [
        "Taken back: Tidewell TW-100 (0042): +3 d 7 h 12 min, its own times from 1 Mar",
        "2026 on",
        "1 photo is in another week now.",
    ]
    assert times(person, "2026-W11") == before


def test_a_correction_says_what_the_clock_said_and_what_it_was(person: Person) -> None:
    """The two times make the shift; a span may end."""
    words = ("2", "1980-01-01 00:00 is 2026-03-30 18:20", "--until", "1981-01-01")
    document = person.json("clock", "set", *words)
    assert (document["camera"], document["weeks_changed"], document["done_weeks"]) == ("Tidewell TW-100", 1, [])
    assert times(person, "2026-W14")["reset clock.jpg"] == "2026-03-30T18:20:00"
    assert len(times(person, "2026-W11")) == 5


def test_a_done_week_is_never_touched_in_silence(person: Person) -> None:
    """The done weeks that lose or gain photos are named; the page keeps what it holds, and what is new is late."""
    person.says("mark", "2026-W11", "done")
    person.says("mark", "2026-W12", "done")
    lines = person.says("clock", "set", "tw-100", "+3d7h12m", "--from", "2026-03-01").splitlines()
    assert lines[3:] == [
        f"{days} is done and stays as made; photos late or gone: weeksheaf week {name}"
        for days, name in (("9 - 15 Mar 2026, week 11", "2026-W11"), ("16 - 22 Mar 2026, week 12", "2026-W12"))
    ]
    assert person.row("2026-W12")["late"] == 1
    assert person.json("clock", "forget", "1")["done_weeks"] == ["2026-W11", "2026-W12"]
    assert person.row("2026-W12")["late"] == 0


def test_a_shift_that_begins_with_a_minus(person: Person) -> None:
    """It is a shift and no option, with or without quotes, wherever it stands."""
    for words in (["TW-100", "-6h30m"], ["TW-100", "-6h", "30m"], ["--until", "2030-01-01", "0042", "-6h30m"]):
        assert person.json("clock", "set", *words)["shift"] == "-6h30m"
        person.says("clock", "forget", "1")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["tw-100", "1h"], f"'1h' is no shift; {EXAMPLES}; {CAMERAS}"),
        (["tw-100", "soon"], f"'soon' is no shift; {EXAMPLES}; {CAMERAS}"),
        (["2", "2015-02-30 is 2026-03-02"], f"there is no time 2015-02-30: give one that exists; {CAMERAS}"),
        (["box", "+1h"], f"no camera answers to 'box'; {CAMERAS}"),
        (["t", "+1h"], f"'t' may be several cameras; {CAMERAS}"),
        (["3", "+1h"], f"no camera answers to '3'; {CAMERAS}"),
        (["1", "+1h", "--from", "May"], "'May' is no time of a clock; write it like 2026-03-02 18:20"),
        (["1", "+99999d"], f"no clock is wrong by more than a hundred years; check the shift; {CAMERAS}"),
    ],
)  # fmt: skip
def test_what_cannot_be_told_is_refused_with_the_cameras_listed(person: Person, words: list[str], says: str) -> None:
    """One line; nothing is corrected."""
    assert person.error("clock", "set", *words) == says
    assert all(not row["corrections"] for row in person.json("clock")["cameras"])


def test_an_overlap_names_the_other_correction(person: Person) -> None:
    """With the way out."""
    person.says("clock", "set", "1", "+1h")
    person.says("clock", "set", "2", "+1h", "--until", "2026-03-12 10:00")
    assert person.error("clock", "set", "2", "-2h", "--from", "2026-03-12 09:59") == (
        "correction 2 of this camera holds from its first photo to 2026-03-12 10:00:00 already; take it back first with"
        f" weeksheaf clock forget 2, or part the two with --from and --until; {CAMERAS}"
    )
    person.says("clock", "set", "2", "-2h", "--from", "2026-03-12 10:00")


@pytest.mark.parametrize(
    "words",
    [
        ["set"],
        ["set", "1"],
        ["set", "1", "+1h", "--form", "2026-03-12"],
        ["set", "1", "+1h", "--suggested", "1"],
        ["set", "--suggested", "1", "--from", "2026-03-12"],
        ["forget"],
        ["forget", "one"],
        ["turn"],
        ["--json", "suggest"],
    ],
)
def test_wrong_usage(person: Person, words: list[str]) -> None:
    """Half a correction, two at once, or an option that there is not."""
    person.suggest(*COMPACT, 3600)
    person.misuse("clock", *words)
    assert all(not row["corrections"] for row in person.json("clock")["cameras"])


def test_an_index_of_an_older_version_is_to_be_read_anew_first(person: Person) -> None:
    """Before that nothing was asked of the clocks, and "nothing speaks against them" would mislead."""
    assert "weeksheaf index" not in person.run("clock", "suggest").stderr
    with closing(sqlite3.connect(person.index)) as connection:
        connection.execute("UPDATE file SET reader_version = 1")
        connection.commit()
    assert "first: weeksheaf index" in person.run("clock", "suggest").stderr


def test_suggestions_say_what_they_would_do_and_wait(person: Person) -> None:
    """Numbered, with camera, shift, span, grounds and effect; nothing is applied unasked."""
    person.says("mark", "2026-W12", "done")
    person.suggest(*COMPACT, 285_120, "2026-03-01T00:00:00")
    assert person.json("clock", "suggest") == {
        "suggestions": [
            {
                "number": 1,
                "camera": "Tidewell TW-100",
                "make": "Tidewell",
                "model": "TW-100",
                "serial": "0042",
                "shift": "+3d7h12m",
                "shift_seconds": 285_120,
                "from": "2026-03-01T00:00:00",
                "until": None,
                "grounds": "4 scenes that the Lanternfish P4 also shows, on 3 days, say so",
                "photos": 5,
                "weeks_changed": 1,
                "done_weeks": ["2026-W12"],
            }
        ]
    }
    assert person.says("clock", "suggest").splitlines() == [
        "1  Tidewell TW-100 (0042): +3 d 7 h 12 min, its own times from 1 Mar 2026 on",
        "   4 scenes that the Lanternfish P4 also shows, on 3 days, say so",
        "   5 photos, of which 1 changes its week; it touches a week that is done (16 -",
        "   22 Mar 2026, week 12)",
        "",
        "To apply one: weeksheaf clock set --suggested 1",
    ]
    assert person.says("clock").splitlines()[-1] == "1 clock correction is likely: weeksheaf clock suggest"
    assert len(times(person, "2026-W11")) == 5
    applied = person.json("clock", "set", "--suggested", "1")
    assert (applied["weeks_changed"], applied["done_weeks"]) == (1, ["2026-W12"])
    assert person.error("clock", "set", "--suggested", "1").startswith("there is no suggestion 1; weeksheaf clock")
    assert person.says("clock", "suggest") == (
        "Nothing speaks against any camera's clock, where you have not corrected it yourself: weeksheaf clock\n"
    )
    person.says("clock", "forget", "1")
    assert person.says("clock", "suggest") == "Nothing speaks against any camera's clock.\n"


def test_a_clock_that_goes_right_can_be_said_to(person: Person) -> None:
    """A correction by nothing is a word too."""
    lines = person.says("clock", "set", "1", "+0s").splitlines()
    assert lines == ["Corrected: Lanternfish P4: it goes right, all its photos", "No photo changes its week."]


def test_the_words_outlive_a_new_run_and_a_restore(owner: Person, newcomer: Person, tmp_path: Path) -> None:
    """A correction holds for photos that are indexed later, and comes back from a backup; restored twice, once."""
    owner.says("clock", "set", "2", "+3d7h12m", "--from", "2026-03-01")
    owner.says("clock", "set", "1", "+1h")
    owner.says("clock", "forget", "2")
    owner.says("index")
    owner.says("backup", tmp_path / "words.json")
    newcomer.says("restore", tmp_path / "words.json")
    newcomer.says("index", newcomer.folder)
    assert newcomer.says("restore", tmp_path / "words.json").startswith("0 entries restored")
    for person in (owner, newcomer):
        assert times(person, "2026-W12")["DSC00015.jpg"] == "2026-03-17T00:57:10"
        assert [len(row["corrections"]) for row in person.json("clock")["cameras"]] == [0, 1]


def test_no_photo_names_its_camera(newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]) -> None:
    """Then there is no clock to list or to correct."""
    put(tmp_path / "plain" / "a.jpg", picture("a"))
    newcomer.says("index", tmp_path / "plain")
    assert newcomer.json("clock")["cameras"] == []
    assert newcomer.says("clock") == "No photo names its camera.\n"
    assert newcomer.error("clock", "set", "1", "+1h").startswith("no photo in the index names its camera")


def test_a_camera_with_an_odd_name_breaks_no_table(
    newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]
) -> None:
    """What a file says of its camera may hold anything."""
    odd = ("Odd", "Odd \x1b[2J\nbox", "")
    put(tmp_path / "odd" / "a.jpg", picture("a", "2026:04:06 12:00:00", odd))
    put(tmp_path / "odd" / "b.jpg", picture("b", "2026:04:06 12:00:00", PHONE))
    newcomer.says("index", tmp_path / "odd")
    assert len(newcomer.says("clock").splitlines()) == 6
    assert "\x1b" not in newcomer.says("clock", "set", "odd", "+1h")


def test_a_long_correction_is_set_below_its_number(person: Person) -> None:
    """Its second line stands below the camera, so that the numbers can be read."""
    person.says("clock", "set", "0042", "-6h30m", "--from", "2026-03-12 10:15", "--until", "2026-03-13 10:15")
    lines = person.says("clock").splitlines()
    place = next(place for place, line in enumerate(lines) if line.startswith("1  Tidewell TW-100 (0042): -6 h"))
    assert lines[place + 1].startswith("   ")
