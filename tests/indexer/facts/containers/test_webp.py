"""WebP chunks."""

import io

import pytest
from PIL import Image

from indexer.facts.containers import BrokenContainer
from indexer.facts.containers.values import CUT_OFF
from tests.indexer.facts.containers.file_makers import EXIF, XMP, by_pillow, parsed, riff, vp8x, webp

PICTURE = Image.effect_noise((90, 50), 60).convert("RGB")


@pytest.mark.parametrize("mode", ["RGB", "RGBA"])
@pytest.mark.parametrize("options", [{}, {"lossless": True}])
@pytest.mark.parametrize("metadata", [{}, {"exif": b"Exif\0\0" + EXIF, "xmp": XMP}, {"exif": EXIF}])
def test_size_and_metadata_are_those_that_pillow_wrote(mode, options, metadata):
    """Lossy and lossless, with transparency or not, with the Exif identifier or without."""
    container = parsed(by_pillow(PICTURE.convert(mode), "WEBP", **options, **metadata))
    assert (container.format, container.width, container.height) == ("WebP", 90, 50)
    assert container.exif == (EXIF if metadata else None)
    assert container.xmp == metadata.get("xmp")
    assert (container.turn, container.damage) == (None, None)


@pytest.mark.parametrize("size", [(1, 1), (16383, 1), (1, 16383)])
@pytest.mark.parametrize("lossless", [True, False])
def test_the_smallest_and_the_largest_sides_are_read(size, lossless):
    """RFC 9649 keeps sides in 14 bits, lossless ones less one."""
    container = parsed(by_pillow(Image.new("RGB", size), "WEBP", lossless=lossless))
    assert (container.width, container.height) == size


def test_the_spans_hold_the_picture_without_its_metadata():
    """Colours, transparency and frames are picture; Exif, XMP and colour profile are not."""
    chunks = [riff(kind, kind + b"data") for kind in (b"ICCP", b"ALPH", b"VP8 ", b"EXIF", b"XMP ", b"ANMF", b"zzzz")]
    data = webp(vp8x(90, 50), *chunks)
    spans = [data[start : start + length] for start, length in parsed(data).picture_spans]
    assert spans == [b"ALPHdata", b"VP8 data", b"ANMFdata"]


def test_an_animation_has_the_size_of_its_canvas():
    """Pillow's animated file has the size that Pillow gives."""
    frames = [PICTURE, PICTURE.rotate(180)]
    data = by_pillow(frames[0], "WEBP", save_all=True, append_images=frames[1:])
    container = parsed(data)
    assert (container.width, container.height) == Image.open(io.BytesIO(data)).size
    assert len(container.picture_spans) == 2


@pytest.mark.parametrize("cut", [1, 10, 500])
def test_a_cut_file_is_damaged_as_pillow_finds_too(cut):
    """A picture that lacks its end says so, and does not load."""
    data = by_pillow(PICTURE, "WEBP", quality=90)[:-cut]
    container = parsed(data)
    assert (container.width, container.height, container.damage) == (90, 50, CUT_OFF)
    assert all(start + length <= len(data) for start, length in container.picture_spans)
    with pytest.raises((OSError, EOFError)):
        Image.open(io.BytesIO(data)).load()


@pytest.mark.parametrize(
    "data", [webp(), webp(riff(b"VP8 ", b"junk")), webp(riff(b"EXIF", EXIF)), b"RIFF\4\0\0\0WEBPVP8X"]
)
def test_a_file_without_a_size_cannot_be_used(data):
    """Without a chunk that gives the size there is nothing to index."""
    with pytest.raises(BrokenContainer, match="gives the size"):
        parsed(data)


def test_a_size_of_zero_cannot_be_used():
    """A picture without width is no picture."""
    with pytest.raises(BrokenContainer, match="size of zero"):
        parsed(webp(riff(b"VP8 ", bytes(3) + b"\x9d\x01\x2a" + bytes(4))))


def test_more_chunks_than_a_picture_can_have_are_refused():
    """The walk over the chunks is bounded."""
    with pytest.raises(BrokenContainer, match="more chunks"):
        parsed(webp(vp8x(9, 9), riff(b"zzzz") * 100_001))
