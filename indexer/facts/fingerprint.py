"""What a picture looks like, small enough to be kept and compared: two hashes, a grey miniature, a layout of colours.

Pure: an upright picture in, values out. What would come out differently for the same pixels raises
`picture_files.LOOKING`.
"""

from dataclasses import dataclass

import imagehash
import numpy as np
from numpy.typing import NDArray
from PIL import Image

from indexer.facts.bars import without_bars

#: Sides of the grey miniature and of the colour layout.
GREY_SIDE = 64
LAYOUT_SIDE = 8

#: IEC 61966-2-1 (sRGB): linear light of each stored value.
_STORED = np.arange(256) / 255
_LINEAR = np.where(_STORED <= 0.04045, _STORED / 12.92, ((_STORED + 0.055) / 1.055) ** 2.4).astype(np.float32)
#: Linear sRGB to XYZ under D65 (IEC 61966-2-1), and the white of that light (CIE 15: D65, 2 degrees).
_TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]], np.float32)
_WHITE = np.array([0.95047, 1.0, 1.08883], np.float32)
_TO_WHITE = (_TO_XYZ / _WHITE[:, None]).T.copy()


@dataclass(frozen=True, slots=True)
class Fingerprint:
    """Of an upright picture, without the bars or the frame of one colour around it.

    `phash`, `dhash`: 8 bytes each, the hashes of `imagehash` (8 x 8 bits), most significant bit first, row by row, in
    the order of its text. `grey`: 64 x 64 bytes, row by row: the whole picture squashed to a square by averaging, luma
    0..255. `layout`: 8 x 8 x 3 bytes: CIELAB means of the cells, L * 2.55, a + 128, b + 128, rounded and clipped.
    `contrast`: standard deviation of `grey`, 0..127.5.
    """

    phash: bytes
    dhash: bytes
    grey: bytes
    layout: bytes
    contrast: float


def fingerprint_of(image: Image.Image) -> Fingerprint:
    """The fingerprint of an upright RGB picture in sRGB, of any size; bars are found up to about 640 pixels a side."""
    image = without_bars(image)
    luma = image.convert("L")
    grey = np.asarray(luma.resize((GREY_SIDE, GREY_SIDE), Image.Resampling.BOX))
    return Fingerprint(
        phash=packed(imagehash.phash(luma)),
        dhash=packed(imagehash.dhash(luma)),
        grey=grey.tobytes(),
        layout=layout_of(image),
        contrast=float(grey.std()),
    )


def packed(value: imagehash.ImageHash) -> bytes:
    """The bits of a hash as bytes, in the order of its text."""
    packed_bits: bytes = np.packbits(value.hash).tobytes()
    return packed_bits


def layout_of(image: Image.Image) -> bytes:
    """CIELAB means of the 8 x 8 cells of an RGB picture in sRGB, as `Fingerprint` keeps them."""
    pixels = np.asarray(image.resize((GREY_SIDE, GREY_SIDE), Image.Resampling.BOX))
    cell = GREY_SIDE // LAYOUT_SIDE
    means = cielab(pixels).reshape(LAYOUT_SIDE, cell, LAYOUT_SIDE, cell, 3).mean((1, 3))
    stored = means * np.array([2.55, 1, 1], np.float32) + np.array([0, 128, 128], np.float32)
    layout: bytes = np.clip(np.rint(stored), 0, 255).astype(np.uint8).tobytes()
    return layout


def cielab(pixels: NDArray[np.uint8]) -> NDArray[np.float32]:
    """L*, a*, b* (CIE 15, D65) of sRGB pixels of 8 bits; the last axis holds the channels."""
    relative = _LINEAR[pixels] @ _TO_WHITE
    bent = np.where(relative > 216 / 24389, np.cbrt(relative), (relative * (24389 / 27) + 16) / 116)
    x, y, z = bent[..., 0], bent[..., 1], bent[..., 2]
    return np.stack((116 * y - 16, 500 * (x - y), 200 * (y - z)), axis=-1)
