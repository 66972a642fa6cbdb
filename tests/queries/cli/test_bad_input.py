"""Everything that "Bad input gets" names: one line with the thing and the way out, and no word is lost."""

import errno
import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from indexer.store import opening
from tests.queries.cli.conftest import Person, posix_only, put

ASKING = [
    ["weeks"], ["week", "2026-W14"], ["why", "abcde"], ["undated"], ["unreadable"], ["devices"], ["settings"],
    ["backup", "words.json"], ["mark", "2026-W14", "done"], ["pull", "2026-W14", "w14"], ["index"],
    ["note", "2026-W14", "Snow."], ["order"], ["reprint", "o01-01"],
]  # fmt: skip
every_command = pytest.mark.parametrize("words", ASKING, ids=lambda words: words[0])


@pytest.fixture(autouse=True)
def _elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Names without a folder mean a folder of the test's own."""
    monkeypatch.chdir(tmp_path)


# -------------------------------------------------------------------------------------------------------- folders


def test_a_folder_that_does_not_exist(person: Person) -> None:
    """A folder that is not there is named, and the photos known so far stay."""
    assert person.error("index", "nowhere") == (
        "there is no folder nowhere; check the name, or that its disk is connected"
    )
    assert person.row("2026-W14")["photos"] == 12


def test_one_wrong_folder_among_good_ones(newcomer: Person) -> None:
    """Where one of several folders is wrong nothing is indexed, nor an index made: the line names the wrong one."""
    assert "nowhere" in newcomer.error("index", newcomer.folder, "nowhere")
    assert "there is no index" in newcomer.error("weeks")


def test_a_folder_that_is_a_file(person: Person) -> None:
    """A file in the place of a folder is named with what to name instead."""
    file = person.folder / "phone" / "0406.jpg"
    outside = put_file(Path("photo.jpg"))
    assert person.error("index", outside) == (f"{outside} is not a folder; name the folder that holds the photos")
    assert str(file) in person.error("index", file, stdout=True)


def put_file(path: Path) -> Path:
    put(path, b"no folder")
    return path


def test_a_folder_that_is_unreadable(person: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that may not be listed is named with the system's reason."""
    Path("locked").mkdir()
    monkeypatch.setattr("os.scandir", refusing(os.scandir, "locked"))
    assert person.error("index", "locked") == (
        "the folder locked cannot be read (Permission denied); check its permissions"
    )


def test_a_folder_inside_that_is_unreadable(owner: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """A closed folder in the library is said, its photos stay, and the rest is indexed."""
    monkeypatch.setattr("os.scandir", refusing(os.scandir, "compact"))
    result = owner.run("index")
    assert result.exit_code == 1
    assert str(owner.folder / "compact") in result.stderr
    assert "nothing was marked missing" in result.stderr
    assert owner.row("2026-W11")["photos"] == 5


def test_a_new_folder_inside_that_is_unreadable(owner: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    """A closed folder in which no photo is known is named with the reason, and is no error."""
    (owner.folder / "attic").mkdir()
    monkeypatch.setattr("os.scandir", refusing(os.scandir, "attic"))
    assert f"  not entered: {owner.folder / 'attic'} (Permission denied)\n" in owner.says("index")
    assert owner.json("index")["closed"] == [{"path": str(owner.folder / "attic"), "reason": "Permission denied"}]


def refusing(scandir: Callable[[Any], Any], name: str) -> Callable[[Any], Any]:
    """A `scandir` that the system forbids for folders called `name`."""

    def scan(path: Any) -> Any:
        if Path(os.fsdecode(path)).name == name:
            raise PermissionError(errno.EACCES, "Permission denied", path)
        return scandir(path)

    return scan


def test_no_folder_at_all(newcomer: Person) -> None:
    """`index` without a folder, where none is known, says what to type."""
    assert "make one with: weeksheaf index FOLDER" in newcomer.error("index")
    newcomer.says("settings", "week.min_days", "4")
    assert newcomer.error("index") == "no folder has been indexed yet; name one: weeksheaf index FOLDER"


def test_an_empty_folder_is_no_error(newcomer: Person) -> None:
    """A new folder with nothing in it is indexed as what it is."""
    Path("nothing").mkdir()
    assert newcomer.says("index", "nothing").splitlines() == [
        "0 photo files found in nothing",
        "0 weeks with photos in the whole library: weeksheaf weeks --unfinished",
    ]


# ------------------------------------------------------------------------------------------------------ the index


@every_command
def test_no_index(newcomer: Person, words: list[str]) -> None:
    """A command that needs an index and finds none says how to make one, and makes none."""
    if words != ["settings"]:
        assert newcomer.error(*words) == (
            f"there is no index at {newcomer.index}; make one with: weeksheaf index FOLDER (a folder that holds photos)"
        )
    assert not newcomer.index.exists()


@every_command
@pytest.mark.parametrize(
    "content", [b"a letter to Aunt\n" * 400, b"short", b"\0" * 5000], ids=["text", "short", "zeros"]
)
def test_an_index_that_is_another_kind_of_file(person: Person, words: list[str], content: bytes) -> None:
    """A file that is not SQLite is named and left untouched, byte for byte, with nothing put beside it."""
    person.index.write_bytes(content)
    message = person.error(*words)
    assert str(person.index) in message
    assert "--index FILE" in message
    assert person.index.read_bytes() == content
    assert [path.name for path in person.index.parent.iterdir()] == ["index.db"]


@every_command
def test_an_index_that_is_a_photo(person: Person, words: list[str]) -> None:
    """A photo given for the index by mistake is left untouched; nothing is written beside it in the library."""
    person.index = person.folder / "phone" / "0406.jpg"  # the household fixture checks that nothing changed
    assert "left untouched" in person.error(*words)


@every_command
def test_an_index_of_another_program(person: Person, words: list[str]) -> None:
    """A SQLite database of another program is left untouched."""
    person.index.unlink()
    with closing(sqlite3.connect(person.index)) as connection:
        connection.execute("CREATE TABLE recipes (name)")
    before = person.index.read_bytes()
    assert person.error(*words) == (
        f"{person.index} is a database of another program, left untouched; choose another with --index FILE"
    )
    assert person.index.read_bytes() == before


@every_command
def test_an_index_of_a_newer_version(person: Person, words: list[str]) -> None:
    """An index that a newer version made is left untouched, with the advice to update."""
    with closing(sqlite3.connect(person.index)) as connection:
        connection.execute("PRAGMA user_version = 99")
    before = person.index.read_bytes()
    message = person.error(*words)
    assert str(person.index) in message
    assert "newer version" in message
    assert "update weeksheaf" in message
    assert person.index.read_bytes() == before


@every_command
def test_an_index_that_is_a_folder(person: Person, words: list[str]) -> None:
    """A folder in the place of the index is named."""
    person.index = person.index.parent
    message = person.error(*words)
    assert str(person.index) in message
    assert "--index" in message


@pytest.mark.parametrize("words", [words for words in ASKING if words[0] != "backup"], ids=lambda words: words[0])
def test_a_damaged_index(person: Person, words: list[str]) -> None:
    """An index whose pages are damaged says how to come by a new one with all words."""
    person.says("mark", "2026-W14", "started")
    content = person.index.read_bytes()
    person.index.write_bytes(content[:4096] + b"\xff" * (len(content) - 4096))
    message = person.error(*words)
    assert str(person.index) in message
    assert "weeksheaf restore FILE" in message


@pytest.mark.parametrize(
    "words",
    [["mark", "2026-W14", "done"], ["settings", "week.min_days", "1"], ["note", "this", "Snow."], ["index"]],
)
def test_an_index_in_use(person: Person, words: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """Where another run holds the index too long, the line says to wait; what was told before is not lost."""
    person.says("mark", "2026-W14", "started")
    put(person.folder.parent / "elsewhere" / "new.txt", b"so that index has something to write")
    if words == ["index"]:
        words = ["index", str(person.folder.parent / "elsewhere")]
    monkeypatch.setattr(opening, "connect", partial(opening.connect, wait_seconds=0))
    with closing(sqlite3.connect(person.index, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert person.error(*words, stdout=True) == (
            f"the index {person.index} is in use by another run; wait until it is done, then try again"
        )
    assert person.row("2026-W14")["state"] == "started"


def test_reading_goes_on_while_another_run_writes(person: Person) -> None:
    """A run that writes does not keep the person from looking."""
    with closing(sqlite3.connect(person.index, isolation_level=None)) as other:
        other.execute("PRAGMA journal_mode = WAL")
        other.execute("BEGIN IMMEDIATE")
        assert person.row("2026-W14")["photos"] == 12


@pytest.fixture
def full_disk(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """No index can grow any more: SQLite says then what it says of a full disk."""
    connect = opening.connect

    def connect_full(address: str, *rest: float) -> sqlite3.Connection:
        connection = connect(address, *rest)
        connection.execute("PRAGMA max_page_count = 1")  # SQLite takes the present size where that is larger
        return connection

    monkeypatch.setattr(opening, "connect", connect_full)
    return


@pytest.mark.usefixtures("full_disk")
def test_a_word_on_a_full_disk(person: Person) -> None:
    """On a full disk the word is refused with the way out, and the index is as it was."""
    message = person.error("mark", "2026-W14", "started", "--note", "x" * 100_000)
    assert message == (
        f"the disk that holds the index {person.index} is full; make room there, then run the same command again"
    )
    assert person.row("2026-W14")["state"] == "open"


@pytest.mark.usefixtures("full_disk")
def test_an_index_run_on_a_full_disk(person: Person, tmp_path: Path, picture: Callable[..., bytes]) -> None:
    """An index run on a full disk ends with the way out, and what was known before is still there."""
    for number in range(300):
        put(tmp_path / "more" / f"{'long name ' * 10}{number}.jpg", picture(str(number), "2026:04:07 12:00:00"))
    assert "is full; make room there" in person.error("index", tmp_path / "more", stdout=True)
    assert person.row("2026-W14")["photos"] == 12


@pytest.mark.usefixtures("full_disk")
def test_a_first_run_on_a_full_disk(newcomer: Person) -> None:
    """Where not even the first page fits, that is said too."""
    assert "is full" in newcomer.error("index", newcomer.folder)


def test_an_index_inside_the_library(newcomer: Person) -> None:
    """An index inside the folder to be indexed is refused, and nothing is made there."""
    newcomer.index = newcomer.folder / "index.db"  # the household fixture checks that nothing was made
    message = newcomer.error("index", newcomer.folder)
    assert str(newcomer.index) in message
    assert str(newcomer.folder) in message
    assert "--index FILE" in message


@posix_only
def test_an_index_inside_the_library_by_way_of_a_link(newcomer: Person) -> None:
    """A way round through a link is seen, for the index and for the folder."""
    Path("shortcut").symlink_to(newcomer.folder)
    newcomer.index = Path("shortcut") / "phone" / "index.db"
    newcomer.error("index", newcomer.folder)
    newcomer.index = newcomer.folder / "index.db"
    newcomer.error("index", "shortcut")


def test_an_index_made_before_inside_the_library(owner: Person) -> None:
    """An index that lies inside a folder is refused when that folder, or one around it, is indexed."""
    owner.index = owner.folder / "index.db"
    owner.says("settings", "week.min_days", "4")
    for folder in (owner.folder, owner.folder.parent):
        assert "would lie inside" in owner.error("index", folder)


# ---------------------------------------------------------------------------------------------------------- usage


@pytest.mark.parametrize(
    "words",
    [
        ["calendar"], ["weeks", "--finished"], ["weeks", "2026-W14"], ["week"], ["week", "2026-W14", "2026-W15"],
        ["mark"], ["mark", "2026-W14"], ["mark", "2026-W14", "done", "--for"], ["pull", "2026-W14"], ["why"],
        ["backup"], ["restore"], ["settings", "a", "b", "c"], ["tour", "a", "b"], ["undated", "--jsn"],
    ],
    ids=" ".join,
)  # fmt: skip
def test_wrong_usage(person: Person, words: list[str]) -> None:
    """What the command line cannot take ends with 2, a usage line and one Error line."""
    assert person.misuse(*words)
