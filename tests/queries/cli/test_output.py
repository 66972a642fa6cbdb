"""How results leave the command line: JSON, tables, and names that may hold anything."""

import json
import os
import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from queries.cli import main
from queries.cli.output import columns, plural, width
from queries.cli.visible import visible
from queries.cli.wording import state_words, wait_words
from queries.week_log import Word
from tests.queries.cli.conftest import PHONE, Household, Person, posix_only, put
from tests.queries.cli.told_orders import tell_order_of

#: A byte that is no text, where the system allows it in names (macOS does not).
NO_TEXT = b"" if sys.platform == "darwin" else b"\xff"

#: What a file may be called where the system allows it: a line break, an emoji, an escape sequence, no text at all.
ODD_NAMES = (
    b"two\nlines.jpg",
    "shell 🐚.jpg".encode(),
    b"red\x1b[31m\x1b]0;title\x07.jpg",
    b"latin " + NO_TEXT + b".jpg",
    "right-to-left \u202egpj.jpg".encode(),
    b"bell\x07back\x08space\r.jpg",
    "c1 \u009b31m.jpg".encode(),
)
ESCAPES = "\x1b[31mred\x07 \u202e\u009b31m"
_CONTROL = re.compile(r"[^\x20-\x7e\n\u00a0-\U0010ffff]|[\u200b-\u200f\u2028-\u202e\u2066-\u2069\ufeff]")


def assert_harmless(text: str) -> None:
    """No control character but the end of a line, none that turns the writing direction."""
    assert _CONTROL.findall(text) == []


@pytest.fixture(scope="session")
def odd(tmp_path_factory: pytest.TempPathFactory) -> Person:
    """A person whose files have odd names, one of them unreadable, in a folder with an odd name."""
    folder = tmp_path_factory.mktemp("odd") / "ph\x1b[31mo\ntos"
    for number, name in enumerate(ODD_NAMES):
        path = folder / os.fsdecode(name)
        put(path, jpeg_at(number))
    put(folder / os.fsdecode(b"broken \x1b[32m" + NO_TEXT + b".jpg"), b"")
    put(folder / "undated \x1b[33m.jpg", jpeg_at(99, dated=False))
    put(folder / "copy \x1b[34m.jpg", jpeg_at(0))
    person = Person(tmp_path_factory.mktemp("odd index") / "index.db", Household(folder))
    person.says("index", folder)
    return person


def jpeg_at(number: int, *, dated: bool = True) -> bytes:
    from tests.queries.cli.conftest import jpeg

    return jpeg(f"odd {number}", f"2026:04:07 12:{number:02}:00" if dated else "", PHONE)


# ------------------------------------------------------------------------------------------------------- odd names


@posix_only
def test_every_odd_name_is_indexed(odd: Person) -> None:
    """Odd names are names like others: all are found, and JSON gives them back to the byte."""
    paths = [path for photo in odd.json("week", "2026-W15")["photos"] for path in photo["paths"]]
    assert {os.fsencode(Path(path).name) for path in paths} == {*ODD_NAMES, b"copy \x1b[34m.jpg"}


@posix_only
def test_json_is_plain_ascii(odd: Person) -> None:
    """The JSON document survives any pipe: it is ASCII whatever the names hold."""
    for words in (["week", "2026-W15"], ["undated"], ["unreadable"], ["devices"], ["index"]):
        assert odd.run(*words, "--json").stdout.isascii()


@posix_only
@pytest.mark.parametrize(
    "words", [["week", "2026-W15"], ["undated"], ["unreadable"], ["devices"], ["index"], ["weeks"]], ids=" ".join
)
def test_a_name_cannot_command_the_terminal(odd: Person, words: list[str]) -> None:
    """No listing lets a control character of a name through."""
    assert_harmless(odd.says(*words))


@posix_only
def test_evidence_and_errors_are_harmless_too(odd: Person, tmp_path: Path) -> None:
    """What a name holds is made visible in evidence, in a pull and in error lines."""
    for photo in odd.json("week", "2026-W15")["photos"]:
        assert_harmless(odd.says("why", photo["code"]))
    result = odd.run("pull", "2026-W15", tmp_path / "w\x1b[31m")
    assert_harmless(result.stdout)
    assert_harmless(result.stderr)
    for words in (
        ["index", f"{odd.folder}/no\x1b[31m\nfolder"],
        ["why", "no \x1b[31m\nphoto"],
        ["week", "no \x1b[31m\nweek"],
        ["restore", "no \x1b[31m\nbackup"],
        ["settings", "no \x1b[31m\nsetting"],
        ["settings", "week.first_day", "no \x1b[31m\nday"],
        ["backup", f"{odd.folder}/words.json"],
        ["pull", "2026-W15", odd.folder],
    ):
        assert_harmless(odd.error(*words))


@posix_only
def test_wrong_usage_is_harmless_too(odd: Person) -> None:
    """A pattern that the shell turns into several odd names is answered without letting them through."""
    names = sorted(str(path) for path in odd.folder.iterdir())
    for words in (
        ["why", *names], ["week", "this", *names], ["mark", "this", names[0]], [names[0]], ["weeks", names[0]],
        ["weeks", "--since", names[0]], ["weeks", f"--no\x1b[31m{names[0]}"],
    ):  # fmt: skip
        result = odd.run(*words)
        assert result.exit_code == 2
        assert_harmless(result.stderr)


def test_a_told_text_cannot_command_the_terminal(person: Person) -> None:
    """Notes and waits are shown with their escapes visible, wherever they are shown."""
    said = person.says("mark", "2026-W14", "waiting", "--for", f"supplies:{ESCAPES}", "--note", f"{ESCAPES}\nsecond")
    assert_harmless(said)
    assert_harmless(person.says("weeks"))
    page = person.says("week", "2026-W14")
    assert_harmless(page)
    assert r"\x1b[31mred\x07 \u202e\x9b31m\nsecond" in page


@posix_only
def test_a_backup_name_that_is_no_text(person: Person, tmp_path: Path) -> None:
    """A backup under a name that is no UTF-8 is written, read back and named."""
    file = tmp_path / os.fsdecode(b"words " + NO_TEXT + b"\x1b[31m.json")
    person.says("mark", "2026-W14", "started")
    assert_harmless(person.says("backup", file))
    assert person.json("backup", file)["file"] == str(file)
    assert_harmless(person.says("restore", file))


def test_camera_names_cannot_command_the_terminal(
    newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]
) -> None:
    """What a file says of its camera is foreign text: it cannot command the terminal either."""
    put(
        tmp_path / "a" / "a.jpg",
        picture("a", "2026:04:06 12:00:00", ("Evil\x1b[31m", "Evil\x1b[31m One\x07", "\x1b[2J")),
    )
    put(tmp_path / "a" / "b.jpg", picture("b", "2026\x1b[31m:04:06"))
    newcomer.says("index", tmp_path / "a")
    for words in (["devices"], ["week", "2026-W15"], ["undated"], ["why", tmp_path / "a" / "b.jpg"]):
        assert_harmless(newcomer.says(*words))


# --------------------------------------------------------------------------------------------------------- layout


@posix_only
@pytest.mark.parametrize("columns_", ["80", "200"])
def test_tables_fit_the_terminal(person: Person, columns_: str) -> None:
    """For an ordinary library no row of any table is longer than the terminal is wide."""
    person.env = {"COLUMNS": columns_}
    person.says("mark", "2026-W14", "waiting", "--for", "prints", "--for", "photos:Aunt", "--note", "asked her")
    person.says(
        "note", "2026-W14", "The ferry did not sail, so all of us stayed at the harbour and learned to splice. " * 9
    )
    tell_order_of(person)
    code = person.code("phone/0406.jpg")
    for words in (
        ["weeks"],
        ["week", "2026-W14"],
        ["week", "2026-W15"],
        ["undated"],
        ["settings"],
        ["why", code],
        ["clock"],
        ["note", "2026-W14"],
        ["order"],
    ):
        lines = [
            line
            for line in person.says(*words).splitlines()
            if str(person.folder) not in line and str(person.index) not in line
        ]
        rows = [line for line in lines if not is_sentence(line)]
        assert max(map(len, rows)) <= int(columns_), words


def is_sentence(line: str) -> bool:
    """The head of a week, which tells all that it waits for, and the remarks on a photo may be of any length."""
    return "(2026-W" in line or line.startswith(" " * 9)


def test_a_narrow_terminal_counts_as_sixty_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    """Below sixty columns tables are set as for sixty."""
    monkeypatch.setenv("COLUMNS", "20")
    assert width() == 60


@settings(deadline=None)
@given(st.lists(st.tuples(st.text(), st.text(), st.text()), min_size=1))
def test_columns_stand_under_each_other(rows: list[tuple[str, str, str]]) -> None:
    """Every cell of a column begins, or for numbers ends, in the same place, and no cell is cut."""
    widths = [max(len(row[place]) for row in rows) for place in range(3)]
    for line, row in zip(columns(rows, numbers=[1]), rows, strict=True):
        full = line.ljust(sum(widths) + 4)
        first, second = widths[0], widths[0] + 2 + widths[1]
        assert full[: len(row[0])] == row[0] or row[0].rstrip() == line
        assert full[second - len(row[1]) : second].rstrip() == row[1].rstrip()
        assert first <= second


@pytest.mark.parametrize(("count", "words"), [(0, "0 photos"), (1, "1 photo"), (2, "2 photos"), (1204, "1,204 photos")])
def test_plural(count: int, words: str) -> None:
    """A count reads as people write it."""
    assert plural(count, "photo") == words
    assert plural(count, "copy", "copies") == words.replace("photos", "copies").replace("photo", "copy")


@settings(deadline=None)
@given(st.text(st.characters(exclude_categories=())))
def test_visible_text_is_harmless(text: str) -> None:
    """Whatever a text holds, lone surrogates included, it comes out printable, and twice is as once."""
    shown = visible(text)
    assert_harmless(shown)
    assert "\n" not in shown
    assert visible(shown) == shown
    shown.encode()


@settings(deadline=None)
@given(st.text(st.characters(categories=["L", "N", "P", "S"])))
def test_visible_leaves_ordinary_text_alone(text: str) -> None:
    """Letters of all languages, digits, signs and emoji are shown as they are."""
    assert visible(text) == text


@pytest.mark.parametrize(
    ("name", "shown"),
    [("a\nb", r"a\nb"), ("\x1b[31m", r"\x1b[31m"), (os.fsdecode(b"\xff"), r"\xff"), ("4\u202fPM", "4\u202fPM")],
)
def test_visible_escapes(name: str, shown: str) -> None:
    """Escapes are the ones that programmers know; the narrow space in screenshot names is a space."""
    assert visible(name) == shown


@pytest.mark.parametrize(
    ("waits", "words"),
    [
        ((), ""),
        (("prints",), "prints"),
        (("supplies:slate-blue cards", "prints"), "supplies (slate-blue cards), prints"),
        (("photos:Aunt: the ferry",), "photos from Aunt: the ferry"),
    ],
)
def test_waits_in_words(waits: tuple[str, ...], words: str) -> None:
    """What is waited for reads as a list."""
    assert wait_words(waits) == words
    assert state_words(Word("", "", "waiting" if waits else "open", waits, "")) == (
        f"waiting for {words}" if waits else "open"
    )


def test_every_command_that_reports_gives_one_document(person: Person, tmp_path: Path) -> None:
    """--json prints exactly one JSON document and nothing else on stdout, for every command that has it."""
    asked: dict[str, list[str | Path]] = {
        "index": [],
        "weeks": [],
        "week": ["2026-W14"],
        "alike": [],
        "keep": [person.code("phone/0406.jpg")],
        "leave": [person.code("phone/0406.jpg"), "--forget"],
        "mark": ["2026-W14", "done"],
        "pull": ["2026-W14", tmp_path / "w14"],
        "why": [person.code("phone/0406.jpg")],
        "undated": [],
        "assign": [person.code("phone/0406.jpg"), "2026-W15"],
        "clock": [],
        "fit": ["2026-W14"],
        "prints": ["--calibrate", tmp_path / "ruler"],
        "note": ["2026-W14", "The ferry was late."],
        "order": [],
        "reprint": ["o01-01"],
        "sleeves": [],
        "unreadable": [],
        "devices": [],
        "settings": [],
        "backup": [tmp_path / "words.json"],
        "restore": [tmp_path / "words.json"],
    }
    tell_order_of(person, "sent")
    for name, words in asked.items():
        result = person.run(name, *words, "--json")
        assert result.exit_code == 0, name
        assert isinstance(json.loads(result.stdout), dict), name
    with_json = {
        name
        for name in main.list_commands(None)  # type: ignore[arg-type]
        if "--json" in CliRunner().invoke(main, [name, "--help"]).stdout
    }
    assert with_json == asked.keys()
