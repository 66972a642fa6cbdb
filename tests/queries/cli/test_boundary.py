"""The command group: help, loading, the one place where errors become lines, and the progress line."""

import io
import os
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from indexer.errors import WeeksheafError
from indexer.scan import Progress
from queries.cli import COMMANDS, main
from queries.cli.progress_line import ProgressLine, progress_words
from tests.queries.cli.conftest import Person, posix_only

SLOW = ("PIL", "numpy", "scipy", "exifread", "sqlite_utils", "pillow_heif", "imagehash", "multiprocessing")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_says_what_it_does(name: str) -> None:
    """--help works without an index, shows the usage, a sentence, and a line for every option."""
    for flag in ("--help", "-h"):
        result = CliRunner().invoke(main, [name, flag], prog_name="weeksheaf")
        assert (result.exit_code, result.stderr) == (0, "")
        usage, _, rest = result.stdout.partition("\n")
        assert usage.startswith(f"Usage: weeksheaf {name}")
        assert rest.split("\n\n")[0].strip().endswith(".")
    command = main.get_command(None, name)  # type: ignore[arg-type]
    assert command
    assert all(option.help for option in command.params if isinstance(option, click.Option))


def test_the_list_of_commands_is_whole_sentences() -> None:
    """`weeksheaf --help` shows every command with what it does, none cut short."""
    text = CliRunner().invoke(main, ["--help"], prog_name="weeksheaf", env={"COLUMNS": "80"}).stdout
    _, _, listed = text.partition("Commands:\n")
    assert [line.split()[0] for line in listed.splitlines()] == list(COMMANDS)
    assert "..." not in listed
    assert max(map(len, text.splitlines())) <= 80


def test_without_a_command_the_help_is_shown() -> None:
    """`weeksheaf` alone shows how it is used."""
    result = CliRunner().invoke(main, [], prog_name="weeksheaf")
    assert result.exit_code == 2
    assert "Commands:" in result.output


def test_the_version() -> None:
    """--version names the tool and a number."""
    result = CliRunner().invoke(main, ["--version"], prog_name="weeksheaf")
    assert result.exit_code == 0
    assert result.stdout.startswith("weeksheaf, version ")


def test_the_index_is_named_by_option_before_environment(person: Person, tmp_path: Path) -> None:
    """--index wins over WEEKSHEAF_INDEX, which wins over the default."""
    other = tmp_path / "other.db"
    env = {"WEEKSHEAF_INDEX": str(other)}
    assert f"no index at {other}" in CliRunner().invoke(main, ["weeks"], env=env).stderr
    result = CliRunner().invoke(main, ["--index", str(person.index), "weeks"], env=env)
    assert result.exit_code == 0


@pytest.mark.parametrize("variable", ["", None], ids=["empty", "unset"])
def test_the_default_index_is_in_the_application_folder(variable: str | None, monkeypatch: pytest.MonkeyPatch) -> None:
    """With neither, the index lies in the per-user application folder; a test cannot get at it."""
    monkeypatch.delenv("WEEKSHEAF_INDEX")
    with pytest.raises(AssertionError, match="default index path"):
        CliRunner().invoke(main, ["weeks"], env={"WEEKSHEAF_INDEX": variable}, catch_exceptions=False)


def test_a_known_error_is_one_line(person: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """The text of a known error is shown as it stands, line breaks and escapes made visible."""

    def fail(*_: object) -> None:
        raise WeeksheafError("the file a\nb\x1b[31m is odd; rename it")

    monkeypatch.setattr("queries.cli.commands.weeks.week_table", fail)
    assert person.error("weeks") == r"the file a\nb\x1b[31m is odd; rename it"


def test_what_the_system_says_names_the_file(person: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """An error of the system becomes a line with the file and the reason."""

    def fail(*_: object) -> None:
        raise PermissionError(13, "Permission denied", "/mnt/photos")

    monkeypatch.setattr("queries.cli.commands.weeks.week_table", fail)
    assert person.error("weeks").startswith("/mnt/photos: Permission denied; ")


def test_an_unknown_error_is_not_hidden(person: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """A mistake in the program itself is not dressed up as a known error."""

    def fail(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("queries.cli.commands.weeks.week_table", fail)
    with pytest.raises(ZeroDivisionError):
        person.run("weeks")


def test_ctrl_c_in_any_command(person: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C ends a command with 130 and one line, and closes the index."""

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("queries.cli.commands.weeks.week_table", interrupted)
    result = person.run("weeks")
    assert (result.exit_code, result.stdout, result.stderr) == (130, "", "Stopped. What was finished is kept.\n")


def test_an_unfinished_word_is_not_told(person: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C in the middle of telling leaves the index as it was."""

    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("indexer.store.week_log.json.dumps", interrupted)
    assert person.run("mark", "2026-W12", "done").exit_code == 130
    monkeypatch.undo()
    assert person.row("2026-W12")["state"] == "open"


@pytest.mark.parametrize("command", ["weeks", "week this", "settings", "mark this started"])
def test_a_quick_command_loads_no_picture_library(person: Person, command: str) -> None:
    """Commands that only ask or tell start without what is slow to load."""
    script = (
        "import sys; from queries.cli import main; main(sys.argv[1:], standalone_mode=False);"
        f"print(sorted(set({SLOW!r}) & set(sys.modules)), file=sys.stderr)"
    )
    asked = [sys.executable, "-c", script, "--index", str(person.index), *command.split()]
    run = subprocess.run(asked, capture_output=True, text=True, check=True)
    assert run.stderr == "[]\n"


@posix_only
def test_names_survive_a_terminal_that_knows_no_emoji(person: Person) -> None:
    """Where the output's encoding lacks a letter, the listing goes on and shows its number."""
    person.says("mark", "2026-W12", "started", "--note", "shells 🐚")
    run = subprocess.run(
        [sys.executable, "-m", "queries.cli", "--index", person.index, "week", "2026-W12"],
        env={**os.environ, "PYTHONIOENCODING": "latin-1"},
        capture_output=True,
        check=True,
    )
    assert run.stderr == b""
    assert b"shells \\U0001f41a" in run.stdout


# ----------------------------------------------------------------------------------------------- the progress line


@pytest.mark.parametrize(
    ("progress", "seconds", "words"),
    [
        (Progress("looking", 1204, None, "/photos"), 0.0, "looking 1,204 files: /photos"),
        (Progress("reading", 3, 50_000, "a\nb.jpg"), 0.5, r"reading 3 of 50,000 files: a\nb.jpg"),
        (Progress("reading", 4200, 50_000, "a.jpg"), 2.0, "reading 4,200 of 50,000 files, 2,100 a second: a.jpg"),
        (Progress("looking at pictures", 3, 5, "a.jpg"), 0.0, "looking at pictures 3 of 5: a.jpg"),
        (Progress("comparing", 0, 1204), 0.0, "comparing 1,204 photos with all others"),
    ],
)
def test_the_progress_line(progress: Progress, seconds: float, words: str) -> None:
    """Count, rate and what is being done stand in one line."""
    assert progress_words(progress, seconds) == words


class Terminal(io.StringIO):
    """A stderr that says that it is a terminal."""

    def isatty(self) -> bool:
        return True


def test_the_progress_line_is_rewritten_in_place(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a terminal there is one line, no longer than the terminal is wide, at most ten times a second, wiped at the
    end."""
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setenv("COLUMNS", "60")
    with ProgressLine() as line:
        for number in range(1000):
            line.show(Progress("reading", number, 1000, "DCIM/" + "long name " * 20))
    first, *more = terminal.getvalue().split("\r")[1:]
    assert first.startswith("reading 0 of 1,000 files: DCIM/long name")
    assert len(first.removesuffix("\x1b[K")) < 60
    assert len(more) < 20
    assert more[-1] == "\x1b[K"
    assert "\n" not in terminal.getvalue()


def test_without_a_terminal_there_is_no_progress_line(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where stderr is no terminal nothing is written."""
    monkeypatch.setattr(sys, "stderr", io.StringIO())
    with ProgressLine() as line:
        line.show(Progress("reading", 1, 2, "a.jpg"))
    assert sys.stderr.getvalue() == ""  # type: ignore[attr-defined]
