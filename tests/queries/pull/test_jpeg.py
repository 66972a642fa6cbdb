"""The JPEGs of --jpeg, read back by two readers."""

import io
from collections.abc import Callable
from typing import Any

import exifread
import pytest
from PIL import Image, JpegImagePlugin

from indexer.facts.colour_profiles import srgb_profile
from indexer.facts.pictures import PictureError
from queries.photos import Photo
from queries.pull.jpeg import as_upright_jpeg

MakePhoto = Callable[..., Photo]

#: ITU-T T.81, Annex K, table K.1, first row of the luminance table (from memory).
T81_LUMINANCE_FIRST_ROW = (16, 11, 10, 16, 24, 40, 51, 61)


def noisy(mode: str = "RGB", size: tuple[int, int] = (64, 48)) -> Image.Image:
    return Image.effect_noise(size, 60).convert(mode)


def encoded(image: Image.Image, file_format: str = "JPEG", **options: Any) -> bytes:
    file = io.BytesIO()
    image.save(file, file_format, **options)
    return file.getvalue()


def reopened(data: bytes) -> JpegImagePlugin.JpegImageFile:
    image = Image.open(io.BytesIO(data))
    assert isinstance(image, JpegImagePlugin.JpegImageFile)
    return image


@pytest.mark.parametrize("mode", ["RGB", "L"])
def test_quality_and_sampling(make_photo: MakePhoto, mode: str) -> None:
    """Quality 95: Pillow's tables for 95, which are T.81's scaled as the encoder documents; 4:4:4; baseline."""
    jpeg, note = as_upright_jpeg(encoded(noisy(mode)), make_photo())
    image, reference = reopened(jpeg), reopened(encoded(noisy(), quality=95, subsampling=0))
    assert note == ""
    assert image.quantization == reference.quantization
    scale = 200 - 2 * 95
    assert tuple(image.quantization[0][:8]) == tuple((value * scale + 50) // 100 for value in T81_LUMINANCE_FIRST_ROW)
    assert [component[1:3] for component in image.layer] == [(1, 1)] * 3
    assert "progressive" not in image.info


@pytest.mark.parametrize("orientation", range(1, 9))
def test_the_orientation_is_baked_in(make_photo: MakePhoto, orientation: int) -> None:
    """Sides swap where the tag says so, and no tag is left to turn it again."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    sides = (48, 64) if orientation >= 5 else (64, 48)
    photo = make_photo(orientation=orientation, width=sides[0], height=sides[1])
    image = reopened(as_upright_jpeg(encoded(noisy(), exif=exif), photo)[0])
    assert image.size == sides
    assert 0x0112 not in image.getexif()


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({}, "2026:03:30 09:15:20"),
        ({"taken": "2026-03-30T09:15", "precision": "minute"}, "2026:03:30 09:15:00"),
        ({"taken": "2026-03-30", "precision": "day"}, None),
        ({"taken": None, "precision": "unknown"}, None),
    ],
)
def test_only_the_capture_time_goes_along(make_photo: MakePhoto, facts: dict[str, Any], expected: str | None) -> None:
    """Of all metadata only DateTimeOriginal stays (Exif 0x9003), and only where a time of day is known."""
    exif = Image.Exif()
    exif[0x010F], exif[0x0132] = "Quay", "2001:01:01 00:00:00"
    exif[0x8825] = {1: "N", 2: (59.0, 0.0, 0.0)}
    original = encoded(noisy(), exif=exif, comment=b"a remark", dpi=(300, 300))
    jpeg, _ = as_upright_jpeg(original, make_photo(**facts))
    tags = {name: str(value) for name, value in exifread.process_file(io.BytesIO(jpeg)).items() if "Offset" not in name}
    assert tags == ({"EXIF DateTimeOriginal": expected} if expected else {})
    info = reopened(jpeg).info
    assert not {"comment", "xmp"} & info.keys()
    assert info["jfif_unit"] == 0  # JFIF 1.02: no unit, so no resolution


def test_the_srgb_profile_is_embedded_and_always_the_same(make_photo: MakePhoto) -> None:
    """The same original gives the same bytes: the profile has a fixed date of making (ICC.1, bytes 24 to 35)."""
    original = encoded(noisy())
    first, second = (as_upright_jpeg(original, make_photo())[0] for _ in range(2))
    assert first == second
    profile = reopened(first).info["icc_profile"]
    assert profile == srgb_profile()
    assert profile[16:20] == b"RGB "
    assert profile[24:36] == bytes.fromhex("07d000010001000000000000")


@pytest.mark.parametrize("file_format", ["PNG", "WEBP", "TIFF"])
def test_other_formats_are_turned_into_jpeg(make_photo: MakePhoto, file_format: str) -> None:
    """Whatever can be opened comes out as a JPEG of the same picture."""
    original = Image.new("RGB", (64, 48), (30, 140, 200))
    image = reopened(as_upright_jpeg(encoded(original, file_format), make_photo(format=file_format))[0])
    assert image.getpixel((32, 24)) == pytest.approx((30, 140, 200), abs=3)


def test_raw_data_and_previews_are_refused(make_photo: MakePhoto) -> None:
    """A small preview is never passed off as the photo."""
    with pytest.raises(PictureError, match="raw data are not turned into a JPEG; pull it without --jpeg"):
        as_upright_jpeg(encoded(noisy()), make_photo(format="raw"))
    with pytest.raises(PictureError, match="only a preview of 64 x 48 pixels can be opened"):
        as_upright_jpeg(encoded(noisy(), "TIFF"), make_photo(format="TIFF", width=6000, height=4000))


def test_a_side_beyond_the_format_is_refused(make_photo: MakePhoto) -> None:
    """A JPEG has at most 65,535 pixels a side (ITU-T T.81), and the encoder a little less."""
    long = encoded(Image.new("L", (65_501, 1)), "PNG")
    with pytest.raises(PictureError, match="65501 x 1 pixels are more than a JPEG holds"):
        as_upright_jpeg(long, make_photo(format="PNG", width=65_501, height=1))
