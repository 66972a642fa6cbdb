"""The small picture in a photo's Exif block (Exif 2.32, 4.5.8), and whether it shows what the photo shows.

Editors and turners often leave it as it was. It is trusted only where nothing speaks against it; a stale one of the
same shape, in a file that says nothing of the change, cannot be told: that is why no set of alike photos rests on
thumbnails.
"""

import io
from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np
from PIL import Image

from indexer.facts.containers import BrokenContainer, Container
from indexer.facts.containers.exif_block import EXIF_POINTER
from indexer.facts.containers.reader import Reader
from indexer.facts.containers.tiff_directory import NO_DIRECTORY, Directory, Tiff
from indexer.facts.pictures import Decoded, PictureError, decode_scaled

_ORIENTATION, _MODIFIED, _TAKEN, _WIDTH, _HEIGHT = 0x0112, 0x0132, 0x9003, 0xA002, 0xA003
_JPEG_AT, _JPEG_LENGTH = 0x0201, 0x0202

#: The longer side of what is trusted, letterbox bars cut, in pixels: DCF (CIPA DC-009) has 160.
LEAST_SIDE = 96
_NARROWEST = 16
#: How far its sides may be from those of the picture made as small, in pixels.
_ROUNDING = 1.5
#: Letterbox bars are near-black throughout; JPEG's ringing along the picture's edge lightens a row or two of them.
_BAR_MEAN, _BAR_EDGE = 12, 2
#: A camera that writes a moment later than it takes the picture is no editor.
_WRITING_TAKES = timedelta(minutes=1)
#: What an editing program leaves in XMP: its history (XMP specification, part 2) or its settings (namespace name).
_EDITED = (b":History", b"/camera-raw-settings/")

_DATE = "%Y:%m:%d %H:%M:%S"


@dataclass(frozen=True, slots=True)
class Embedded:
    """The thumbnail as it lies in an Exif block, with the orientation of the photo (1 where none is given).

    `is_doubtful`: the block itself says that the photo was changed after it was taken.
    """

    jpeg: bytes
    orientation: int
    is_doubtful: bool


def trusted_thumbnail(container: Container) -> Decoded | None:
    """The thumbnail of a photo, without letterbox bars, as stored; None where there is none to be trusted."""
    found = find(container) if container.exif else None
    if found is None or found.is_doubtful or any(mark in (container.xmp or b"") for mark in _EDITED):
        return None
    try:
        thumbnail = decode_scaled(io.BytesIO(found.jpeg), max(container.width, container.height))
    except PictureError:
        return None
    if max(thumbnail.image.size) > max(container.width, container.height):
        return None
    shown = without_bars(thumbnail.image, container.width, container.height)
    if shown is None or max(shown.size) < LEAST_SIDE:
        return None
    return Decoded(shown, container.turn or found.orientation, thumbnail.profile, 1)


def find(container: Container) -> Embedded | None:
    """The thumbnail in a photo's Exif block, or None where there is none that can be read."""
    block = container.exif or b""
    try:
        tiff = Tiff(Reader(io.BytesIO(block), len(block)))
        main = tiff.directory(tiff.first)
        small = tiff.directory(main.next) if main.next else NO_DIRECTORY
    except BrokenContainer:
        return None
    start, length = tiff.number(small, _JPEG_AT), tiff.number(small, _JPEG_LENGTH)
    jpeg = block[start : start + length]
    if not length or not jpeg.startswith(b"\xff\xd8\xff"):
        return None
    exif = next(iter(tiff.below(main, EXIF_POINTER)), NO_DIRECTORY)
    orientation = tiff.number(main, _ORIENTATION) or 1
    doubtful = (
        tiff.number(small, _ORIENTATION) not in (0, orientation)
        or not _has_size(tiff, exif, container)
        or _was_changed(_text(tiff, main, _MODIFIED), _text(tiff, exif, _TAKEN))
    )
    return Embedded(jpeg, orientation, doubtful)


def without_bars(image: Image.Image, width: int, height: int) -> Image.Image | None:
    """The part of a thumbnail that shows a picture of those sides: all of it, or what lies between letterbox bars.

    None where its shape is another and what is left over is no bars, or where it has bars beyond its shape.
    """
    across = min(image.width, image.height * width / height)
    down = min(image.height, image.width * height / width)
    if min(across, down) < _NARROWEST:
        return None
    left, top = round((image.width - across) / 2), round((image.height - down) / 2)
    if max(image.width - across, image.height - down) <= _ROUNDING:
        return None if _has_bars(np.asarray(image.convert("L"))) else image
    grey = np.asarray(image.convert("L"))
    grey = grey if top else grey.T
    bar = max(top, left)
    if bar > _BAR_EDGE and not (_is_bar(grey[: bar - _BAR_EDGE]) and _is_bar(grey[len(grey) - bar + _BAR_EDGE :])):
        return None
    inside = grey[bar + 1 : len(grey) - bar - 1]
    if _has_bars(inside):
        return None
    return image.crop((left, top, image.width - left, image.height - top))


def _is_bar(rows: np.ndarray) -> bool:
    return bool(rows.mean() <= _BAR_MEAN)


def _has_bars(grey: np.ndarray) -> bool:
    """Whether a picture begins and ends with black rows, or with black columns."""
    return any(_is_bar(lines[:2]) and _is_bar(lines[-2:]) for lines in (grey, grey.T))


def _has_size(tiff: Tiff, exif: Directory, container: Container) -> bool:
    """Whether the block, if it gives a size, gives the picture's: a photo turned or resized later often has another."""
    said = tiff.number(exif, _WIDTH), tiff.number(exif, _HEIGHT)
    return 0 in said or said == (container.width, container.height)


def _was_changed(modified: str, taken: str) -> bool:
    """Whether the date of change is later than that of the picture; dates that cannot be read tell nothing."""
    if modified == taken:
        return False
    try:
        return datetime.strptime(modified, _DATE) - datetime.strptime(taken, _DATE) > _WRITING_TAKES  # noqa: DTZ007
    except ValueError:
        return False


def _text(tiff: Tiff, directory: Directory, tag: int) -> str:
    value = directory.values.get(tag)
    content = tiff.content(value) if value is not None and value.type == 2 else None
    return (content or b"").rstrip(b"\0 ").decode("latin-1")
