"""Made photographs for what looks at pixels: whole JPEGs with a thumbnail of any kind in their Exif block."""

import io
from typing import Any

import numpy as np
from PIL import Image

from tests.indexer.facts.containers.file_makers import XMP_IDENTIFIER, exif_segment, segment, tiff

TAKEN = b"2026:03:30 09:15:20\0"
#: The turn that brings a picture, shown upright, into the stored form of each orientation.
STORED = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


def scene(width: int, height: int, seed: int = 1) -> Image.Image:
    """Large forms in colour with finer ones on them: no photograph, but as busy as one, and without any symmetry."""
    random = np.random.default_rng(seed)
    canvas = np.full((height, width, 3), 128.0)
    for cells, strength in ((3, 55), (11, 30), (40, 20)):
        for channel in range(3):
            grid = Image.fromarray(random.uniform(-1, 1, (cells, cells + 1)).astype(np.float32))
            canvas[:, :, channel] += strength * np.asarray(grid.resize((width, height), Image.Resampling.BICUBIC))
    return Image.fromarray(canvas.clip(0, 255).astype(np.uint8))


def stored(upright: Image.Image, orientation: int) -> Image.Image:
    """The picture as a file of that orientation holds it."""
    turn = STORED[orientation]
    return upright if turn is None else upright.transpose(turn)


def as_jpeg(image: Image.Image, **options: Any) -> bytes:
    file = io.BytesIO()
    image.save(file, "JPEG", **{"quality": 88, **options})
    return file.getvalue()


def small(image: Image.Image, longer: int = 160) -> Image.Image:
    """As a camera makes its thumbnail: the shape kept."""
    scale = longer / max(image.size)
    return image.resize((round(image.width * scale), round(image.height * scale)), Image.Resampling.BICUBIC)


def letterboxed(image: Image.Image, size: tuple[int, int] = (160, 120)) -> Image.Image:
    """Within a frame of another shape, black bars beside it (as DCF thumbnails of 3:2 pictures are)."""
    framed = Image.new("RGB", size)
    inside = image.copy()
    inside.thumbnail(size, Image.Resampling.BICUBIC)
    framed.paste(inside, ((size[0] - inside.width) // 2, (size[1] - inside.height) // 2))
    return framed


def photo(
    picture: Image.Image,
    thumbnail: Image.Image | bytes | None,
    *,
    orientation: int = 1,
    thumbnail_orientation: int | None = None,
    modified: bytes = TAKEN,
    said: tuple[int, int] | None = None,
    xmp: bytes = b"",
) -> bytes:
    """A JPEG of a picture as stored, with a thumbnail as stored; `said` is the size that its Exif block gives."""
    inside = as_jpeg(thumbnail) if isinstance(thumbnail, Image.Image) else thumbnail
    block = _block(inside, orientation, thumbnail_orientation, modified, said or picture.size)
    segments = exif_segment(block) + (segment(0xE1, XMP_IDENTIFIER + xmp) if xmp else b"")
    whole = as_jpeg(picture)
    return whole[:2] + segments + whole[2:]


def _block(
    inside: bytes | None, orientation: int, thumbnail_orientation: int | None, modified: bytes, said: tuple[int, int]
) -> bytes:
    main = {0x0112: (3, orientation), 0x0132: (2, modified), 0x8769: (4, "dir 1")}
    exif = {0x9003: (2, TAKEN), 0xA002: (4, said[0]), 0xA003: (4, said[1])}
    if inside is None:
        return tiff(main, exif)
    extra = {} if thumbnail_orientation is None else {0x0112: (3, thumbnail_orientation)}
    at = len(tiff(main, exif, {0x0201: (4, 0), 0x0202: (4, 0)} | extra))
    return tiff(main, exif, {0x0201: (4, at), 0x0202: (4, len(inside))} | extra) + inside


def bits_apart(one: bytes, other: bytes) -> int:
    """In how many bits two hashes differ."""
    return (int.from_bytes(one) ^ int.from_bytes(other)).bit_count()
