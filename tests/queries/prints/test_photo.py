"""A photo in its cell: the right part, upright, in sRGB, resampled once."""

import io
from pathlib import Path
from random import Random

import numpy as np
import pytest
from PIL import Image

from indexer.facts.pictures import PictureError
from queries.cropping.values import WHOLE, Window
from queries.prints.photo import photo_for
from tests.indexer.facts.containers.file_makers import exif_segment, frame, jpeg, tiff
from tests.orientation_table import DISPLAYED
from tests.queries.prints.made_jobs import save


def six_patches(side: int = 40) -> Image.Image:
    """[[1,2,3],[4,5,6]] as grey patches, each 40 times its number."""
    values = np.kron(np.array([[1, 2, 3], [4, 5, 6]]) * 40, np.ones((side, side)))
    return Image.fromarray(values.astype(np.uint8)).convert("RGB")


@pytest.mark.parametrize("file_format", ["jpg", "png", "tif", "webp"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_comes_out_upright_with_the_right_window(
    tmp_path: Path, orientation: int, file_format: str
) -> None:
    """Cells of the displayed table, cut out one by one in a shape of their own, hold the number that stands there."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = save(six_patches(), tmp_path / f"photo.{file_format}", exif=exif)
    displayed = DISPLAYED[orientation]
    down, across = len(displayed), len(displayed[0])
    for row, numbers in enumerate(displayed):
        for column, number in enumerate(numbers):
            window = Window(column / across, row / down, (column + 1) / across, (row + 1) / down)
            image = photo_for(path, window, 30, 20).image
            assert image.size == (30, 20)
            assert np.abs(np.asarray(image).astype(int)[5:-5, 5:-5] - 40 * number).max() <= 4


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_turned_photo_is_the_same_print_as_one_stored_upright(tmp_path: Path, orientation: int) -> None:
    """Turning after resampling changes no pixel by more than the rounding between the filter's two passes."""
    noise = np.random.default_rng(1).integers(64, 192, (90, 120, 3), np.uint8)
    exif = Image.Exif()
    exif[0x0112] = orientation
    stored = save(Image.fromarray(noise), tmp_path / "stored.png", exif=exif)
    with Image.open(stored) as opened:
        turn = {2: 0, 3: 3, 4: 1, 5: 5, 6: 4, 7: 6, 8: 2}
        whole = opened.transpose(Image.Transpose(turn[orientation])) if orientation > 1 else opened.copy()
        upright = save(whole, tmp_path / "upright.png", exif=Image.Exif())
    window = Window(0.13, 0.21, 0.71, 0.93)
    ours, reference = (np.asarray(photo_for(path, window, 41, 53).image).astype(int) for path in (stored, upright))
    assert np.abs(ours - reference).max() <= 1


def test_the_photo_is_resampled_once_over_the_very_window(tmp_path: Path) -> None:
    """Every pixel is that of a Lanczos filter of three lobes (a = 3, widened as the picture shrinks) over the window,
    reckoned here by the formula; edges between pixels count as they stand, and smaller prints are no blends of two."""
    draw = Random(5)
    noise = np.random.default_rng(2).integers(64, 192, (70, 100, 3), np.uint8)
    path = save(Image.fromarray(noise), tmp_path / "noise.png")
    for _ in range(20):
        left, top = draw.uniform(0, 0.4), draw.uniform(0, 0.4)
        window = Window(left, top, draw.uniform(left + 0.3, 1), draw.uniform(top + 0.3, 1))
        width, height = draw.randint(10, 150), draw.randint(10, 150)
        expected = lanczos(noise, window, width, height)
        ours = np.asarray(photo_for(path, window, width, height).image)
        assert np.abs(ours - expected).max() <= 1.6  # each of two passes rounds to whole numbers


def lanczos(picture: np.ndarray, window: Window, width: int, height: int) -> np.ndarray:
    across = weights(picture.shape[1], window.left, window.right, width)
    down = weights(picture.shape[0], window.top, window.bottom, height)
    rows = np.clip(np.einsum("ij,kjc->kic", across, picture.astype(float)), 0, 255)
    return np.clip(np.einsum("ij,jkc->ikc", down, rows), 0, 255)


def weights(length: int, begin: float, end: float, pixels: int) -> np.ndarray:
    scale = (end - begin) * length / pixels
    widened = max(scale, 1.0)
    middles = begin * length + (np.arange(pixels) + 0.5) * scale
    places = (np.arange(length)[None, :] + 0.5 - middles[:, None]) / widened
    values = np.where(np.abs(places) < 3, np.sinc(places) * np.sinc(places / 3), 0)
    return values / values.sum(1, keepdims=True)


@pytest.mark.parametrize(
    ("image", "suffix", "expected"),
    [
        (Image.new("1", (60, 40), 1), "png", (255, 255, 255)),
        (Image.new("L", (60, 40), 77), "jpg", (77, 77, 77)),
        (Image.new("LA", (60, 40), (0, 51)), "png", (204, 204, 204)),
        (Image.new("RGBA", (60, 40), (255, 0, 0, 51)), "png", (255, 204, 204)),
        (Image.new("RGB", (60, 40), (10, 200, 30)).quantize(2), "png", (10, 200, 30)),
        (Image.new("CMYK", (60, 40), (0, 255, 255, 0)), "tif", (255, 0, 0)),
        (Image.new("CMYK", (60, 40), (0, 255, 255, 0)), "jpg", (254, 0, 0)),
        (Image.fromarray(np.full((40, 60), 257 * 99, np.uint16)), "png", (99, 99, 99)),
        (Image.new("LAB", (60, 40), (255, 128, 128)), "tif", (255, 255, 255)),
    ],
)
def test_every_kind_of_pixels_is_printed(
    tmp_path: Path, image: Image.Image, suffix: str, expected: tuple[int, int, int]
) -> None:
    """Grey, palette, ink, Lab, 16-bit and see-through pixels come out as sRGB of 8 bits on white."""
    shown = photo_for(save(image, tmp_path / f"photo.{suffix}"), Window(0.1, 0.1, 0.9, 0.9), 33, 22).image
    assert (shown.mode, shown.size) == ("RGB", (33, 22))
    assert shown.getpixel((16, 11)) == pytest.approx(expected, abs=2)


def test_a_small_photo_is_enlarged(tmp_path: Path) -> None:
    """Pixels are made up between those that are there; the part shown is the window's."""
    image = Image.new("RGB", (20, 20), "red")
    image.paste((0, 0, 255), (10, 0, 20, 20))
    shown = photo_for(save(image, tmp_path / "small.png"), Window(0, 0, 0.75, 1), 300, 800).image
    assert shown.size == (300, 800)
    assert (shown.getpixel((100, 400)), shown.getpixel((299, 400))) == ((255, 0, 0), (0, 0, 255))


def test_a_profile_that_cannot_be_used_is_said(tmp_path: Path) -> None:
    """What was guessed is in the note."""
    path = save(Image.new("RGB", (8, 8)), tmp_path / "photo.png", icc_profile=b"no profile at all")
    assert photo_for(path, WHOLE, 8, 8).note == "its colour profile cannot be used; taken as sRGB"


def test_raw_data_and_previews_are_refused(tmp_path: Path) -> None:
    """Neither undeveloped pixels nor a preview are passed off as the photo."""
    raw = tmp_path / "photo.dng"
    raw.write_bytes(tiff({256: (4, 6000), 257: (4, 4000), 0xC612: (7, b"\1\4\0\0")}))
    with pytest.raises(PictureError, match="raw data are not printed; export a JPEG of it and run weeksheaf index"):
        photo_for(str(raw), WHOLE, 60, 40)


@pytest.mark.parametrize("cut", [0, 1, 30, 200, 3000])
def test_a_damaged_photo_gives_its_reason(tmp_path: Path, cut: int) -> None:
    """A file cut off anywhere is no print with grey in it."""
    whole = io.BytesIO()
    Image.effect_noise((200, 200), 50).save(whole, "JPEG")
    path = tmp_path / "photo.jpg"
    path.write_bytes(whole.getvalue()[:cut])
    with pytest.raises(PictureError):
        photo_for(str(path), WHOLE, 60, 40)


def test_a_header_without_pixels_is_refused(tmp_path: Path) -> None:
    """A JPEG whose scan holds nothing is named damaged."""
    path = tmp_path / "photo.jpg"
    path.write_bytes(jpeg(exif_segment(), frame(400, 300)))
    with pytest.raises(PictureError):
        photo_for(str(path), WHOLE, 60, 40)


def test_the_picture_is_decoded_in_full(tmp_path: Path) -> None:
    """No draft at half size: single dark columns of a large picture are counted in the print as they stand."""
    columns = np.zeros((400, 1600), np.uint8)
    columns[:, ::2] = 255
    path = save(Image.fromarray(columns), tmp_path / "photo.jpg", quality=100)
    shown = np.asarray(photo_for(path, Window(0.25, 0.25, 0.75, 0.75), 800, 200).image.convert("L")).astype(int)
    assert np.abs(np.diff(shown[100])).min() > 200
