"""TIFF pictures and the raw files that share their structure."""

import io

import pytest
from PIL import Image

from indexer.facts.containers import BrokenContainer
from indexer.facts.containers.values import CUT_OFF
from tests.indexer.facts.containers.file_makers import EXIF, XMP, by_pillow, parsed, tiff

SIZE = {256: (4, 40), 257: (4, 30)}
PREVIEW = {254: (4, 1), 256: (4, 160), 257: (4, 120)}
SENSOR = {254: (4, 0), 256: (4, 6000), 257: (4, 4000)}
MAKE = {271: (2, b"Harbour\0")}


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("options", [{}, {"compression": "tiff_lzw"}, {"compression": "jpeg"}])
def test_size_and_metadata_are_those_that_pillow_wrote(orientation, options):
    """Stored size, orientation and XMP of files with and without compression; Pillow opens them with displayed size."""
    data = by_pillow(Image.new("RGB", (90, 50)), "TIFF", tiffinfo={274: orientation, 700: XMP}, **options)
    container = parsed(data)
    read = Image.Exif()
    read.load(container.exif)
    assert (container.format, container.width, container.height) == ("TIFF", 90, 50)
    assert (container.turn, read[274], container.xmp, container.damage) == (None, orientation, XMP, None)
    assert container.picture_spans == ()
    assert Image.open(io.BytesIO(data)).size == ((50, 90) if orientation >= 5 else (90, 50))


def test_a_file_of_several_pages_is_its_first():
    """Pillow, too, opens the first page."""
    data = by_pillow(Image.new("L", (9, 7)), "TIFF", save_all=True, append_images=[Image.new("L", (90, 70))])
    container = parsed(data)
    assert (container.format, container.width, container.height) == ("TIFF", 9, 7)


@pytest.mark.parametrize(
    "data",
    [
        tiff(SIZE, magic=b"IIRO"),
        tiff(SIZE, magic=b"IIRS"),
        tiff(SIZE, magic=b"MMOR", byte_order=">"),
        tiff(SIZE, magic=b"IIU\0"),
        tiff(SIZE | {0xC612: (7, b"\1\4\0\0")}),
        tiff(SIZE | {262: (3, 32803)}),
        tiff(PREVIEW | {330: (4, "dir 1")}, SENSOR | {262: (3, 34892)}),
        tiff(SIZE | {259: (3, 34713)}, byte_order=">"),
        tiff(PREVIEW, SENSOR | {259: (3, 32767)}),
        tiff(PREVIEW | MAKE | {330: (4, "dir 1")}, SENSOR),
    ],
)
def test_raw_files_are_told_by_what_only_they_have(data):
    """Each sign that the module names is enough by itself."""
    assert parsed(data).format == "raw"


@pytest.mark.parametrize(
    "data",
    [
        tiff(SIZE),
        tiff(SIZE | MAKE | {330: (4, "dir 1")}, SENSOR),
        tiff(PREVIEW | {330: (4, "dir 1")}, SENSOR),
        tiff(PREVIEW | MAKE),
        tiff(SIZE | {262: (3, 2), 259: (3, 32773)}),
    ],
)
def test_pictures_with_some_of_the_signs_stay_tiff(data):
    """A scan with reduced versions below it, or with a maker's name, is no raw file."""
    assert parsed(data).format == "TIFF"


def test_the_second_signature_at_offset_eight_makes_a_raw_file():
    """Some raw files carry "CR" behind the TIFF header."""
    data = tiff(SIZE)
    moved = data[:4] + (16).to_bytes(4, "little") + b"CR\2\0\0\0\0\0" + data[8:]
    assert (parsed(moved).format, parsed(moved).width) == ("raw", 40)


@pytest.mark.parametrize(
    ("data", "size"),
    [
        (tiff(PREVIEW | MAKE | {330: (4, "dir 1")}, SENSOR), (6000, 4000)),
        (tiff(SIZE, PREVIEW, SENSOR, magic=b"IIRO"), (6000, 4000)),
        (tiff(SIZE | {34665: (4, "dir 1")}, {0xA002: (4, 5000), 0xA003: (4, 3000)}, magic=b"IIRO"), (5000, 3000)),
        (
            tiff({n: (3, border) for n, border in zip((4, 5, 6, 7), (4, 8, 3004, 4008), strict=True)}, magic=b"IIU\0"),
            (4000, 3000),
        ),
    ],
)
def test_the_size_of_a_raw_file_is_the_largest_it_gives(data, size):
    """Not that of its preview."""
    container = parsed(data)
    assert (container.format, container.width, container.height) == ("raw", *size)


def test_a_cut_file_is_damaged():
    """Data that lie beyond the end are missed, in strips as in tiles."""
    data = by_pillow(Image.effect_noise((90, 50), 60), "TIFF")
    assert parsed(data).damage is None
    assert parsed(tiff(SIZE | {273: (4, (8, 500)), 279: (4, (8, 8))})).damage == CUT_OFF
    assert parsed(tiff(SIZE | {324: (4, 8), 325: (4, 800)})).damage == CUT_OFF
    assert parsed(tiff(SIZE | {273: (4, 0xFFFFFFFF), 279: (4, 800)}, magic=b"IIU\0")).damage is None


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (tiff({256: (4, 40)}), "no size"),
        (tiff(SIZE)[:8], "cut off"),
        (tiff(SIZE)[:20], "ends inside"),
        (EXIF, "no size"),
        (b"II*\0", "ends inside"),
        (b"II*\0\0\0\0\0", "cut off"),
    ],
)
def test_a_file_without_a_size_cannot_be_used(data, reason):
    """Without a directory that gives a size there is nothing to index."""
    with pytest.raises(BrokenContainer, match=reason):
        parsed(data)


def test_iptc_and_image_resources_are_handed_over_as_they_stand():
    """Tags 33723 and 34377; neither is carried into the Exif block."""
    data = tiff({0x0100: (3, 4), 0x0101: (3, 3), 0x83BB: (7, b"\x1c\x02 iptc"), 0x8649: (7, b"8BIM resources")})
    found = parsed(data)
    assert (found.iptc, found.resources) == (b"\x1c\x02 iptc", b"8BIM resources")
    assert b"8BIM" not in found.exif
