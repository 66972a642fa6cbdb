"""A photo for its cell: cropped out of the original and brought to the cell's pixels in one step, in sRGB."""

import os
from pathlib import Path
from typing import BinaryIO

from PIL import Image

from indexer.facts.containers import BrokenContainer, NotAPicture, parse
from indexer.facts.pictures import Decoded, Picture, PictureError, decode_whole, in_srgb, upright
from queries.cropping.values import Window
from queries.prints.windows import as_stored, size_as_stored

_PREVIEW_BELOW = 0.9  # of the size that the header tells: what opens smaller is a preview beside the picture


def photo_for(path: str, window: Window, width: int, height: int) -> Picture:
    """The part of the upright picture that the window shows, in so many pixels of sRGB.

    Resampled once, by a Lanczos filter over the very window, whose edges need not lie between pixels; turned upright
    and converted by its own profile (relative colorimetric) after that, when there are fewer pixels. The original is
    decoded at its full size and let go of at the end. Raises PictureError with the reason, and OSError.
    """
    with Path(path).open("rb") as file:
        decoded = _decoded(file)
    stored = as_stored(window, decoded.orientation)
    across, down = decoded.image.size
    box = (
        max(stored.left * across, 0.0),
        max(stored.top * down, 0.0),
        min(stored.right * across, float(across)),
        min(stored.bottom * down, float(down)),
    )
    size = size_as_stored(width, height, decoded.orientation)
    try:
        shown = decoded.image.resize(size, Image.Resampling.LANCZOS, box)
    except (ValueError, OSError) as problem:
        raise PictureError(f"cannot be brought to {width} x {height} pixels: {problem}") from problem
    return in_srgb(upright(shown, decoded.orientation), decoded.profile)


def _decoded(file: BinaryIO) -> Decoded:
    try:
        container = parse(file, os.fstat(file.fileno()).st_size)
    except NotAPicture as finding:
        raise PictureError(f"it holds {finding}") from finding
    except BrokenContainer as finding:
        raise PictureError(finding.reason) from finding
    if container.format == "raw":
        raise PictureError("raw data are not printed; export a JPEG of it and run weeksheaf index")
    file.seek(0)
    decoded = decode_whole(file)
    if max(decoded.image.size) < _PREVIEW_BELOW * max(container.width, container.height):
        raise PictureError(f"only a preview of {decoded.image.width} x {decoded.image.height} pixels can be opened")
    return decoded
