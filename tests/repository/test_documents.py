"""README.md and DEVELOPERS.md say what is there."""

import importlib.util
import re
import sqlite3
from pathlib import Path
from types import ModuleType

import click
import pytest
from click.testing import CliRunner

from indexer.facts.file_names import PATTERNS
from indexer.store.opening import migrations
from queries.cli import COMMANDS, main
from queries.settings import SETTINGS

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def schema_module() -> ModuleType:
    spec = importlib.util.spec_from_file_location("schema", Path(__file__).with_name("schema.py"))
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_schema_in_developers_is_that_of_the_migrations() -> None:
    """The schema text is generated; this fails until `python tests/repository/schema.py` has been run."""
    assert schema_module().with_schema(DEVELOPERS) == DEVELOPERS


def test_every_table_and_column_says_what_it_holds() -> None:
    """Each table and view opens with its grain."""
    connection = sqlite3.connect(":memory:")
    for _, script in migrations():
        connection.executescript(script)
    names = [name for (name,) in connection.execute("SELECT name FROM sqlite_schema WHERE type IN ('table', 'view')")]
    connection.close()
    text = schema_module().schema_text()
    assert names
    for name in names:
        assert re.search(rf"\*\*`{name}`\*\*: one row per \w", text), name


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_and_stands_in_the_readme(name: str) -> None:
    """A command says what it does, and the README shows it."""
    command = main.get_command(click.Context(main), name)
    assert command
    assert command.help
    assert CliRunner().invoke(main, [name, "--help"]).exit_code == 0
    assert re.search(rf"^\$ weeksheaf {name}\b", README, re.MULTILINE), f"no example of {name}"
    for option in command.params:
        for flag in option.opts:
            if flag.startswith("--"):
                assert f"`{flag}" in README or f" {flag}" in README, f"{name} {flag}"


@pytest.mark.parametrize("name", SETTINGS)
def test_every_setting_stands_in_the_readme(name: str) -> None:
    """A setting that exists can be read about."""
    assert f"{name}" in README


def test_the_readme_has_two_commands_that_stand_by_themselves() -> None:
    """One line sets up and runs the main job, one sets up and passes the tests."""
    lines = [line for line in README.splitlines() if line.startswith("python3 -m venv")]
    assert [line.split("/")[-1] for line in lines] == ["weeksheaf tour", "pytest"]


def test_every_kind_of_dated_name_stands_in_the_readme() -> None:
    """The names that are understood are listed for the person."""
    for row in PATTERNS:
        assert row.says in README
