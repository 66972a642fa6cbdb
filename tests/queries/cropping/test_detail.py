"""Maps of what there is to see in a picture."""

import numpy as np
import pytest
from PIL import Image

from queries.cropping.detail import CELLS, detail_map


def painted(width: int = 600, height: int = 400, box: tuple[int, int, int, int] | None = None) -> Image.Image:
    """A dull, slightly noisy picture with a checkered box of another colour."""
    noise = np.random.default_rng(1)
    pixels = np.clip(noise.normal(120, 2, (height, width, 3)), 0, 255).astype(np.uint8)
    if box:
        left, top, right, bottom = box
        checks = (np.add.outer(np.arange(bottom - top) // 8, np.arange(right - left) // 8) % 2).astype(np.uint8)
        pixels[top:bottom, left:right] = np.stack([200 - 80 * checks, 60 + 0 * checks, 40 + 90 * checks], axis=-1)
    return Image.fromarray(pixels)


@pytest.mark.parametrize(
    ("size", "shape"),
    [((600, 400), (32, 48)), ((400, 600), (48, 32)), ((50, 50), (48, 48)), ((3000, 20), (1, 48)), ((1, 1), (48, 48))],
)
def test_the_map_has_the_shape_of_the_picture(size: tuple[int, int], shape: tuple[int, int]) -> None:
    """The longer side has all cells, the shorter as many as its share, a sliver one."""
    detail = detail_map(painted(*size))
    assert detail.shape == shape
    assert max(detail.shape) == CELLS
    assert np.isfinite(detail).all()
    assert detail.min() >= 0


def test_detail_is_where_the_picture_is_busy() -> None:
    """Most of all detail lies in a fifteenth of the picture: the box that stands out and a cell around it."""
    detail = detail_map(painted(box=(400, 100, 500, 200)))
    assert detail[7:17, 31:41].sum() > 0.6 * detail.sum()


def test_a_picture_of_nothing_has_hardly_any() -> None:
    """Noise alone makes no detail to speak of, one colour none."""
    busy = detail_map(painted(box=(400, 100, 500, 200))).sum()
    assert detail_map(painted()).sum() < 0.5 * busy
    assert detail_map(Image.new("RGB", (300, 200), "navy")).sum() < 1e-3


def test_the_size_hardly_matters() -> None:
    """The same picture at half the size gives nearly the same map."""
    large = painted(box=(150, 100, 250, 300))
    one, other = detail_map(large), detail_map(large.resize((300, 200), Image.Resampling.LANCZOS))
    assert np.abs(one / one.sum() - other / other.sum()).sum() < 0.2
