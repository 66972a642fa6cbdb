"""Photos for the benchmarks: as large and as dear to read as a phone's, and each a different picture.

    python -m tests.benchmarks.made_photos large|bare|tiny FOLDER COUNT

To draw and to encode 12 megapixels takes long, so only a few pictures are. Each is coded in strips parted by restart
markers (ITU-T T.81, B.2.1), and strips know nothing of each other: cut into bands of strips that are laid in another
order, it is another whole picture of the same weight, and its thumbnail is laid alike. "bare" ones have no thumbnail.
"""

import io
import re
import struct
import sys
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import partial
from itertools import permutations
from pathlib import Path
from random import Random

import numpy as np
from PIL import Image

from tests.benchmarks.made_exif import exif_block

#: Stored pixels of a made photo: 12 megapixels.
SIZE = (4000, 3000)

_THUMBNAIL = (160, 120)
#: Strips of 16 lines: a band of 25 is 400 lines, and 16 lines of the thumbnail.
STRIPS_PER_BAND = 25
_FILES_PER_FOLDER = 500
_FIRST = datetime(2024, 1, 1, 8)  # noqa: DTZ001 - a wall clock has no zone
_APART = timedelta(minutes=17)
_MODELS = ("Quay 5", "Quay 5", "Pocket 200")
#: As on a phone: most pictures lie, some stand, few are upside down.
_ORIENTATIONS = (1, 6, 1, 8, 1, 3)
_RESTART = re.compile(rb"\xff[\xd0-\xd7]")


@dataclass(frozen=True, slots=True)
class BasePicture:
    """One encoded picture taken apart: the header after SOI, the coded strips, and a thumbnail."""

    header: bytes
    strips: tuple[bytes, ...]
    thumbnail: bytes

    def rolled(self, by: int, exif: bytes) -> bytes:
        """A whole JPEG, its picture rolled by so many strips."""
        place = by % len(self.strips)
        return self._whole(self.strips[place:] + self.strips[:place], exif)

    def laid(self, order: Sequence[int], exif: bytes) -> bytes:
        """A whole JPEG, its bands of strips in another order."""
        bands = [self.strips[band * STRIPS_PER_BAND : (band + 1) * STRIPS_PER_BAND] for band in order]
        rest = self.strips[len(order) * STRIPS_PER_BAND :]
        return self._whole((*(strip for band in bands for strip in band), *rest), exif)

    def thumbnail_laid(self, order: Sequence[int]) -> bytes:
        """The thumbnail with its bands in that order."""
        whole = Image.open(io.BytesIO(self.thumbnail))
        laid, band = whole.copy(), STRIPS_PER_BAND * 16 * whole.height // SIZE[1]
        for place, taken in enumerate(order):
            laid.paste(whole.crop((0, taken * band, whole.width, (taken + 1) * band)), (0, place * band))
        file = io.BytesIO()
        laid.save(file, "JPEG", quality=75)
        return file.getvalue()

    def _whole(self, strips: Sequence[bytes], exif: bytes) -> bytes:
        marks = (bytes((0xFF, 0xD0 + number % 8)) for number in range(len(strips) - 1))
        coded = b"".join(part for pair in zip(strips, (*marks, b"\xff\xd9"), strict=True) for part in pair)
        payload = b"Exif\0\0" + exif
        return b"\xff\xd8\xff\xe1" + struct.pack(">H", len(payload) + 2) + payload + self.header + coded


def draw(seed: int, size: tuple[int, int] = SIZE) -> BasePicture:
    """A picture with large forms, fine texture and grain: flat ones would be light to decode."""
    random = np.random.default_rng(seed)
    canvas = np.zeros((size[1], size[0], 3), np.float32)
    for cells, strength in ((4, 60), (24, 28), (150, 16), (700, 12)):
        grid = random.uniform(-1, 1, (cells * size[1] // size[0] + 1, cells, 3)).astype(np.float32)
        for channel in range(3):
            layer = Image.fromarray(grid[:, :, channel]).resize(size, Image.Resampling.BICUBIC)
            canvas[:, :, channel] += strength * np.asarray(layer)
    canvas += random.standard_normal(canvas.shape[:2], np.float32)[:, :, None] * 3.5
    picture = Image.fromarray((canvas + 128).clip(0, 255).astype(np.uint8))
    whole, small = io.BytesIO(), io.BytesIO()
    picture.save(whole, "JPEG", quality=90, subsampling="4:2:0", restart_marker_rows=1)
    picture.resize(_THUMBNAIL).save(small, "JPEG", quality=75)
    return _taken_apart(whole.getvalue(), small.getvalue())


def write_library(folder: Path, count: int, *, thumbnails: bool = True) -> None:
    """So many photos of 12 megapixels, in folders of 500, all of them different pictures."""
    orders = list(permutations(range(SIZE[1] // 16 // STRIPS_PER_BAND)))
    Random(1).shuffle(orders)  # neighbours in the list differ in two bands alone
    bases = [draw(seed) for seed in range(4)]
    for number, path in _paths(folder, count, "jpg"):
        base, order = bases[number % len(bases)], orders[number // len(bases) % len(orders)]
        exif = _exif(number, SIZE, base.thumbnail_laid(order) if thumbnails else b"")
        path.write_bytes(base.laid(order, exif))


def write_tiny_library(folder: Path, count: int) -> None:
    """So many photos of a few pixels, for what does not depend on their content."""
    for number, path in _paths(folder, count, "png"):
        path.write_bytes(tiny_png(number))


def tiny_png(number: int) -> bytes:
    """A PNG of 4 x 3 pixels with an Exif block; other numbers give other pictures (ISO/IEC 15948)."""
    rows = b"".join(b"\0" + struct.pack(">IB", number, row)[1:] for row in range(3))
    chunks = (
        (b"IHDR", struct.pack(">IIBBBBB", 4, 3, 8, 0, 0, 0, 0)),
        (b"eXIf", _exif(number, (4, 3), b"")),
        (b"IDAT", zlib.compress(rows, 1)),
        (b"IEND", b""),
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data)) for kind, data in chunks
    )


def _taken_apart(jpeg: bytes, thumbnail: bytes) -> BasePicture:
    start = jpeg.index(b"\xff\xda")
    coded_from = start + 2 + int.from_bytes(jpeg[start + 2 : start + 4])
    strips = _RESTART.split(jpeg[coded_from : jpeg.rindex(b"\xff\xd9")])
    return BasePicture(jpeg[2:coded_from], tuple(strips), thumbnail)


def _exif(number: int, size: tuple[int, int], thumbnail: bytes) -> bytes:
    return exif_block(
        _FIRST + number * _APART,
        model=_MODELS[number % len(_MODELS)],
        orientation=_ORIENTATIONS[number % len(_ORIENTATIONS)],
        size=size,
        thumbnail=thumbnail,
    )


def _paths(folder: Path, count: int, suffix: str) -> Iterator[tuple[int, Path]]:
    for number in range(count):
        inside = folder / f"{number // _FILES_PER_FOLDER:03}"
        if number % _FILES_PER_FOLDER == 0:
            inside.mkdir(parents=True)
        yield number, inside / f"DSC{number:06}.{suffix}"


if __name__ == "__main__":
    kind, into, how_many = sys.argv[1:]
    makers = {"large": write_library, "bare": partial(write_library, thumbnails=False), "tiny": write_tiny_library}
    makers[kind](Path(into), int(how_many))
