"""Pictures of every kind come out upright, in 8 bits, in sRGB, on white."""

import base64
import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageFile

from indexer.facts import pictures
from indexer.facts.pictures import PictureError, open_picture
from tests.orientation_table import DISPLAYED

#: A 64 x 32 picture, red left and blue right, its `irot` 90 degrees clockwise and Exif orientation 6 beside that.
TURNED_HEIC = base64.b64decode(
    "AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAchtZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAAADRpbG9j"
    "AAAAAERAAAIAAQAAAAAB7AABAAAAAAAAAHQAAgAAAAACYAABAAAAAAAAACQAAAA4aWluZgAAAAAAAgAAABVpbmZlAgAAAAABAABodmMxAAAA"
    "ABVpbmZlAgAAAQACAABFeGlmAAAAAA5waXRtAAAAAAABAAABB2lwcnAAAADmaXBjbwAAAHZodmNDAQNwAAAAkAAAAAAAHvAA/P34+AAADwNg"
    "AAEAGEABDAH//wNwAAADAJAAAAMAAAMAHroCQGEAAQAqQgEBA3AAAAMAkAAAAwAAAwAeoCCBBZbq5Ka5uAhoMCAAAAMDIAAAAwAhYgABAAZE"
    "AcFzwIkAAAATY29scm5jbHgAAQANAAaAAAAAFGlzcGUAAAAAAAAAQAAAAEAAAAAoY2xhcAAAAEAAAAABAAAAIAAAAAEAAAAAAAAAAv///+AA"
    "AAACAAAAEHBpeGkAAAAAAwgICAAAAAlpcm90AwAAABlpcG1hAAAAAAAAAAEAAQaBAgMFhIYAAAAaaXJlZgAAAAAAAAAOY2RzYwACAAEAAQAA"
    "AKBtZGF0AAAAcCgBrwngOSMkv//40n//9/QeQ/YKWcF//fjmff4EF//+q+dRXZU53HWHUzNZ13oW/EqR3FnQSaCykWAEYciZQLPifz/mhiKE"
    "l5gzX6eauZ2M+0LXrx4xVOQPyjvt3iI7zMIPSA1/VovCjpmafvOxNcAAAAAGRXhpZgAATU0AKgAAAAgAAQESAAMAAAABAAYAAAAAAAA="
)


def saved(image: Image.Image, file_format: str, **options: object) -> io.BytesIO:
    file = io.BytesIO()
    image.save(file, file_format, **options)
    file.seek(0)
    return file


def six_patches() -> Image.Image:
    """[[1,2,3],[4,5,6]] as grey patches of 16 x 16 pixels, each 40 times its number."""
    values = np.kron(np.array([[1, 2, 3], [4, 5, 6]]) * 40, np.ones((16, 16))).astype(np.uint8)
    return Image.fromarray(values).convert("RGB")


def patches_of(image: Image.Image) -> list[list[int]]:
    centres = np.asarray(image.convert("L"))[8::16, 8::16].astype(float)
    return [[round(value / 40) for value in row] for row in centres.tolist()]


@pytest.mark.parametrize("file_format", ["JPEG", "PNG", "WEBP", "TIFF"])
@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("within", [None, 48])
def test_all_orientations_come_out_upright(file_format: str, orientation: int, within: int | None) -> None:
    """Every orientation of the Exif table is displayed as the table says, whole and as a thumbnail."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    file = saved(six_patches(), file_format, exif=exif)
    assert patches_of(open_picture(file, within).image) == DISPLAYED[orientation]


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("mode", ["L", "RGB", "RGBA"])
def test_an_uncompressed_tiff_opened_by_name_comes_out_upright(tmp_path: Path, mode: str, orientation: int) -> None:
    """Pillow 13 maps such a file into memory and scrambles it, unless it is handed the open file."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    picture = Image.fromarray(np.arange(24, dtype=np.uint8).reshape(4, 6) * 10).convert(mode)
    picture.save(tmp_path / "scan.tif", exif=exif)
    whole = open_picture(saved(picture, "TIFF", exif=exif, compression="tiff_lzw")).image
    assert np.array_equal(np.asarray(open_picture(str(tmp_path / "scan.tif")).image), np.asarray(whole))


@pytest.mark.parametrize("orientation", [0, 9, 60000])
def test_reserved_orientations_count_as_upright(orientation: int) -> None:
    """A value outside of the table turns nothing."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    assert patches_of(open_picture(saved(six_patches(), "JPEG", exif=exif)).image) == DISPLAYED[1]


def test_a_broken_exif_block_does_not_hide_the_picture() -> None:
    """Exif that cannot be read counts as none."""
    file = saved(six_patches(), "JPEG", exif=b"Exif\0\0II*\0\xff\xff\xff\x7f")
    assert patches_of(open_picture(file).image) == DISPLAYED[1]


def test_heif_is_turned_once() -> None:
    """HEIF is turned by its own `irot` and not a second time by the Exif orientation (ISO/IEC 23008-12)."""
    image = open_picture(io.BytesIO(TURNED_HEIC)).image
    assert image.size == (32, 64)
    top, bottom = image.getpixel((16, 8)), image.getpixel((16, 56))
    assert isinstance(top, tuple)
    assert isinstance(bottom, tuple)
    assert top[0] > 150 > top[2]
    assert bottom[2] > 150 > bottom[0]


@pytest.mark.parametrize(
    ("image", "file_format", "expected"),
    [
        (Image.new("1", (8, 8), 1), "PNG", (255, 255, 255)),
        (Image.new("L", (8, 8), 77), "PNG", (77, 77, 77)),
        (Image.new("LA", (8, 8), (0, 51)), "PNG", (204, 204, 204)),
        (Image.new("RGBA", (8, 8), (255, 0, 0, 0)), "PNG", (255, 255, 255)),
        (Image.new("RGBA", (8, 8), (255, 0, 0, 51)), "PNG", (255, 204, 204)),
        (Image.new("RGB", (8, 8), (10, 200, 30)).quantize(2), "PNG", (10, 200, 30)),
        (Image.new("CMYK", (8, 8), (0, 255, 255, 0)), "TIFF", (255, 0, 0)),
        (Image.new("YCbCr", (8, 8), (76, 85, 255)), "TIFF", (254, 0, 0)),
        (Image.fromarray(np.full((8, 8), 65535, np.uint16)), "PNG", (255, 255, 255)),
        (Image.fromarray(np.full((8, 8), 257 * 99, np.uint16)), "TIFF", (99, 99, 99)),
        (Image.fromarray(np.full((8, 8), 1, np.int32)), "TIFF", (0, 0, 0)),
    ],
)
@pytest.mark.parametrize("within", [None, 4])
def test_every_mode_becomes_plain_colour(
    image: Image.Image, file_format: str, expected: tuple[int, int, int], within: int | None
) -> None:
    """Grey, palette, ink, 16-bit and see-through pixels come out as RGB of 8 bits on white."""
    shown = open_picture(saved(image, file_format), within).image
    assert shown.mode == "RGB"
    assert shown.getpixel((2, 2)) == pytest.approx(expected, abs=1)


def test_a_see_through_palette_lies_on_white() -> None:
    """The see-through entry of a palette shows the paper."""
    image = Image.new("P", (8, 8), 0)
    image.putpalette([1, 2, 3, 200, 100, 50])
    assert open_picture(saved(image, "PNG", transparency=0)).image.getpixel((4, 4)) == (255, 255, 255)


@pytest.mark.parametrize("values", [np.full((8, 8), 1e5, np.float32), np.full((8, 8), 70_000, np.int32)])
def test_pixels_of_an_unknown_range_are_refused(values: np.ndarray) -> None:
    """Nothing is guessed of numbers whose white is not known."""
    with pytest.raises(PictureError, match="of an unknown range"):
        open_picture(saved(Image.fromarray(values), "TIFF"))


def test_the_first_of_many_frames_is_shown() -> None:
    """Of several pictures in one file the first counts."""
    frames = [Image.new("RGB", (8, 8), colour) for colour in ("red", "blue")]
    file = saved(frames[0], "TIFF", save_all=True, append_images=frames[1:])
    assert open_picture(file).image.getpixel((4, 4)) == (255, 0, 0)


def test_a_cut_off_picture_is_refused() -> None:
    """Half a JPEG is named, not filled up with grey."""
    data = saved(Image.effect_noise((200, 200), 50), "JPEG").getvalue()
    with pytest.raises(PictureError, match=r"damaged or cut off .*truncated"):
        open_picture(io.BytesIO(data[: len(data) // 2]))
    assert ImageFile.LOAD_TRUNCATED_IMAGES is False


@pytest.mark.parametrize("data", [b"", b"hello", b"\xff\xd8\xff", b"\0\0\0\x18ftypheic" + bytes(40)])
def test_what_is_no_picture_is_refused(data: bytes) -> None:
    """Text, nothing and mere beginnings are named in words without an address."""
    with pytest.raises(PictureError, match=r"^not a picture that can be opened$"):
        open_picture(io.BytesIO(data))


def test_the_pixel_limit_stays_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A picture beyond the limit is refused from its header; the limit is an explicit one."""
    monkeypatch.setattr(pictures, "PIXEL_LIMIT", 1000)
    path = tmp_path / "large.png"
    for side in (33, 100):
        Image.new("1", (side, side)).save(path)
        with pytest.raises(PictureError, match="pixels"):
            open_picture(str(path))
        assert Image.MAX_IMAGE_PIXELS == 1000
    monkeypatch.undo()
    assert open_picture(str(path)).image.size == (100, 100)
    assert Image.MAX_IMAGE_PIXELS == 300_000_000
