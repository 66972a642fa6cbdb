"""All that speaks about when a photo was taken."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from indexer import index_folders, open_for_writing
from queries.evidence import evidence_of
from queries.naming import photo_named


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One picture in two places; only the later place in the order of names tells the day in its name."""
    folder = tmp_path_factory.mktemp("library")
    exif = Image.Exif()
    detail = exif.get_ifd(0x8769)
    detail[0x9003], detail[0x9011], detail[0x9004] = "2026:04:01 10:00:00", "+02:00", "2026:04:31 10:00:00"
    dated, plain = BytesIO(), BytesIO()
    Image.new("RGB", (48, 32), (10, 90, 140)).save(dated, "JPEG", exif=exif)
    Image.new("RGB", (48, 32), (10, 90, 140)).save(plain, "JPEG")
    (folder / "a plain copy.jpg").write_bytes(plain.getvalue())
    (folder / "b original.jpg").write_bytes(dated.getvalue())
    (folder / "PXL_20260402_083000123.jpg").write_bytes(_other())
    return folder


def _other() -> bytes:
    out = BytesIO()
    Image.new("RGB", (48, 32), (200, 90, 140)).save(out, "JPEG")
    return out.getvalue()


@pytest.fixture(scope="module")
def index(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[sqlite3.Connection]:
    with closing(open_for_writing(tmp_path_factory.mktemp("index") / "index.db", create=True)) as connection:
        index_folders(connection, [folder], today=date(2026, 4, 20))
        yield connection


def test_the_claims_of_the_speaking_file_come_first(index: sqlite3.Connection, folder: Path) -> None:
    """Claims of every place are there, those of the file that was believed first, and exactly one is marked."""
    rows = evidence_of(index, photo_named(index, str(folder / "a plain copy.jpg")))
    assert [(row.source, Path(row.path).name, row.is_chosen) for row in rows] == [
        ("exif original", "b original.jpg", True),
        ("exif digitized", "b original.jpg", False),
        ("file time", "b original.jpg", False),
        ("file time", "a plain copy.jpg", False),
    ]


def test_a_claim_keeps_its_text_its_zone_and_its_problem(index: sqlite3.Connection, folder: Path) -> None:
    """What stands in the file is kept beside what it comes to; a day that does not exist is named as such."""
    original, digitized, *_ = evidence_of(index, photo_named(index, str(folder / "b original.jpg")))
    assert (original.text, original.claimed, original.precision, original.zone, original.problem) == (
        "2026:04:01 10:00:00 +02:00", "2026-04-01T10:00:00", "second", "+02:00", None
    )  # fmt: skip
    assert (digitized.claimed, digitized.problem) == (None, "no such day or time")


def test_universal_time_is_named(index: sqlite3.Connection, folder: Path) -> None:
    """A claim in universal time says so in the place of a zone."""
    from_name, file_time = evidence_of(index, photo_named(index, str(folder / "PXL_20260402_083000123.jpg")))
    assert (from_name.source, from_name.claimed, from_name.zone, from_name.is_utc) == (
        "file name", "2026-04-02T08:30:00", "UTC", True
    )  # fmt: skip
    assert (file_time.source, file_time.is_utc) == ("file time", True)
