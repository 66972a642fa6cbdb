"""Crops of real photographs: faces stay inside, noise moves no window, and what the face detector finds and misses.

`python -m tests.real_photos.test_crops` prints the figures that DEVELOPERS.md has of the detector. The faces were
marked by hand, from hairline to chin, on the portraits of thumbor's documentation (in the order of their file names)
and on the astronaut of scikit-image, a photograph of NASA's in the public domain.
"""

import io
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from queries.cropping import faces, window_of
from queries.cropping.detail import detail_map
from queries.cropping.values import Window
from tests.real_photos import pool
from tests.real_photos.conftest import FolderOf

PORTRAITS = (
    Window(0.16, 0.13, 0.59, 0.83),
    Window(0.32, 0.25, 0.59, 0.86),
    Window(0.35, 0.29, 0.60, 0.75),
    Window(0.385, 0.17, 0.60, 0.57),
)
ASTRONAUT = Window(0.35, 0.11, 0.53, 0.34)
LANDSCAPE, UPRIGHT = (3 / 2, 4 / 3), (2 / 3, 3 / 4)
#: Photographs of `pool`, beside the portraits, with a person's face at least 5 % of the longer side across.
_FACES = {"astronaut.png", "camera.png", "basketball1.png", "messi5.jpg"}


@pytest.fixture(scope="module")
def portraits(folder_of: FolderOf) -> list[tuple[Image.Image, Window]]:
    for package in ("thumbor", "scikit-image"):
        folder_of(package)
    return list(marked())


def marked() -> Iterator[tuple[Image.Image, Window]]:
    files = pool.stranger_files()
    heads = sorted(path for path in files if is_portrait(path))
    assert len(heads) == len(PORTRAITS)
    yield from ((pool.small(path), face) for path, face in zip(heads, PORTRAITS, strict=True))
    yield pool.small(next(path for path in files if path.stem == "astronaut" and path.suffix == ".png")), ASTRONAUT


def is_portrait(path: Path) -> bool:
    return "thumbor" in path.parts


def within(picture: Image.Image, face: Window, columns: tuple[int, int]) -> tuple[Image.Image, Window]:
    """The columns of a picture, and the face in them."""
    left, right = columns
    scale = picture.width / (right - left)
    start = left / picture.width
    inner = Window((face.left - start) * scale, face.top, (face.right - start) * scale, face.bottom)
    return picture.crop((left, 0, right, picture.height)), inner


@pytest.mark.parametrize("aspect", [*LANDSCAPE, *UPRIGHT])
def test_faces_stay_inside(portraits: list[tuple[Image.Image, Window]], aspect: float) -> None:
    """The detail and the priors alone keep each face whole that fits easily, landscape and upright."""
    for number, (picture, face) in enumerate(portraits):
        window = window_of(*picture.size, aspect, detail_map(picture))
        if face.width <= 0.95 * window.width and face.height <= 0.95 * window.height:
            assert window.holds(face), (number, window)


@pytest.mark.parametrize("aspect", LANDSCAPE)
def test_a_standing_portrait_cut_to_landscape_keeps_the_face(
    portraits: list[tuple[Image.Image, Window]], aspect: float
) -> None:
    """Of the astronaut and the fourth portrait, narrowed to 2:3 and 3:4, no more than a rim of hair is cut off."""
    for picture, face in (portraits[-1], portraits[3]):
        for share in UPRIGHT:
            wide = round(picture.height * share)
            left = round((face.left + face.right) / 2 * picture.width - wide / 2)
            standing, inner = within(picture, face, (max(left, 0), max(left, 0) + wide))
            window = window_of(*standing.size, aspect, detail_map(standing))
            shown = min(window.bottom, inner.bottom) - max(window.top, inner.top)
            assert shown > 0.85 * inner.height, (share, window, inner)


def test_the_detector_finds_the_faces(portraits: list[tuple[Image.Image, Window]]) -> None:
    """Each marked face lies in a head that is found, but for its outline, and the crop keeps that head."""
    if not faces.can_find():
        pytest.skip("the face detector is not installed: pip install weeksheaf[faces]")
    for number, (picture, face) in enumerate(portraits):
        (head,) = faces.heads_in(picture)
        wide = min(face.right, head.right) - max(face.left, head.left)
        high = min(face.bottom, head.bottom) - max(face.top, head.top)
        assert wide > 0.85 * face.width, (number, head)
        assert high > 0.95 * face.height, (number, head)
        for aspect in (*LANDSCAPE, *UPRIGHT):
            window = window_of(*picture.size, aspect, detail_map(picture), [head])
            if head.width <= window.width and head.height <= window.height:
                assert window.holds(Window(head.left + 1e-9, head.top + 1e-9, head.right - 1e-9, head.bottom - 1e-9))


def test_noise_and_size_move_no_window(portraits: list[tuple[Image.Image, Window]]) -> None:
    """Noise of 5 levels, a poor JPEG and half the size move a window by at most 1.5 per cent of the side.

    Over every second of 283 photographs: median 0.03, 0.03 and 0.06 per cent, at most 0.8, 0.4 and 1.4.
    """
    noise = np.random.default_rng(0)
    for picture, _ in portraits:
        aspect = 2 / 3 if picture.width > picture.height * 1.03 else 3 / 2
        pixels = np.asarray(picture) + noise.normal(0, 5, (picture.height, picture.width, 3))
        poor = io.BytesIO()
        picture.save(poor, "JPEG", quality=50)
        others = (Image.fromarray(np.clip(pixels, 0, 255).astype(np.uint8)), Image.open(poor), picture.reduce(2))
        window = window_of(*picture.size, aspect, detail_map(picture))
        for other in others:
            moved = window_of(*picture.size, aspect, detail_map(other.convert("RGB")))
            assert abs(moved.left - window.left) + abs(moved.top - window.top) < 0.015


def print_figures() -> None:
    """Where the detector finds heads, where it misses one, and how long it takes.

    Printed when it was chosen, of 283 photographs: 8 with such a face, found in 7 (missed: a profile); 5 more finds,
    all of them faces (two painted or cast, one carved, two of small people); none where there is no face.
    """
    files: dict[str, Path | io.BytesIO] = {path.name: path for path in pool.stranger_files()}
    portraits = {path.name for path in pool.stranger_files() if is_portrait(path)}
    files |= {f"in a resource file, {n}": io.BytesIO(data) for n, data in enumerate(pool.pictures_in_resources())}
    seconds = 0.0
    for name, file in files.items():
        picture = pool.small(file)
        start = time.perf_counter()
        heads = faces.heads_in(picture)
        seconds += time.perf_counter() - start
        if name in _FACES | portraits or heads:
            print("face," if name in _FACES | portraits else "none,", len(heads), "found:", name)
    print(f"{len(files)} photographs, {seconds / len(files) * 1000:.0f} ms each")


if __name__ == "__main__":
    print_figures()
