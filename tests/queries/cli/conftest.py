"""A small household of photos, indexed once a session, and a person at the command line."""

import io
import json
import os
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass, field
from datetime import date
from hashlib import sha256
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from PIL import Image, ImageDraw

from indexer import open_for_writing
from indexer.store.alikes import make_sets
from indexer.store.opening import transaction
from queries.cli import main
from queries.cli.session import Session
from tests.queries.made_rows import put_set

#: Every test's today: a Monday, the first day of 2026-W17.
TODAY = date(2026, 4, 20)
#: 2026-04-08, a Wednesday, 06:00 UTC: in the same week whichever zone the computer is set to.
WEDNESDAY = 1775628000

PHONE = ("Lanternfish", "Lanternfish P4", "")
COMPACT = ("Tidewell", "TW-100", "0042")

#: What is said of the compact, whose photos end four weeks before the phone's.
EARLY_END = (
    "The Tidewell TW-100 ends on 13 Mar 2026, 4 weeks before the newest photo: it has probably not been copied yet."
)

#: name: (Exif original, (make, model, serial), orientation, stored size)
CAMERA_PHOTOS: dict[str, tuple[str, tuple[str, str, str], int, tuple[int, int]]] = {
    "compact/DSC00011.jpg": ("2026:03:09 10:00:00", COMPACT, 1, (96, 64)),
    "compact/DSC00012.jpg": ("2026:03:10 11:15:00", COMPACT, 1, (96, 64)),
    "compact/DSC00013.jpg": ("2026:03:11 12:00:00", COMPACT, 6, (96, 64)),
    "compact/DSC00014.jpg": ("2026:03:12 12:30:00", COMPACT, 1, (96, 64)),
    "compact/DSC00015.jpg": ("2026:03:13 17:45:10", COMPACT, 1, (96, 64)),
    "phone/0316.jpg": ("2026:03:16 08:00:00", PHONE, 1, (96, 72)),
    "phone/0318.jpg": ("2026:03:18 08:00:00", PHONE, 1, (96, 72)),
    "phone/0322.jpg": ("2026:03:22 23:59:59", PHONE, 1, (96, 72)),
    "phone/0330 night.jpg": ("2026:03:30 01:30:00", PHONE, 1, (96, 72)),
    **{
        f"phone/turned {turn}.jpg": (f"2026:03:31 09:{turn:02}:00", PHONE, turn, (96, 72)) for turn in range(1, 9)
    },
    "phone/0403 square.jpg": ("2026:04:03 18:20:00", PHONE, 1, (80, 80)),
    "phone/0406.jpg": ("2026:04:06 07:10:00", PHONE, 1, (96, 72)),
    "phone/0412.jpg": ("2026:04:12 21:00:00", PHONE, 1, (96, 72)),
}  # fmt: skip


@dataclass(frozen=True)
class Household:
    """The folder of photos: 2026-W11 holds five of the compact, W12 three, W13 none, W14 twelve, W15 three.

    Four are doubtful: one in W14, one in W15, one of 1980 and one of which only the month is known.
    """

    folder: Path

    def __truediv__(self, name: str) -> Path:
        return self.folder / name


@dataclass
class Person:
    """Somebody who types commands: every answer is checked against the contract before it is handed over."""

    index: Path
    household: Household
    env: dict[str, str] = field(default_factory=dict)

    @property
    def folder(self) -> Path:
        return self.household.folder

    def run(self, *words: str | Path) -> Result:
        """The command's result; an exception that is no exit fails the test."""
        asked = ["--index", str(self.index), *map(str, words)]
        return CliRunner().invoke(main, asked, env=self.env, prog_name="weeksheaf", catch_exceptions=False)

    def says(self, *words: str | Path) -> str:
        """What a command that ends well prints."""
        result = self.run(*words)
        assert result.exit_code == 0, result.output
        return result.stdout

    def json(self, *words: str | Path, exit_code: int = 0) -> Any:
        """The one JSON document on stdout, from a command that is silent on stderr (`pull` says its plan there)."""
        result = self.run(*words, "--json")
        assert result.exit_code == exit_code, result.output
        assert exit_code or words[0] == "pull" or result.stderr == ""
        return json.loads(result.stdout)

    def error(self, *words: str | Path, stdout: bool = False) -> str:
        """The line of a known error: the only line on stderr; nothing on stdout unless `stdout` allows it."""
        result = self.run(*words)
        assert result.exit_code == 1, result.output
        assert stdout or result.stdout == ""
        lines = result.stderr.split("\n")
        assert lines[0].startswith("Error: "), result.stderr
        assert lines[1:] == [""], result.stderr
        return lines[0].removeprefix("Error: ")

    def misuse(self, *words: str | Path) -> str:
        """What wrong usage is told: exit code 2, nothing on stdout, "Error: ..." as the last line."""
        result = self.run(*words)
        assert result.exit_code == 2, result.output
        assert result.stdout == ""
        last = result.stderr.splitlines()[-1]
        assert last.startswith("Error: ")
        return last.removeprefix("Error: ")

    def code(self, name: str) -> str:
        """The code of a photo of the household."""
        return str(self.json("why", self.folder / name)["code"])

    def make_alike(self, kind: str, *names: str, keepers: int = 1, reason: str = "") -> None:
        """Make the index hold these photos for a set, as if their pixels had been found alike."""
        codes = [self.json("why", self.folder / name)["key"] for name in names]
        with closing(open_for_writing(self.index)) as connection:
            (number,) = connection.execute("SELECT coalesce(max(set_id), 0) + 1 FROM alike_member").fetchone()
            put_set(connection, number, kind, codes, keepers=keepers, reason=reason)

    def resemble(self, kind: str, *names: str) -> None:
        """Make the index hold that each of these photos resembles each other, and make the sets by it."""
        keys = sorted(self.json("why", self.folder / name)["key"] for name in names)
        with closing(open_for_writing(self.index)) as connection, transaction(connection):
            rows = [(one, other, kind, 5.0) for one, other in combinations(keys, 2)]
            connection.executemany("INSERT INTO likeness VALUES (?, ?, ?, ?)", rows)
            connection.execute("UPDATE pixel SET made_from = 'decode'")
            make_sets(connection)

    def suggest(
        self, make: str, model: str, serial: str, shift: int, since: str | None = None, until: str | None = None
    ) -> None:
        """Make the index hold a likely correction of a clock, until photos are judged anew."""
        with closing(open_for_writing(self.index)) as connection:
            connection.execute(
                "INSERT INTO clock_suggestion (make, model, serial, shift_seconds, since, until, grounds)"
                " VALUES (?, ?, ?, ?, ?, ?, '4 scenes that the Lanternfish P4 also shows, on 3 days, say so')",
                (make, model, serial, shift, since, until),
            )

    def forget_held(self, name: str) -> None:
        """Make a photo one that no done week holds, as if it had turned up later."""
        key = self.json("why", self.folder / name)["key"]
        with closing(open_for_writing(self.index)) as connection:
            connection.execute("DELETE FROM week_holding WHERE photo_key = ?", (key,))

    def row(self, week: str) -> dict[str, Any]:
        """The row of a week in the table."""
        return next(row for row in self.json("weeks")["weeks"] if row["name"] == week)


@pytest.fixture(scope="session")
def household(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Household]:
    """All tests share it and none may write in it."""
    household = Household(tmp_path_factory.mktemp("household") / "photos")
    make_household(household.folder)
    before = digest_of(household.folder)
    yield household
    assert digest_of(household.folder) == before, "a command has written into a library folder"


@pytest.fixture(scope="session")
def indexed(household: Household, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The index of the household, made once; copied for every test."""
    index = tmp_path_factory.mktemp("indexed") / "index.db"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Session, "today", TODAY)
        Person(index, household).says("index", household.folder)
    return index


@pytest.fixture(autouse=True)
def _today(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Session, "today", TODAY)


@pytest.fixture
def newcomer(household: Household, tmp_path: Path) -> Person:
    """A person who has not indexed anything yet."""
    return Person(tmp_path / "newcomer" / "index.db", household)


@pytest.fixture
def person(household: Household, indexed: Path, tmp_path: Path) -> Person:
    """A person with the household indexed; may tell anything, may change no photo."""
    index = tmp_path / "person" / "index.db"
    index.parent.mkdir()
    shutil.copyfile(indexed, index)
    return Person(index, household)


@pytest.fixture
def owner(household: Household, tmp_path: Path) -> Person:
    """A person with photos of their own, indexed, who may change them."""
    own = Household(tmp_path / "own photos")
    shutil.copytree(household.folder, own.folder)
    person = Person(tmp_path / "owner" / "index.db", own)
    person.says("index", own.folder)
    return person


@pytest.fixture
def picture() -> Callable[..., bytes]:
    """Makes a JPEG; pictures of different `seed` differ."""
    return jpeg


def jpeg(
    seed: str,
    taken: str = "",
    camera: tuple[str, str, str] = ("", "", ""),
    turn: int = 1,
    size: tuple[int, int] = (96, 72),
) -> bytes:
    exif = Image.Exif()
    if camera[1]:
        exif[0x010F], exif[0x0110] = camera[:2]
    if turn != 1:
        exif[0x0112] = turn
    detail = exif.get_ifd(0x8769)
    if taken:
        detail[0x9003] = taken
    if camera[2]:
        detail[0xA431] = camera[2]
    out = io.BytesIO()
    draw(seed, size).save(out, "JPEG", exif=exif)
    return out.getvalue()


def draw(seed: str, size: tuple[int, int]) -> Image.Image:
    """Fields whose colours come from the seed, so that no two pictures are alike."""
    colours = sha256(seed.encode()).digest() * 6
    image = Image.new("RGB", size)
    pen = ImageDraw.Draw(image)
    for place in range(48):
        down, across = divmod(place, 8)
        field = (across * size[0] // 8, down * size[1] // 6, (across + 1) * size[0] // 8, (down + 1) * size[1] // 6)
        pen.rectangle(field, fill=tuple(colours[3 * place : 3 * place + 3]))
    return image


def make_household(folder: Path) -> None:
    for name, (taken, camera, turn, size) in CAMERA_PHOTOS.items():
        put(folder / name, jpeg(name, taken, camera, turn, size))
    put(folder / "scans" / "scan 1994-07 pier.jpg", jpeg("scan"))
    put(folder / "compact" / "reset clock.jpg", jpeg("reset", "1980:01:01 00:00:00", COMPACT))
    put(folder / "messages" / "IMG-20260401-WA0003.jpg", jpeg("message"))
    put(folder / "phone" / "2026-04-02 drawing.jpg", jpeg("drawing"))
    put(folder / "messages" / "nothing known.jpg", jpeg("nothing"))
    os.utime(folder / "messages" / "nothing known.jpg", (WEDNESDAY, WEDNESDAY))
    put(folder / "backup of phone" / "0316.jpg", (folder / "phone" / "0316.jpg").read_bytes())
    put(folder / "odd" / "empty.jpg", b"")
    put(folder / "odd" / "letter.jpg", b"This is a letter, not a picture.\n")
    put(folder / "odd" / "notes.txt", b"Buy slate-blue cards.\n")
    put(folder / "odd" / "ferry.mp4", b"\0\0\0\x18ftypmp42\0\0\0\0mp42isom" + bytes(64))


def put(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)


def digest_of(folder: Path) -> str:
    """A hash of all names, contents and file times below a folder."""
    digest = sha256()
    for path in sorted(folder.rglob("*")):
        content = path.read_bytes() if path.is_file() else b""
        times = path.stat().st_mtime_ns
        digest.update(repr((str(path.relative_to(folder)), content, times)).encode())
    return digest.hexdigest()


posix_only = pytest.mark.skipif(sys.platform == "win32", reason="names and signals that Windows does not have")
