"""HEIF and AVIF, against the decoders that show them."""

import io
import struct
from itertools import product

import numpy as np
import pillow_heif
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageOps, features

from indexer.facts.containers import BrokenContainer
from indexer.facts.containers.values import CUT_OFF
from indexer.facts.picture_key import picture_key
from tests.indexer.facts.containers import file_makers as make
from tests.indexer.facts.containers.file_makers import EXIF, XMP, Item, exif_item, heif, ispe, parsed, xmp_item

SIZE = ispe(40, 30)
PICTURE = Item(b"hvc1", b"coded picture")


def coded(*properties: bytes, wide: bool = False) -> bytes:
    """A file that a decoder can show: the four grey fields, with these properties."""
    return heif([Item(b"hvc1", make.CODED)], [make.HVCC, ispe(*make.CODED_SIZE), *properties], wide=wide)


def shown(data: bytes) -> np.ndarray:
    """The picture as the HEIF decoder (libheif) shows it."""
    pillow_heif.register_heif_opener()
    return np.asarray(Image.open(io.BytesIO(data)).convert("L")).astype(int)


def turned(stored: np.ndarray, orientation: int) -> np.ndarray:
    """The stored picture as Pillow shows it for that Exif orientation."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    file = io.BytesIO(make.by_pillow(Image.fromarray(stored.astype(np.uint8)), "PNG", exif=exif))
    return np.asarray(ImageOps.exif_transpose(Image.open(file))).astype(int)


STEPS = [make.irot(1), make.irot(2), make.irot(3), make.imir(0), make.imir(1)]


@pytest.mark.parametrize("steps", [steps for count in range(3) for steps in product(STEPS, repeat=count)])
def test_size_and_turn_are_those_that_the_decoder_shows(steps):
    """Turns and mirrors apply in the order of the properties, behind the clean aperture."""
    container = parsed(coded(make.CLAP, *steps))
    assert (container.width, container.height) == make.SHOWN_SIZE
    picture = shown(coded(make.CLAP, *steps))
    expected = turned(shown(coded(make.CLAP)), container.turn)
    assert picture.shape == expected.shape
    assert np.abs(picture - expected).max() <= 2


@pytest.mark.parametrize(
    "properties",
    [
        [],
        [make.clap(50, 30, 0, 0)],
        [make.clap(50, 30, 0, 0), make.irot(1)],
        [make.irot(1), make.clap(50, 30, 0, 0)],
        [make.irot(3), make.clap(30, 50, 0, 0), make.imir(1)],
    ],
)
@pytest.mark.parametrize("wide", [False, True])
def test_the_clean_aperture_counts_where_it_stands_among_the_turns(properties, wide):
    """The displayed size is the decoder's whether the picture is cut before it is turned or after."""
    container = parsed(coded(*properties, wide=wide))
    size = (container.width, container.height)
    across, down = size[::-1] if container.turn >= 5 else size
    assert shown(coded(*properties, wide=wide)).shape == (down, across)


@pytest.mark.skipif(not features.check("avif"), reason="this Pillow has no AVIF")
@pytest.mark.parametrize("orientation", range(1, 9))
def test_avif_files_have_the_turn_that_pillow_was_told_to_write(orientation):
    """Pillow turns the Exif orientation into irot and imir when it writes AVIF (libavif)."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    data = make.by_pillow(Image.effect_noise((64, 40), 60).convert("RGB"), "AVIF", exif=exif, xmp=XMP)
    container = parsed(data)
    assert (container.format, container.width, container.height) == ("AVIF", 64, 40)
    assert (container.turn, container.xmp, container.damage) == (orientation, XMP, None)
    assert Image.open(io.BytesIO(data)).getexif().get(0x0112, 1) == orientation


def test_a_file_without_a_turn_is_upright_whatever_its_exif_says():
    """The Exif orientation in HEIF only describes (ISO/IEC 23008-12)."""
    container = parsed(heif([PICTURE, exif_item(describes=1)], [SIZE]))
    assert (container.format, container.turn, container.exif) == ("HEIF", 1, EXIF)


@pytest.mark.parametrize(
    "data",
    [
        struct.pack(">I", 0) + EXIF,
        struct.pack(">I", 6) + b"Exif\0\0" + EXIF,
        struct.pack(">I", 3) + b"any" + EXIF,
        struct.pack(">I", 0) + b"Exif\0\0" + EXIF,
        b"Exif\0\0" + EXIF,
        EXIF,
    ],
)
def test_exif_is_found_behind_its_offset_and_where_writers_go_astray(data):
    """The item begins with the offset of the TIFF header (ISO/IEC 23008-12, annex A.2.1)."""
    assert parsed(heif([PICTURE, Item(b"Exif", data)], [SIZE])).exif == EXIF


@pytest.mark.parametrize("data", [b"", b"\0\0", struct.pack(">I", 1 << 31) + b"zz", struct.pack(">I", 0) + b"junk"])
def test_an_exif_item_that_holds_none_gives_none(data):
    """Broken metadata never break the picture."""
    container = parsed(heif([PICTURE, Item(b"Exif", data)], [SIZE]))
    assert (container.exif, container.damage) == (None, None)


def test_metadata_of_another_picture_are_not_the_main_ones():
    """In a file of several pictures each has its own Exif and XMP."""
    other = EXIF.replace(b"\0\x06\0\0", b"\0\x03\0\0")
    items = [PICTURE, PICTURE, exif_item(other, describes=2), exif_item(describes=1)]
    items += [xmp_item(b"other", describes=2), xmp_item(describes=1)]
    container = parsed(heif(items, [SIZE]))
    assert (container.exif, container.xmp) == (EXIF, XMP)
    assert parsed(heif(items[:3], [SIZE])).exif is None


def test_the_spans_hold_the_pictures_in_the_order_of_the_items_without_metadata_and_thumbnails():
    """Tiles, depth maps and the like are picture; Exif, XMP, other texts and thumbnails are not."""
    items = [
        exif_item(),
        Item(b"hvc1", b"tile one", extents=3),
        xmp_item(),
        Item(b"hvc1", b"small", thumbnail_of=5),
        Item(b"grid", b"grid", in_idat=True),
        Item(b"uri ", b"address"),
        Item(b"mime", b"text", b"text/plain"),
        Item(b"hvc1", b"tile two"),
    ]
    data = heif(items, [SIZE], primary=5, gap=b"--")
    container = parsed(data)
    assert b"".join(data[s : s + n] for s, n in container.picture_spans) == b"tile onegridtile two"
    assert container.damage is None


def key_of(data: bytes) -> str:
    return picture_key(io.BytesIO(data), len(data), parsed(data).picture_spans)


@settings(deadline=None)
@given(
    gap=st.binary(max_size=40),
    wide=st.booleans(),
    extents=st.integers(1, 5),
    metadata=st.lists(
        st.builds(exif_item, st.binary(max_size=90)) | st.builds(xmp_item, st.binary(max_size=90)), max_size=3
    ),
)
def test_moved_and_retagged_pictures_keep_their_key(gap, wide, extents, metadata):
    """Where the data lie, in how many stretches, and what metadata stand behind them do not change the photo."""
    tiles = [Item(b"hvc1", bytes(range(200)) * n) for n in (300, 400)]
    moved = [Item(tile.kind, tile.data, extents=extents) for tile in tiles]
    assert key_of(heif([*moved, *metadata], [SIZE], gap=gap, wide=wide)) == key_of(heif(tiles, [SIZE]))


@pytest.mark.parametrize("cut", [1, 20, 90])
def test_a_file_cut_in_its_pictures_is_damaged(cut):
    """A table of contents that points beyond the end tells that the file is cut off; the spans stay inside."""
    data = heif([PICTURE, Item(b"hvc1", bytes(80))], [SIZE])[:-cut]
    container = parsed(data)
    assert (container.width, container.damage) == (40, CUT_OFF)
    assert all(start + length <= len(data) for start, length in container.picture_spans)


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (heif([PICTURE], []), "no size"),
        (heif([PICTURE], [SIZE], properties_of=2), "no size"),
        (heif([PICTURE], [ispe(0, 30)]), "no size"),
        (heif([PICTURE], [SIZE, make.box(b"clap", bytes(32))]), "no size"),
        (heif([PICTURE], [SIZE], primary=2).replace(b"ipma", b"zzzz"), "no size"),
        (make.box(b"ftyp", b"heic", bytes(4)) + make.box(b"mdat", bytes(50)), "no table of contents"),
        (heif([PICTURE], [SIZE])[:60], "cut short|main one|ends inside"),
    ],
)
def test_a_file_without_a_size_or_a_table_cannot_be_used(data, reason):
    """Without the size of a main picture there is nothing to index."""
    with pytest.raises(BrokenContainer, match=reason):
        parsed(data)


def test_a_picture_whose_data_cannot_be_placed_is_identified_by_the_whole_file():
    """Data that lie in another item, or in another file, leave no spans, and are no damage."""
    elsewhere = heif([PICTURE], [SIZE]).replace(struct.pack(">HHHH", 1, 0, 0, 1), struct.pack(">HHHH", 1, 2, 0, 1))
    container = parsed(elsewhere)
    assert (container.width, container.picture_spans, container.damage) == (40, (), None)


def test_metadata_larger_than_a_header_may_be_are_left_out():
    """Seventeen megabytes of XMP are not read."""
    container = parsed(heif([PICTURE, xmp_item(bytes(17 << 20))], [SIZE]))
    assert (container.xmp, container.damage) == (None, None)


def test_metadata_beyond_the_end_of_the_file_are_left_out():
    """A cut in the metadata at the end leaves the picture whole."""
    container = parsed(heif([PICTURE, exif_item(), xmp_item()], [SIZE])[:-60])
    assert (container.exif, container.xmp, container.damage) == (None, None, None)
