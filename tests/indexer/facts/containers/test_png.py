"""PNG chunks."""

import io

import pytest
from PIL import Image, PngImagePlugin

from indexer.facts.containers import BrokenContainer
from indexer.facts.containers.values import CUT_OFF
from tests.indexer.facts.containers.file_makers import EXIF, XMP, by_pillow, chunk, parsed, png


@pytest.mark.parametrize("mode", ["RGB", "RGBA", "L", "P", "1", "I;16"])
def test_size_and_metadata_are_those_that_pillow_wrote(mode):
    """Every colour type gives its size, eXIf and XMP, and a whole picture."""
    text = PngImagePlugin.PngInfo()
    text.add_itxt("XML:com.adobe.xmp", XMP.decode(), zip=True)
    data = by_pillow(Image.new(mode, (90, 50)), "PNG", exif=EXIF, pnginfo=text)
    container = parsed(data)
    assert (container.format, container.width, container.height) == ("PNG", 90, 50)
    assert (container.turn, container.exif, container.xmp, container.damage) == (None, EXIF, XMP, None)


def test_the_picture_is_its_palette_and_its_data_in_the_order_of_the_file():
    """Spans hold payloads only, neither lengths nor checksums; a picture may come in many pieces."""
    data = png(chunk(b"PLTE", b"palett"), chunk(b"tEXt", b"a\0b"), chunk(b"IDAT", b"one"), chunk(b"IDAT", b"two"))
    assert [data[start : start + length] for start, length in parsed(data).picture_spans] == [b"palett", b"one", b"two"]


def test_exif_after_the_picture_is_found():
    """The eXIf chunk may stand anywhere between header and end (PNG, third edition, 11.3.3.6)."""
    assert parsed(png(chunk(b"IDAT", b"data"), chunk(b"eXIf", EXIF))).exif == EXIF


@pytest.mark.parametrize("cut", [5, 12, 13, 40])
def test_a_file_without_its_end_is_cut_off(cut):
    """A PNG that stops in its end chunk, between chunks or in its data says so; the spans stay in the file."""
    data = png(chunk(b"IDAT", b"d" * 100))[:-cut]
    container = parsed(data)
    assert container.damage == CUT_OFF
    assert all(start + length <= len(data) for start, length in container.picture_spans)


def test_pillow_agrees_that_a_cut_file_has_no_whole_picture():
    """What is called cut off does not load."""
    data = by_pillow(Image.effect_noise((200, 200), 80), "PNG")[:-2000]
    assert parsed(data).damage == CUT_OFF
    with pytest.raises((OSError, SyntaxError)):
        Image.open(io.BytesIO(data)).load()


def test_a_file_with_an_end_and_no_data_is_not_whole():
    """An end chunk alone does not make a picture."""
    assert parsed(png(chunk(b"PLTE", b"palett"))).damage == CUT_OFF


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (png(width=0), "size of zero"),
        (png().replace(b"IHDR", b"CgBI"), "first chunk"),
        (png()[:20], "ends inside its header"),
    ],
)
def test_a_header_that_gives_no_size_cannot_be_used(data, reason):
    """Without IHDR and a size there is nothing to index."""
    with pytest.raises(BrokenContainer, match=reason):
        parsed(data)


def test_more_chunks_than_a_picture_can_have_are_refused():
    """The walk over the chunks is bounded."""
    with pytest.raises(BrokenContainer, match="more chunks"):
        parsed(png(chunk(b"tEXt") * 200_001))
