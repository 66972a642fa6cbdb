"""weeksheaf note"""

import json
from collections.abc import Sequence

import pytest
from click.testing import CliRunner, Result

from queries.cli import main
from tests.queries.cli.conftest import Person
from tests.queries.cli.test_output import assert_harmless

FERRY = "The ferry did not sail, so all of us stayed at the harbour and learned to splice."
HEAD = "30 Mar - 5 Apr 2026, week 14 (2026-W14): "


def piped(person: Person, text: bytes, *words: str) -> Result:
    """The command with a text on standard input."""
    asked = ["--index", str(person.index), *words]
    return CliRunner().invoke(main, asked, input=text, prog_name="weeksheaf", catch_exceptions=False)


def texts(person: Person) -> Sequence[tuple[int, str | None, str]]:
    notes = person.json("note", "2026-W14")["notes"]
    return [(note["number"], note["day"], note["text"]) for note in notes]


def test_notes_are_kept_and_listed(person: Person) -> None:
    """Numbered, the week's own first, each whole; `week` shows the beginning of each."""
    assert person.says("note", "2026-W14", "Snow at last. And fog.", "--day", "wed") == (
        f"{HEAD}note 1 kept, of Wed 1 Apr: 5 words\n"
    )
    assert person.says("note", "2026-04-01", FERRY) == f"{HEAD}note 1 kept, of the week: 17 words\n"
    assert person.says("note", "2026-W14").splitlines() == [
        f"{HEAD}2 notes",
        "  1  the week:",
        "     The ferry did not sail, so all of us stayed at the harbour and learned to",
        "     splice.",
        "  2  Wed 1 Apr:",
        "     Snow at last. And fog.",
    ]
    assert texts(person) == [(1, None, FERRY), (2, "2026-04-01", "Snow at last. And fog.")]
    assert person.says("week", "2026-W14").splitlines()[1:3] == [
        "  note 1, the week: The ferry did not sail, so all of us stayed at the harbou...",
        "  note 2, Wed 1 Apr: Snow at last. And fog.",
    ]
    assert person.json("week", "2026-W14")["notes"] == [
        {"day": None, "text": FERRY}, {"day": "2026-04-01", "text": "Snow at last. And fog."}
    ]  # fmt: skip


def test_a_week_without_notes(person: Person) -> None:
    """It says how to keep one."""
    assert person.says("note", "2026-W15").splitlines()[0].endswith("(2026-W15): no notes")
    assert 'weeksheaf note 2026-W15 "TEXT"' in person.says("note", "2026-W15")
    document = person.json("note", "2026-W15")
    assert (document["notes"], document["told"], document["taken_back"]) == ([], None, None)


def test_a_note_is_taken_back_by_its_number(person: Person) -> None:
    """The others close up; one that is not there is named with those that are."""
    for text in ("One.", "Two.", "Three."):
        person.says("note", "2026-W14", text)
    assert person.says("note", "2026-W14", "--take-back", "2").splitlines() == [
        f"{HEAD}note 2 is taken back, of the week:", "     Two."
    ]  # fmt: skip
    assert texts(person) == [(1, None, "One."), (2, None, "Three.")]
    assert person.json("note", "2026-W14", "--take-back", "1")["taken_back"] == {"day": None, "text": "One."}
    assert "note 1 alone" in person.error("note", "2026-W14", "--take-back", "2")
    assert "no notes" in person.error("note", "2026-W15", "--take-back", "1")


def test_a_long_text_comes_in_by_a_pipe(person: Person) -> None:
    """Paragraphs part at line breaks of any system; 20,000 letters are kept and shown in full."""
    story = " ".join(f"word{number}" for number in range(2500))
    result = piped(person, f"\ufeffFirst.\r\n\r\n{story}\r\n".encode(), "note", "2026-W14", "-")
    assert result.stdout == f"{HEAD}note 1 kept, of the week: 2,501 words in 2 paragraphs\n"
    assert texts(person) == [(1, None, f"First.\n\n{story}")]
    assert person.says("note", "2026-W14").split()[-2500:] == story.split()
    assert max(map(len, person.says("note", "2026-W14").splitlines())) <= 80
    assert len(person.says("week", "2026-W14").splitlines()[1]) <= 80
    person.says("note", "2026-W15", "x" * 20_000)
    assert max(map(len, person.says("note", "2026-W15").splitlines())) <= 80


@pytest.mark.parametrize(
    ("text", "code", "says"), [(b"\xff\xfe", 2, "no text"), (b" \n", 1, "empty"), (b"", 1, "empty")]
)
def test_a_pipe_with_nothing_to_keep(person: Person, text: bytes, code: int, says: str) -> None:
    """Bytes that are no text, and blanks, are refused."""
    result = piped(person, text, "note", "2026-W14", "-")
    assert (result.exit_code, result.stdout) == (code, "")
    assert says in result.stderr.splitlines()[-1]


def test_a_note_of_any_letters(person: Person) -> None:
    """Emoji and writing from right to left are kept as they are, and cannot turn the terminal round."""
    odd = "Семья 👩‍👩‍👧 at the pier, \u202eשלום, ﷽, ça va, 𝔸"
    person.says("note", "2026-W14", odd)
    assert texts(person) == [(1, None, odd)]
    for words in (["note", "2026-W14"], ["week", "2026-W14"], ["note", "2026-W14", "--take-back", "1"]):
        assert_harmless(person.says(*words))


def test_a_done_week_takes_notes(person: Person) -> None:
    """It is said that its cards stay as they are."""
    person.says("mark", "2026-W14", "done")
    assert person.says("note", "2026-W14", "One.").splitlines()[1] == (
        "The week is done: its cards stay as they were made."
    )
    assert person.json("note", "2026-W14")["is_done"] is True


def test_notes_follow_the_week_s_start(person: Person) -> None:
    """Weeks that begin on Sunday show what was told when they began on Monday, and are told more."""
    person.says("note", "2026-W14", "told from Monday on", "--day", "sunday")
    person.says("settings", "week.first_day", "sunday")
    person.says("note", "2026-03-30", "told from Sunday on", "--day", "sunday")
    notes = person.json("note", "2026-03-30")["notes"]
    assert [(note["day"], note["text"]) for note in notes] == [
        ("2026-03-29", "told from Sunday on"), ("2026-04-05", "told from Monday on")
    ]  # fmt: skip
    person.says("note", "2026-03-30", "--take-back", "2")
    person.says("settings", "week.first_day", "monday")
    assert texts(person) == [(1, "2026-03-29", "told from Sunday on")]


def test_notes_come_back_from_a_backup(person: Person, newcomer: Person) -> None:
    """Those that hold and those taken back, once."""
    person.says("note", "2026-W14", "One.")
    person.says("note", "2026-W14", "Two.", "--day", "mon")
    person.says("note", "2026-W14", "--take-back", "1")
    file = person.index.with_name("words.json")
    person.says("backup", file)
    newcomer.says("restore", file)
    assert newcomer.json("restore", file)["added"] == 0
    assert texts(newcomer) == texts(person) == [(1, "2026-03-30", "Two.")]
    assert len(json.loads(file.read_text())["words"]["note_log"]) == 3


def test_a_day_of_another_week(person: Person) -> None:
    """It is refused, and nothing is kept."""
    assert "is no day of 30 Mar - 5 Apr 2026" in person.error("note", "2026-W14", "x", "--day", "2026-04-06")
    assert texts(person) == []


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["2026-W14", "x", "--take-back", "1"], "without a TEXT"),
        (["2026-W14", "--day", "mon"], "goes with a TEXT"),
        (["2026-W14", "--day", "mon", "--take-back", "1"], "goes with a TEXT"),
        (["2026-W14", "--take-back", "0"], "--take-back"),
        (["2026-W14", "two", "words"], "unexpected extra argument"),
        (["2026-W14", "half \ud83d"], "no text"),
        ([], "WEEK"),
    ],
)
def test_wrong_usage(person: Person, words: list[str], says: str) -> None:
    """What goes together is said."""
    assert says in person.misuse("note", *words)
