"""Exif blocks built from what lies strewn over a TIFF-structured file."""

import io
import struct

import exifread
import pytest
from PIL import Image

from indexer.facts.containers.exif_block import MAX_BUILT, MAX_VALUE, as_tiff, build
from tests.indexer.facts.containers.file_makers import EXIF, parsed, tiff

SIZE = {256: (4, 40), 257: (4, 30)}
TAKEN = b"2026:03:30 09:15:20\0"


@pytest.mark.parametrize("byte_order", ["<", ">"])
def test_what_two_readers_find_in_the_file_they_find_in_the_block(byte_order):
    """Main, Exif and GPS values come through as Pillow and exifread read them from the file itself."""
    main = SIZE | {271: (2, b"Harbour Works\0"), 274: (3, 6), 34665: (4, "dir 1"), 34853: (4, "dir 2")}
    exif = {0x9003: (2, TAKEN), 0x9011: (2, b"+02:00\0"), 0x9291: (2, b"7\0"), 0xA002: (4, 4000)}
    gps = {1: (2, b"N\0"), 2: (4, (54, 10, 3)), 29: (2, b"2026:03:30\0")}
    data = tiff(main, exif, gps, byte_order=byte_order)
    block = parsed(data).exif
    for reading in (data, block):
        read = Image.Exif()
        read.load(reading)
        assert (read[271], read[274]) == ("Harbour Works", 6)
        assert read.get_ifd(0x8769)[0x9003] == TAKEN[:-1].decode()
        assert read.get_ifd(0x8769)[0xA002] == 4000
        assert read.get_ifd(0x8825)[29] == "2026:03:30"
        tags = exifread.process_file(io.BytesIO(reading), details=False)
        assert tags["EXIF DateTimeOriginal"].values == TAKEN[:-1].decode()
        assert tags["EXIF SubSecTimeOriginal"].values == "7"
        assert tags["Image Orientation"].values == [6]
        assert tags["GPS GPSDate"].values == "2026:03:30"


def test_places_of_picture_data_and_blocks_of_makers_are_left_out():
    """Offsets that hold only in the file do not lead a reader of the block astray."""
    main = SIZE | {273: (4, 8), 279: (4, 8), 700: (7, b"xmp packet"), 34665: (4, "dir 1")}
    block = parsed(tiff(main, {0x9003: (2, TAKEN), 0x927C: (7, b"maker's own block")})).exif
    read = Image.Exif()
    read.load(block)
    assert sorted(read) == [256, 257, 34665]
    assert list(read.get_ifd(0x8769)) == [0x9003]


def test_long_values_are_left_out_and_the_block_stays_small():
    """A crafted file with endless values gives a small block."""
    values = {60000 + n: (7, bytes(MAX_VALUE)) for n in range(20)} | {50000: (7, bytes(MAX_VALUE + 1))}
    block = parsed(tiff(SIZE | values)).exif
    read = Image.Exif()
    read.load(block)
    assert 50000 not in read
    assert len(read[60000]) == MAX_VALUE
    assert len(block) <= MAX_BUILT + 1000


def test_a_block_of_nothing_is_still_one():
    """A file without metadata gives an empty directory."""
    assert build("<", [], [], []) == b"II*\0" + struct.pack("<IHI", 8, 0, 0)


@pytest.mark.parametrize(
    ("data", "block"),
    [
        (EXIF, EXIF),
        (b"Exif\0\0" + EXIF, EXIF),
        (b"Exif\0\xff" + EXIF, EXIF),
        (b"II*\0rest", b"II*\0rest"),
        (b"", None),
        (b"Exif\0\0", None),
        (b"MM*\0", None),
    ],
)
def test_only_what_begins_as_tiff_is_an_exif_block(data, block):
    """The identifier of the container goes, the block stays."""
    assert as_tiff(data) == block
