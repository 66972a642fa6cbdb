"""JPEG headers."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageOps

from indexer.facts.containers import BrokenContainer
from indexer.facts.containers.jpeg import HEADER_DAMAGED, MAX_RESOURCES
from indexer.facts.containers.values import CUT_OFF
from tests.indexer.facts.containers.file_makers import (
    EXIF,
    XMP,
    XMP_IDENTIFIER,
    by_pillow,
    exif_segment,
    frame,
    jpeg,
    parsed,
    segment,
)

TABLES = segment(0xDB, bytes(65))


def noise(width: int, height: int) -> Image.Image:
    return Image.fromarray(np.random.default_rng(7).integers(0, 255, (height, width, 3), dtype=np.uint8))


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("options", [{}, {"progressive": True}, {"quality": 100, "subsampling": 0, "optimize": True}])
def test_size_and_metadata_are_those_that_pillow_wrote(orientation, options):
    """Baseline and progressive files give stored size, Exif with the orientation, XMP, and a whole picture."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    data = by_pillow(noise(90, 50), "JPEG", exif=exif, xmp=XMP, **options)
    container = parsed(data)
    read = Image.Exif()
    read.load(container.exif)
    assert (container.format, container.width, container.height) == ("JPEG", 90, 50)
    assert (read[0x0112], container.turn, container.xmp, container.damage) == (orientation, None, XMP, None)
    shown = ImageOps.exif_transpose(Image.open(io.BytesIO(data))).size
    assert shown == ((50, 90) if orientation >= 5 else (90, 50))


def test_the_picture_data_begin_at_the_first_scan():
    """The span runs from the first start-of-scan marker to the end of the file, later scans and tables included."""
    data = jpeg(exif_segment(), TABLES, frame(9, 7), scan=b"one" + TABLES + segment(0xDA, b"\1\1\0\0\x3f\0") + b"two")
    container = parsed(data)
    scan = data.index(b"\xff\xda")
    assert container.picture_spans == ((scan, len(data) - scan),)


@pytest.mark.parametrize("marker", [m for m in range(0xC0, 0xD0) if m not in (0xC4, 0xC8, 0xCC)])
def test_every_frame_marker_of_the_standard_gives_the_size(marker):
    """SOF0 to SOF15 of ITU-T T.81, table B.1, are frame headers; DHT, JPG and DAC between them are not."""
    others = [segment(m, bytes(20)) for m in (0xC4, 0xC8, 0xCC)]
    container = parsed(jpeg(*others, frame(1234, 567, marker)))
    assert (container.width, container.height) == (1234, 567)


def test_fill_bytes_and_standalone_markers_and_stray_bytes_are_passed_over():
    """T.81 B.1.1.2 allows any number of FF before a marker; RST and TEM carry no length; decoders skip stray bytes."""
    odd = b"\xff" * 5000 + TABLES + b"\xff\xd0\xff\x01" + TABLES + b"stray\xff\0" + exif_segment()
    container = parsed(jpeg(odd, frame(9, 7)))
    assert (container.width, container.height, container.exif, container.damage) == (9, 7, EXIF, None)


def test_the_first_exif_and_the_first_xmp_count():
    """A second block, as of a picture pasted in, is not taken for the photo's own."""
    other = EXIF.replace(b"\0\x06\0\0", b"\0\x03\0\0")
    xmp = [segment(0xE1, XMP_IDENTIFIER + packet) for packet in (XMP, b"second")]
    container = parsed(jpeg(segment(0xE1, b"Exif\0\0junk"), exif_segment(), *xmp, exif_segment(other), frame(9, 7)))
    assert (container.exif, container.xmp) == (EXIF, XMP)


def test_image_resources_are_joined_over_their_segments():
    """Resources go on in the APP13 segments that follow; an APP13 of another kind is passed over."""
    first, second = (segment(0xED, b"Photoshop 3.0\0" + part) for part in (b"8BIM one", b" and two"))
    found = parsed(jpeg(first, segment(0xED, b"Adobe_CM\0"), second, frame(4, 3)))
    assert found.resources == b"8BIM one and two"
    assert parsed(jpeg(frame(4, 3))).resources is None


def test_image_resources_beyond_a_bound_are_left_aside():
    """A header of many segments does not fill the memory."""
    many = [segment(0xED, b"Photoshop 3.0\0" + bytes([n]) * 65_000) for n in range(40)]
    resources = parsed(jpeg(*many, frame(4, 3))).resources
    assert resources[:65_000] == bytes(65_000)
    assert len(resources) <= MAX_RESOURCES


@pytest.mark.parametrize(
    "appended", [b"", b"\0" * 300, b"ftypmp42" + bytes(5_000_000), b"\xff\xd8\xff\xe1 a second picture"]
)
def test_what_follows_the_end_of_the_picture_is_no_damage(appended):
    """An appended video, padding or second picture leaves the photo whole, near the end or far from it."""
    assert parsed(jpeg(frame(9, 7)) + appended).damage is None


@pytest.mark.parametrize("share", [0.2, 0.5, 0.9, 0.999])
def test_a_file_cut_in_its_picture_is_damaged_as_pillow_finds_too(share):
    """Half a download has a size and a span, and says that it is cut off."""
    data = by_pillow(noise(600, 400), "JPEG", quality=95)
    scan = data.index(b"\xff\xda")
    cut = data[: scan + 20 + int((len(data) - scan - 22) * share)]
    container = parsed(cut)
    assert (container.width, container.height, container.damage) == (600, 400, CUT_OFF)
    assert container.picture_spans == ((scan, len(cut) - scan),)
    with pytest.raises(OSError, match="truncated"):
        Image.open(io.BytesIO(cut)).load()


def test_a_download_filled_up_with_zeros_is_cut_off():
    """Space kept for bytes that never came does not make a picture whole."""
    assert parsed(jpeg(frame(9, 7), scan=b"coded" + bytes(200_000), end=b"")).damage == CUT_OFF


def test_an_end_marker_across_two_blocks_of_the_search_is_found():
    """The search for the end of the picture reads backwards, and misses none between its blocks."""
    for padding in range(4090, 4100):
        assert parsed(jpeg(frame(9, 7)) + bytes(padding)).damage is None


def test_a_file_cut_before_its_first_scan_has_a_size_and_no_span():
    """A header alone still gives a row with a size."""
    container = parsed(jpeg(exif_segment(), frame(9, 7), TABLES)[:-40])
    assert (container.width, container.exif, container.picture_spans, container.damage) == (9, EXIF, (), CUT_OFF)


@pytest.mark.parametrize("junk", [b"\xff\xdb\0\1", b"\xff\xd9", bytes(70_000)])
def test_a_header_that_breaks_before_the_first_scan_is_said_to_be_damaged(junk):
    """A length that cannot be, an end before the picture and a stretch of zeros are damage of the header."""
    assert parsed(jpeg(frame(9, 7), junk)).damage == HEADER_DAMAGED


def test_a_file_cut_before_its_size_is_broken_and_still_hands_over_its_metadata():
    """A photo whose size is lost may still say when it was taken."""
    with pytest.raises(BrokenContainer, match="before its header gives the size") as caught:
        parsed(b"\xff\xd8" + exif_segment() + segment(0xE1, XMP_IDENTIFIER + XMP) + b"\xff\xdb\0\x84")
    assert (caught.value.exif, caught.value.xmp) == (EXIF, XMP)


@pytest.mark.parametrize(("width", "height"), [(0, 5), (5, 0)])
def test_a_size_of_zero_cannot_be_used(width, height):
    """A picture without width or height is no picture."""
    with pytest.raises(BrokenContainer, match="size of zero"):
        parsed(jpeg(frame(width, height)))


@settings(deadline=None)
@given(st.binary(max_size=300), st.integers(0, 300))
def test_any_header_bytes_end_in_an_answer(junk, cut):
    """Random segments give a container or the known error."""
    data = (b"\xff\xd8\xff" + junk + frame(9, 7) + jpeg()[2:])[: cut + 3]
    try:
        container = parsed(data)
    except BrokenContainer:
        return
    assert container.width > 0
    assert all(start + length <= len(data) for start, length in container.picture_spans)
