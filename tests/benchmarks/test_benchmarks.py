"""What the benchmarks measure on: photos that are whole, all different, and read as what they are."""

import io
from datetime import datetime
from pathlib import Path

import numpy as np
import pytest
from PIL import ExifTags, Image

from indexer.facts.reading import read_file
from indexer.facts.records import PhotoFacts
from tests.benchmarks.made_exif import exif_block
from tests.benchmarks.made_photos import STRIPS_PER_BAND, BasePicture, draw, tiny_png
from tests.benchmarks.measuring import Row, python, table

SIZE = (320, 240)
TAKEN = datetime(2026, 3, 30, 9, 15, 20)  # noqa: DTZ001 - a wall clock has no zone


@pytest.fixture(scope="module")
def base() -> BasePicture:
    return draw(seed=1, size=SIZE)


def rolled(base: BasePicture, by: int) -> bytes:
    exif = exif_block(TAKEN, model="Quay 5", orientation=6, size=SIZE, thumbnail=base.thumbnail)
    return base.rolled(by, exif)


def facts_of(path: Path, content: bytes) -> PhotoFacts:
    path.write_bytes(content)
    reading = read_file(str(path))
    assert not reading.failures
    assert reading.facts is not None
    return reading.facts


def test_rolled_picture_is_whole_and_only_moved(base: BasePicture) -> None:
    """Rolled by one strip, the picture loses its uppermost 16 rows at the top and nothing else above the last strip."""
    first, second = (Image.open(io.BytesIO(rolled(base, by))).convert("L") for by in (0, 1))
    moved = second.crop((0, 0, SIZE[0], SIZE[1] - 32)).tobytes()
    assert moved == first.crop((0, 16, SIZE[0], SIZE[1] - 16)).tobytes()


def test_every_roll_is_another_photo(base: BasePicture, tmp_path: Path) -> None:
    """As many rolls as there are strips give as many keys, and all carry date, camera and turn."""
    found = [facts_of(tmp_path / "photo.jpg", rolled(base, by)) for by in range(len(base.strips))]
    assert len({facts.key for facts in found}) == SIZE[1] // 16
    assert {(facts.camera.model, facts.orientation, facts.claims[0].when) for facts in found} == {
        ("Quay 5", 6, "2026-03-30T09:15:20")
    }


def test_thumbnail_lies_where_the_block_says(base: BasePicture) -> None:
    """A second reader, Pillow, finds the whole thumbnail in the Exif block."""
    directory = Image.open(io.BytesIO(rolled(base, 0))).getexif().get_ifd(ExifTags.IFD.IFD1)
    block = rolled(base, 0).partition(b"Exif\0\0")[2]
    start, length = directory[0x0201], directory[0x0202]
    assert Image.open(io.BytesIO(block[start : start + length])).size == (160, 120)


def test_thumbnail_is_laid_as_the_picture_is() -> None:
    """Bands laid in another order: the thumbnail shows what the whole picture shows, and not what it showed before."""
    size = (640, STRIPS_PER_BAND * 16 * 7 + 200)  # as many bands as at full size, in the same share of the height
    base = draw(seed=2, size=size)
    order = (3, 0, 6, 1, 5, 2, 4)
    picture = Image.open(io.BytesIO(base.laid(order, b""))).convert("L")
    assert picture.size == size
    before, after = (
        np.asarray(Image.open(io.BytesIO(made)).convert("L"), np.float64)
        for made in (base.thumbnail, base.thumbnail_laid(order))
    )
    shown = np.asarray(picture.resize((160, 120)), np.float64)
    assert np.corrcoef(shown.ravel(), after.ravel())[0, 1] > 0.95
    assert np.corrcoef(shown.ravel(), before.ravel())[0, 1] < 0.6


def test_tiny_pictures_are_different_photos(tmp_path: Path) -> None:
    """PNGs of other numbers, the highest of the full form among them, have other keys and other dates."""
    found = [facts_of(tmp_path / "photo.png", tiny_png(number)) for number in (0, 1, 256, 49_999)]
    assert len({facts.key for facts in found}) == 4
    assert len({facts.claims[0].when for facts in found}) == 4


def test_table_sets_ratio_of_ours_to_baseline() -> None:
    """A row shows both sides and how many times the baseline ours is."""
    lines = table([Row("first index", 1234.5, 5.0, "photos/s", "2,000")]).splitlines()
    assert lines[0].split() == ["name", "ours", "baseline", "ratio", "unit", "n"]
    assert lines[1].split() == ["first", "index", "1,234.5", "5.0", "246.90", "photos/s", "2,000"]


def test_measured_command_is_told_its_input() -> None:
    """What is told comes in on standard input, and what was printed comes back with the time it took."""
    done = python("-c", "import sys; print(sys.stdin.read()[::-1])", told="abc")
    assert done.printed.strip() == "cba"
    assert done.seconds > 0
