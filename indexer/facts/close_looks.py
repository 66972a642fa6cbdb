"""A photo as it is laid over another one part by part: decoded anew, in a worker process, into a miniature."""

from collections.abc import Generator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageChops

from indexer.facts.bars import without_bars
from indexer.facts.fingerprint import cielab
from indexer.facts.looking import SECONDS_PER_PICTURE
from indexer.facts.pixels import NoPixels, small_picture
from indexer.facts.workers import Lost, process_count, run_all

#: Pixels of the longer side, and of the shorter one at the least.
_LONGER, _LEAST = 192, 48
#: A channel from this on counts as clipped.
_CLIPPED = 253
#: Below so many pictures a further process costs more to start than it saves.
_PER_PROCESS = 25


@dataclass(frozen=True, slots=True)
class CloseLook:
    """An upright picture without bars: `luma` (h, w), its longer side 192 pixels, both even and 48 at the least; `lab`
    (h / 2, w / 2, 3) CIELAB; `clipped` (h / 2, w / 2) the share of pixels of which a channel is clipped, 0..255.
    102 KB at the most."""

    luma: NDArray[np.uint8]
    lab: NDArray[np.float16]
    clipped: NDArray[np.uint8]


def close_look_of(image: Image.Image) -> CloseLook:
    """The miniature of an upright RGB picture in sRGB; bars are found up to about 640 pixels a side."""
    image = without_bars(image)
    factor = _LONGER / max(image.size)
    width, height = (max(_LEAST, 2 * round(side * factor / 2)) for side in image.size)
    luma = image.convert("L").resize((width, height), Image.Resampling.BOX)
    colours, clipped = (
        picture.resize((width // 2, height // 2), Image.Resampling.BOX) for picture in (image, _clipped(image))
    )
    return CloseLook(np.asarray(luma), cielab(np.asarray(colours)).astype(np.float16), np.asarray(clipped))


def _clipped(image: Image.Image) -> Image.Image:
    """Where a channel is clipped: 255 there, 0 elsewhere."""
    brightest = ImageChops.lighter(ImageChops.lighter(*image.split()[:2]), image.getchannel("B"))
    return brightest.point([255 * (value >= _CLIPPED) for value in range(256)])


def look_closely(path: str) -> CloseLook | None:
    """The miniature of a file; None where it cannot be decoded. Raises nothing for any content."""
    image = small_picture(path)
    return None if isinstance(image, NoPixels) else close_look_of(image)


def look_closely_at_all(paths: Sequence[str]) -> Generator[tuple[int, CloseLook | None]]:
    """Yields (its place in `paths`, its miniature) of every file as they come, in no set order.

    Closing the iterator, or an exception in the loop over it, ends the processes at once.
    """
    processes = process_count(len(paths), _PER_PROCESS)
    for place, result in run_all(look_closely, paths, seconds_per_job=SECONDS_PER_PICTURE, processes=processes):
        yield place, None if isinstance(result, Lost) else result
