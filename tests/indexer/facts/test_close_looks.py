"""A photo as it is laid over another one: the miniature of a file."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageOps

from indexer.facts.close_looks import close_look_of, look_closely, look_closely_at_all
from tests.indexer.facts import scenes


@pytest.mark.parametrize(
    ("size", "shape"),
    [((4000, 3000), (144, 192)), ((300, 400), (192, 144)), ((24, 16), (128, 192)), ((4000, 100), (48, 192))],
)
def test_the_miniature_is_small_and_even(size: tuple[int, int], shape: tuple[int, int]) -> None:
    """192 pixels long and 48 wide at least, the colours at half of it: 102 KB at the most."""
    look = close_look_of(Image.new("RGB", size, (200, 60, 20)))
    assert look.luma.shape == shape
    assert look.lab.shape == (shape[0] // 2, shape[1] // 2, 3)
    assert look.clipped.shape == look.lab.shape[:2]
    assert look.luma.nbytes + look.lab.nbytes + look.clipped.nbytes <= 101_376


def test_the_colours_are_those_of_the_picture() -> None:
    """CIELAB of pure red under D65: 53.2, 80.1, 67.2 (computed from IEC 61966-2-1 and CIE 15)."""
    look = close_look_of(Image.new("RGB", (64, 64), (255, 0, 0)))
    assert np.allclose(look.lab, (53.24, 80.09, 67.2), atol=0.1)
    assert (look.luma == 76).all()


def test_what_is_clipped_is_told() -> None:
    """Where one channel is; half of it where half of the pixels are."""
    pixels = np.full((96, 192, 3), 120, np.uint8)
    pixels[:, :96, 1] = 255
    pixels[:, 96:144:2, 2] = 254
    clipped = close_look_of(Image.fromarray(pixels)).clipped
    assert [int(clipped[20, column]) for column in (10, 60, 90)] == [255, 128, 0]


def test_bars_are_left_out() -> None:
    """As from what is compared from afar."""
    picture = scenes.scene(320, 240, 3)
    barred = ImageOps.expand(picture, (0, 40), "black")
    assert close_look_of(barred).luma.shape == (144, 192)


def test_a_file_is_looked_at_upright(tmp_path: Path) -> None:
    """Whatever its orientation says, and whether it is large or small."""
    picture, exif = scenes.scene(800, 600, 3), Image.Exif()
    exif[0x0112] = 6  # to be turned clockwise by 90 degrees (Exif 2.32)
    picture.transpose(Image.Transpose.ROTATE_90).save(tmp_path / "a.jpg", quality=95, exif=exif)
    look = look_closely(str(tmp_path / "a.jpg"))
    assert look is not None
    expected = close_look_of(picture.reduce(2))
    assert look.luma.shape == (144, 192)
    assert np.abs(look.luma.astype(int) - expected.luma).mean() < 2


def test_what_cannot_be_decoded_shows_nothing(tmp_path: Path) -> None:
    """A file cut off, one that is no picture, and one that is not there."""
    whole = tmp_path / "whole.jpg"
    scenes.scene(320, 240, 3).save(whole)
    (tmp_path / "cut.jpg").write_bytes(whole.read_bytes()[:-2000])
    (tmp_path / "text.jpg").write_text("no picture")
    for name in ("cut.jpg", "text.jpg", "absent.jpg"):
        assert look_closely(str(tmp_path / name)) is None, name


def test_many_are_looked_at_in_processes_of_their_own(tmp_path: Path) -> None:
    """Each comes with its place; one that shows nothing too."""
    paths = [str(tmp_path / name) for name in ("a.jpg", "absent.jpg", "b.png")]
    for path in (paths[0], paths[2]):
        scenes.scene(320, 240, 3).save(path)
    found = dict(look_closely_at_all(paths))
    assert sorted(found) == [0, 1, 2]
    assert [found[place] is None for place in range(3)] == [False, True, False]
