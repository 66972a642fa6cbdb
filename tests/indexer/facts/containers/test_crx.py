"""The raw file of boxes around Exif directories."""

import pytest
from PIL import Image

from indexer.facts.containers import BrokenContainer
from indexer.facts.containers.values import CUT_OFF
from tests.indexer.facts.containers.file_makers import box, parsed, tiff

# The layout is from memory: no sample was at hand.
USER_TYPE = bytes.fromhex("85c0b687820f11e08111f4ce462b6a48")
MAIN = tiff({256: (4, 1620), 257: (4, 1080), 271: (2, b"Harbour\0"), 274: (3, 8)})
EXIF = tiff({0x9003: (2, b"2026:03:30 09:15:20\0"), 0xA002: (4, 6000), 0xA003: (4, 4000)})
GPS = tiff({29: (2, b"2026:03:30\0")})


def crx(*parts: bytes, data: bytes = box(b"mdat", bytes(100))) -> bytes:
    metadata = box(b"uuid", USER_TYPE, box(b"CNCV", bytes(30)), *parts)
    moov = box(b"moov", box(b"uuid", b"another one 1234"), metadata)
    return box(b"ftyp", b"crx ", bytes(4), b"crx isom") + moov + data


def test_the_directories_of_its_boxes_become_one_exif_block():
    """Main, Exif and GPS values stand in one block, as in every other format."""
    container = parsed(crx(box(b"CMT1", MAIN), box(b"CMT2", EXIF), box(b"CMT3", b"maker"), box(b"CMT4", GPS)))
    read = Image.Exif()
    read.load(container.exif)
    assert (container.format, container.width, container.height) == ("raw", 6000, 4000)
    assert (container.turn, container.picture_spans, container.damage) == (None, (), None)
    assert (read[271], read[274]) == ("Harbour", 8)
    assert read.get_ifd(0x8769)[0x9003] == "2026:03:30 09:15:20"
    assert read.get_ifd(0x8825)[29] == "2026:03:30"


def test_a_file_that_ends_before_its_data_is_cut_off():
    """Metadata without sensor data are half a photo."""
    assert parsed(crx(box(b"CMT1", MAIN), data=b"")).damage == CUT_OFF
    assert parsed(crx(box(b"CMT1", MAIN))[:-1]).damage == CUT_OFF


def test_one_directory_that_cannot_be_read_does_not_spoil_the_others():
    """Size and orientation of the main directory stand without the Exif one."""
    container = parsed(crx(box(b"CMT1", MAIN), box(b"CMT2", b"junk"), box(b"CMT4", GPS[:12])))
    assert (container.width, container.height, container.damage) == (1620, 1080, None)


@pytest.mark.parametrize(
    "data",
    [
        crx(),
        crx(box(b"CMT1", tiff({271: (2, b"Harbour\0")}))),
        crx(box(b"CMT1", b"junk")),
        box(b"ftyp", b"crx ", bytes(4)) + box(b"mdat", bytes(9)),
    ],
)
def test_a_file_without_a_size_cannot_be_used(data):
    """Without the directories there is nothing to index."""
    with pytest.raises(BrokenContainer):
        parsed(data)
