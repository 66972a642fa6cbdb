"""What a file is, by its first bytes."""

import io
import tarfile
import wave
import zipfile

import pytest
from PIL import Image

from indexer.facts.containers.sniff import SNIFFED, sniff
from indexer.facts.containers.values import BrokenContainer, NotAPicture
from tests.indexer.facts.containers.file_makers import box, by_pillow, full


def brands(*names: bytes) -> bytes:
    return box(b"ftyp", names[0], bytes(4), *names[1:]) + box(b"mdat")


@pytest.mark.parametrize(
    ("name", "kind"), [("JPEG", "jpeg"), ("PNG", "png"), ("WEBP", "webp"), ("TIFF", "tiff"), ("MPO", "jpeg")]
)
def test_what_pillow_writes_is_told_by_its_content(name, kind):
    """The formats of photos are recognised as an independent writer makes them."""
    assert sniff(by_pillow(Image.new("RGB", (8, 8)), name)[:SNIFFED]) == kind


@pytest.mark.parametrize(
    ("names", "kind"),
    [
        # Brands as ISO/IEC 23008-12 and the AV1 image format define them.
        ((b"heic", b"mif1", b"heic"), "heif"),
        ((b"heix",), "heif"),
        ((b"hevc", b"msf1", b"hevc"), "heif"),
        ((b"mif1", b"heic", b"hevc"), "heif"),
        ((b"mif1", b"avif", b"miaf"), "avif"),
        ((b"mif1",), "heif"),
        ((b"msf1", b"hevc"), "heif"),
        ((b"avif", b"mif1"), "avif"),
        ((b"avis", b"avif"), "avif"),
        ((b"crx ", b"crx ", b"isom"), "crx"),
        # A still picture that carries its moment as a video beside it stays a picture.
        ((b"heic", b"mif1", b"mp42", b"isom"), "heif"),
    ],
)
def test_files_of_boxes_are_told_by_their_brands(names, kind):
    """The major brand decides, and the codec's brand where it leaves that open."""
    assert sniff(brands(*names)) == kind


@pytest.mark.parametrize("major", [b"isom", b"iso6", b"mp41", b"mp42", b"qt  ", b"3gp5", b"M4V ", b"avc1", b"MSNV"])
def test_a_video_is_a_video_even_with_a_picture_brand_among_the_compatible_ones(major):
    """A video is never taken for a photo."""
    with pytest.raises(NotAPicture) as caught:
        sniff(brands(major, b"mif1"))
    assert caught.value.what == "a video"


def zipped() -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("a.txt", "text")
    return file.getvalue()


def tarred() -> bytes:
    file = io.BytesIO()
    with tarfile.open(fileobj=file, mode="w") as archive:
        archive.addfile(tarfile.TarInfo("a.txt"))
    return file.getvalue()


def sound() -> bytes:
    file = io.BytesIO()
    with wave.open(file, "wb") as recording:
        recording.setnchannels(1)
        recording.setsampwidth(2)
        recording.setframerate(8000)
        recording.writeframes(bytes(200))
    return file.getvalue()


FLAT = Image.new("P", (8, 8))


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"", "an empty file"),
        (by_pillow(FLAT, "GIF"), "a GIF animation or drawing"),
        (by_pillow(FLAT, "BMP"), "a BMP drawing"),
        (by_pillow(FLAT.convert("RGB"), "PDF"), "a PDF document"),
        (by_pillow(FLAT, "ICO"), "an icon"),
        (zipped(), "a zip archive"),
        (tarred(), "an archive"),
        (sound(), "a sound recording"),
        (brands(b"M4A ", b"isom"), "a sound recording"),
        (brands(b"zzzz"), "an unknown kind of file"),
        (b"RIFF\x24\0\0\0AVI LIST", "a video"),
        (b"RIFF\x24\0\0\0zzzz", "an unknown kind of file"),
        (b"RIFF", "plain text"),
        (box(b"moov", bytes(20)), "a video"),
        (b"\x1a\x45\xdf\xa3\x9f\x42\x86\x81", "a video"),
        (b"\0\0\1\xba\x44\0\4\0", "a video"),
        ((b"\x47" + bytes(187)) * 6, "a video"),
        ((bytes(4) + b"\x47" + bytes(187)) * 6, "a video"),
        ("A note about the harbour: 20 °C\n".encode() * 60, "plain text"),
        ("wind and weather".encode("utf-16"), "plain text"),
        ("ž".encode() * 600, "plain text"),
        (b"\xff\xd9\xff\xd8" + bytes(100), "an unknown kind of file"),
        (bytes(4000), "an unknown kind of file"),
        (b"junk before it \0" + by_pillow(Image.new("RGB", (8, 8)), "JPEG"), "an unknown kind of file"),
    ],
)
def test_anything_else_is_named_in_plain_words(data, what):
    """What is no photo says what it is, as far as its first bytes tell."""
    with pytest.raises(NotAPicture) as caught:
        sniff(data[:SNIFFED])
    assert caught.value.what == what


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (by_pillow(Image.new("L", (8, 8)), "TIFF", big_tiff=True), "a BigTIFF picture"),
        (b"\xff\x0a\0\0", "a JPEG XL picture"),
        (b"\0\0\0\x0cJXL \r\n\x87\n", "a JPEG XL picture"),
        (b"\0\0\0\x0cjP  \r\n\x87\n", "a JPEG 2000 picture"),
        (b"FOVb\0\0", "a raw file of another kind"),
    ],
)
def test_photos_in_formats_that_are_not_read_are_not_passed_over_in_silence(data, what):
    """A photo that cannot be read is said to be one."""
    with pytest.raises(BrokenContainer, match=what):
        sniff(data)


def test_the_signature_of_one_box_is_not_read_beyond_its_end():
    """A picture brand behind the brand box does not make a picture."""
    with pytest.raises(NotAPicture):
        sniff(box(b"ftyp", b"zzzz", bytes(4)) + full(b"heic", 0, 0) + b"heicheic")
