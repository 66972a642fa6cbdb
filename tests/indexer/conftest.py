"""Small photos drawn into a library folder, an index away from it, and values such as the reader gives."""

import os
import random
import shutil
import sqlite3
import sys
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from indexer.facts.pixels import NoPixels, PixelFacts, look_at
from indexer.facts.reading import read_file
from indexer.facts.records import NO_CAMERA, Claim, FileReading, PhotoFacts
from indexer.scan import Summary, index_folders
from indexer.store.opening import open_for_writing
from tests.indexer.seen_photos import SimpleLikeness

TODAY = date(2026, 6, 1)
EXIF_DIRECTORY, GPS_DIRECTORY = 0x8769, 0x8825
DATE_ORIGINAL = 0x9003


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """An empty library folder; its path has no link in it."""
    folder = tmp_path.resolve() / "library"
    folder.mkdir()
    return folder


@pytest.fixture
def index(tmp_path: Path) -> Path:
    """Where the index is to lie; its folder is not there yet."""
    return tmp_path / "kept" / "index.db"


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new index, to be copied: making one waits for the disk."""
    path = tmp_path_factory.mktemp("made") / "index.db"
    open_for_writing(path, create=True).close()
    return path


@pytest.fixture
def connection(index: Path, made_once: Path) -> Iterator[sqlite3.Connection]:
    """A new index, open for writing; it does not wait for the disk, which no test pulls the plug on."""
    index.parent.mkdir()
    shutil.copyfile(made_once, index)
    opened = open_for_writing(index)
    opened.execute("PRAGMA synchronous = OFF")
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def exif_block() -> Callable[..., bytes]:
    """A maker of TIFF-structured Exif blocks, as Pillow writes them, from the tags of each directory."""

    def make(
        main: dict[int, object] | None = None,
        exif: dict[int, object] | None = None,
        gps: dict[int, object] | None = None,
    ) -> bytes:
        block = Image.Exif()
        block.update(main or {})
        for pointer, tags in ((EXIF_DIRECTORY, exif), (GPS_DIRECTORY, gps)):
            if tags:
                block.get_ifd(pointer).update(tags)
        return block.tobytes().removeprefix(b"Exif\0\0")

    return make


@pytest.fixture(scope="session")
def draw(exif_block: Callable[..., bytes]) -> Callable[..., Path]:
    """A drawer of small JPEGs: another `seed` is another picture, of another time of the file.

    `taken` is the Exif original date, such as "2026:03:30 09:15:20"; None leaves the picture without metadata.
    """

    def draw_picture(path: Path, seed: int = 1, taken: str | None = "2026:03:30 09:15:20") -> Path:
        path.parent.mkdir(parents=True, exist_ok=True)
        picture = Image.frombytes("RGB", (24, 16), random.Random(seed).randbytes(24 * 16 * 3))
        exif = b"Exif\0\0" + exif_block(exif={DATE_ORIGINAL: taken}) if taken else b""
        picture.save(path, "JPEG", quality=90, exif=exif)
        moment = (1_767_225_600 + seed) * 1_000_000_000
        os.utime(path, ns=(moment, moment))
        return path

    return draw_picture


@pytest.fixture(scope="session")
def retag(exif_block: Callable[..., bytes]) -> Callable[[Path, str], None]:
    """Gives a JPEG another Exif block in front of all others, and leaves the picture data as they are."""

    def write_tags(path: Path, taken: str) -> None:
        payload = b"Exif\0\0" + exif_block(exif={DATE_ORIGINAL: taken})
        data = path.read_bytes()
        path.write_bytes(data[:2] + b"\xff\xe1" + (len(payload) + 2).to_bytes(2) + payload + data[2:])

    return write_tags


@pytest.fixture(scope="session")
def photo_reading() -> Callable[..., FileReading]:
    """A maker of readings of photos, as the reader would hand them over."""

    def make(key: str, *claims: Claim, **facts: object) -> FileReading:
        values: dict[str, object] = {
            "format": "JPEG",
            "stored_width": 40,
            "stored_height": 30,
            "orientation": 1,
            "camera": NO_CAMERA,
            "latitude": None,
            "longitude": None,
        } | facts
        return FileReading("photo", PhotoFacts(key=key, claims=claims, **values))  # type: ignore[arg-type]

    return make


@pytest.fixture
def taken_claim() -> Claim:
    """What a camera says of a picture."""
    return Claim("exif original", "2026:03:30 09:15:20", "2026-03-30T09:15:20", "second")


@pytest.fixture
def run(connection: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Summary]:
    """Runs the index over these folders, or over all known ones.

    Files are read and looked at without starting processes, which have tests of their own; all else is as it is.
    """

    def read_here(paths: Sequence[str], latest_year: int) -> Iterator[tuple[int, FileReading]]:
        for place, path in enumerate(paths):
            yield place, read_file(path, latest_year)

    def look_here(paths: Sequence[str], *, may_trust_thumbnails: bool) -> Iterator[tuple[int, PixelFacts | NoPixels]]:
        for place, path in enumerate(paths):
            yield place, look_at(path, may_trust_thumbnail=may_trust_thumbnails)

    def run_over(*named: Path, **options: Any) -> Summary:
        return index_folders(connection, named, today=TODAY, **options)

    monkeypatch.setattr("indexer.facts.workers.read_all", read_here)
    monkeypatch.setattr("indexer.facts.looking.look_at_all", look_here)
    return run_over


@pytest.fixture
def likeness(monkeypatch: pytest.MonkeyPatch) -> SimpleLikeness:
    """A simple rule of likeness in place of the real one."""
    simple = SimpleLikeness()
    monkeypatch.setitem(sys.modules, "indexer.alike.likeness", simple)
    return simple


@pytest.fixture
def no_reading(monkeypatch: pytest.MonkeyPatch) -> Callable[[], None]:
    """From the call on, opening any file is a failure of the test."""

    def forbid() -> None:
        def fail(*_: object) -> None:
            pytest.fail("a file was read again")

        monkeypatch.setattr("indexer.facts.workers.read_all", fail)
        monkeypatch.setattr("indexer.facts.looking.look_at_all", fail)

    return forbid


@pytest.fixture
def made(index: Path) -> Path:
    """An index that is closed, so that all of it lies in its one file."""
    open_for_writing(index, create=True).close()
    return index
