"""Metadata in the text chunks of PNG."""

import tracemalloc
import zlib

import pytest

from indexer.facts.containers.png_text import keyword_of, metadata_of
from tests.indexer.facts.containers.file_makers import EXIF, XMP, XMP_IDENTIFIER, chunk, parsed, png

KEY = b"XML:com.adobe.xmp\0"
DATA = chunk(b"IDAT", b"data")


def profile(content: bytes) -> bytes:
    digits = content.hex().encode()
    lines = b"\n".join(digits[i : i + 72] for i in range(0, len(digits), 72))
    return b"\nexif\n%8d\n%s\n" % (len(content), lines)


@pytest.mark.parametrize("rest", [b"\0\0\0\0" + XMP, b"\1\0en\0XMP\0" + zlib.compress(XMP)])
def test_xmp_is_read_plain_and_deflated(rest):
    """iTXt carries a flag, a method, a language and a translated keyword before its text (PNG 11.3.3.4)."""
    assert parsed(png(chunk(b"iTXt", KEY + rest), DATA)).xmp == XMP


@pytest.mark.parametrize("name", [b"exif", b"APP1"])
@pytest.mark.parametrize("block", [EXIF, b"Exif\0\0" + EXIF])
def test_exif_is_read_from_a_raw_profile(name, block):
    """Older converters wrote Exif as hexadecimal digits, deflated or not."""
    keyword = b"Raw profile type " + name + b"\0"
    for made in (
        chunk(b"zTXt", keyword + b"\0" + zlib.compress(profile(block))),
        chunk(b"tEXt", keyword + profile(block)),
    ):
        assert parsed(png(made, DATA)).exif == EXIF


def test_xmp_is_read_from_a_raw_profile():
    """The same holds for an APP1 block that is XMP."""
    made = chunk(b"tEXt", b"Raw profile type APP1\0" + profile(XMP_IDENTIFIER + XMP))
    assert parsed(png(made, DATA)).xmp == XMP


def test_the_exif_chunk_of_the_standard_comes_before_a_raw_profile():
    """A converter that writes both keeps the standard one up to date."""
    other = EXIF.replace(b"\0\x06\0\0", b"\0\x03\0\0")
    made = chunk(b"tEXt", b"Raw profile type exif\0" + profile(other))
    assert parsed(png(made, DATA, chunk(b"eXIf", EXIF))).exif == EXIF
    assert parsed(png(chunk(b"eXIf", EXIF), made, DATA)).exif == EXIF


@pytest.mark.parametrize("start", [b"", b"Comment\0text", b"XML:com.adobe.xmpz\0", b"Raw profile type icc\0"])
def test_other_keywords_are_left_alone(start):
    """Comments and colour profiles are no metadata of ours."""
    assert keyword_of(start) is None


@pytest.mark.parametrize(
    ("kind", "content"),
    [
        (b"iTXt", KEY),
        (b"iTXt", KEY + b"\0\0"),
        (b"iTXt", KEY + b"\1\0\0\0no deflated data"),
        (b"iTXt", KEY + b"\1\0\0\0" + zlib.compress(XMP)[:-3]),
        (b"zTXt", b"Raw profile type exif\0"),
        (b"tEXt", b"Raw profile type exif\0\nexif"),
        (b"tEXt", b"Raw profile type exif\0\nexif\n 3\nno digits"),
        (b"tEXt", b"Raw profile type exif\0\nexif\n 3\n\xff\xff"),
    ],
)
def test_a_chunk_that_cannot_be_read_gives_nothing(kind, content):
    """Broken metadata never break the picture."""
    assert metadata_of(kind, content) is None
    assert parsed(png(chunk(kind, content), DATA)).damage is None


def test_text_that_inflates_without_end_is_given_up_and_tried_once():
    """A kilobyte that claims a gigabyte takes no more memory than a header may, however often it comes."""
    bomb = chunk(b"iTXt", KEY + b"\1\0\0\0" + zlib.compress(bytes(60 << 20), 9))
    tracemalloc.start()
    container = parsed(png(*[bomb] * 50, DATA))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert container.xmp is None
    assert peak < 64 << 20
