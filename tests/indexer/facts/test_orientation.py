"""The eight orientations, against the table of Exif 2.32 (CIPA DC-008) tag 0x0112, worded as TIFF 6.0 tag 274.

Pillow's `ImageOps.exif_transpose` is the second opinion: it turns the pixels, we say what the turned picture measures.
"""

import struct
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageOps

from indexer.facts.reading import read_file
from indexer.facts.records import PhotoFacts
from tests.orientation_table import DISPLAYED

STORED = [[1, 2, 3], [4, 5, 6]]
#: Both keep every pixel as it was given, so that the arrays can be compared.
LOSSLESS = (".png", ".tif")
ORIENTATION = 0x0112


def saved(path: Path, orientation: int | None, compression: str = "raw") -> Path:
    """A picture of `STORED`, three pixels wide and two high, with that orientation tag (None: without the tag)."""
    exif = Image.Exif()
    if orientation is not None:
        exif[ORIENTATION] = orientation
    Image.fromarray(np.array(STORED, dtype=np.uint8)).save(path, exif=exif, compression=compression)
    return path


def facts_of(path: Path) -> PhotoFacts:
    facts = read_file(str(path)).facts
    assert facts is not None
    return facts


@pytest.mark.parametrize("suffix", LOSSLESS)
@pytest.mark.parametrize("orientation", DISPLAYED)
def test_the_size_is_that_of_the_displayed_picture(tmp_path: Path, orientation: int, suffix: str) -> None:
    """Width and height are told as the table displays the picture, the stored size as the data lie."""
    # Pillow 13.0.0 mixes up the pixels of a TIFF that is turned sideways and not compressed. (PNG ignores the word.)
    path = saved(tmp_path / f"turned{suffix}", orientation, compression="tiff_lzw")
    with Image.open(path) as picture:
        displayed = np.asarray(ImageOps.exif_transpose(picture)).tolist()
    assert displayed == DISPLAYED[orientation]  # the table and the second opinion are of one mind

    facts = facts_of(path)
    assert facts.orientation == orientation
    assert (facts.stored_width, facts.stored_height) == (3, 2)
    assert (facts.width, facts.height) == (len(displayed[0]), len(displayed))


@pytest.mark.parametrize("suffix", LOSSLESS)
@pytest.mark.parametrize("orientation", [None, 0, 9, 65535])
def test_absent_and_reserved_values_leave_the_picture_as_stored(
    tmp_path: Path, orientation: int | None, suffix: str
) -> None:
    """A missing tag and a reserved value (that they are reserved: from memory) count as 1."""
    facts = facts_of(saved(tmp_path / f"odd{suffix}", orientation))
    assert (facts.orientation, facts.width, facts.height) == (1, 3, 2)


def test_an_orientation_that_is_no_number_leaves_the_picture_as_stored(tmp_path: Path) -> None:
    """The tag as ASCII text "6" instead of a SHORT counts as 1 (TIFF 6.0 gives the tag's type as SHORT)."""
    entry = struct.pack("<HHI4s", ORIENTATION, 2, 2, b"6\0")
    block = b"II*\0" + struct.pack("<IH", 8, 1) + entry + bytes(4)
    path = tmp_path / "text.png"
    Image.fromarray(np.array(STORED, dtype=np.uint8)).save(path, exif=block)

    facts = facts_of(path)
    assert (facts.orientation, facts.width, facts.height) == (1, 3, 2)
