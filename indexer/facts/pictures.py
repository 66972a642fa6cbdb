"""Any picture file, opened upright, in 8 bits and sRGB, flattened on white."""

import io
import struct
import warnings
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import BinaryIO

import numpy as np
from PIL import ExifTags, Image, ImageCms, UnidentifiedImageError
from pillow_heif import register_heif_opener

#: A picture of more pixels than this is refused before it is decoded.
PIXEL_LIMIT = 300_000_000

#: What the decoders raise on damaged files.
DECODE_ERRORS = (
    OSError,
    ValueError,
    SyntaxError,
    TypeError,
    ArithmeticError,
    LookupError,
    RuntimeError,
    EOFError,
    MemoryError,
    struct.error,
    Image.DecompressionBombError,
)

#: The Exif/TIFF orientation values, and the turn that brings each upright.
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}

#: Which pixels a profile of each ICC colour space describes.
_MODE_OF_SPACE = {"RGB": "RGB", "GRAY": "L", "CMYK": "CMYK"}


#: What Pillow calls a JPEG: one alone, and one with others behind it (CIPA DC-007).
_JPEG = ("JPEG", "MPO")


class PictureError(Exception):
    """The picture cannot be shown; its text is the reason."""


@dataclass(frozen=True, slots=True)
class Picture:
    """An upright RGB picture in sRGB; `note` says what was guessed about it, or is empty."""

    image: Image.Image
    note: str


@dataclass(frozen=True, slots=True)
class Decoded:
    """A picture of 8 bits on white, in mode L, RGB, CMYK or LAB, as stored: `orientation` turns it upright.

    `profile` is its ICC profile, `pictures` how many the file holds.
    """

    image: Image.Image
    orientation: int
    profile: bytes | None
    pictures: int


def open_picture(source: str | BinaryIO, within: int | None = None) -> Picture:
    """Decode the first (HEIF: the primary) picture of a file, no side longer than `within` pixels where that is given.

    Raises PictureError when it cannot be decoded whole.
    """
    with _opened(source) as opened:
        if within is not None:
            opened.draft(None, (2 * within, 2 * within))  # a JPEG decoded at half size or less costs a fraction
        return _prepare(opened, within)


def decode_whole(source: BinaryIO) -> Decoded:
    """Decode the first (HEIF: the primary) picture of a file at its full size.

    Raises PictureError when it cannot be decoded whole.
    """
    with _opened(source) as opened:
        return _decoded(opened)


def decode_scaled(source: BinaryIO, longer: int) -> Decoded:
    """Decode the first (HEIF: the primary) picture of a file, its longer side `longer` pixels up to twice as many where
    it has so many: a JPEG is decoded at a half, a quarter or an eighth, anything else whole and then averaged.

    Raises PictureError when it cannot be decoded whole.
    """
    with _opened(source) as opened:
        if opened.format in _JPEG:
            opened.draft(None, _sides(opened, longer))
        decoded = _decoded(opened)
        factor = max(decoded.image.size) // longer
        return replace(decoded, image=decoded.image.reduce(factor)) if factor > 1 else decoded


def decode_heif_thumbnail(source: BinaryIO, longer: int) -> Decoded | None:
    """The smallest thumbnail item of a HEIF file that has a longer side of so many pixels, where pillow-heif finds it
    to be a scaled copy of the primary picture (same shape, turn and crop); None where there is none.

    Raises PictureError when the file cannot be opened.
    """
    with _opened(source) as opened:
        if opened.format in _JPEG or opened.draft(None, _sides(opened, longer)) is None:
            return None
        return _decoded(opened)


def _sides(opened: Image.Image, longer: int) -> tuple[int, int]:
    longest = max(opened.size)
    return max(opened.width * longer // longest, 1), max(opened.height * longer // longest, 1)


def _decoded(opened: Image.Image) -> Decoded:
    # The further pictures of a JPEG are previews of the first, and counting those of others is cheap.
    pictures = 1 if opened.format in _JPEG else getattr(opened, "n_frames", 1)
    opened.load()
    return Decoded(_eight_bits_on_white(opened), _orientation(opened), opened.info.get("icc_profile"), pictures)


def luma_of(image: Image.Image) -> Image.Image:
    """The light and dark of a decoded picture, mode L, whatever its colours mean."""
    return image.getchannel("L") if image.mode == "LAB" else image.convert("L")


@contextmanager
def _opened(source: str | BinaryIO) -> Iterator[Image.Image]:
    """The picture, not yet decoded. Whatever the decoders raise inside becomes PictureError."""
    register_heif_opener()
    Image.MAX_IMAGE_PIXELS = PIXEL_LIMIT
    try:
        with ExitStack() as stack:
            stack.enter_context(warnings.catch_warnings())
            warnings.simplefilter("ignore")  # a size beyond the limit is refused below, by name
            # Given a name, Pillow 13 maps an uncompressed TIFF and scrambles it where its orientation swaps the sides.
            file = stack.enter_context(Path(source).open("rb")) if isinstance(source, str) else source
            opened = stack.enter_context(Image.open(file))
            if opened.width * opened.height > PIXEL_LIMIT:
                raise PictureError(f"{opened.width} x {opened.height} pixels are more than can be opened")
            yield opened
    except UnidentifiedImageError as problem:
        raise PictureError("not a picture that can be opened") from problem
    except DECODE_ERRORS as problem:
        raise PictureError(f"damaged or cut off ({_words(problem)})") from problem


def _prepare(opened: Image.Image, within: int | None) -> Picture:
    opened.load()
    orientation = _orientation(opened)  # after loading: a TIFF is turned by then, and its tag gone
    profile = opened.info.get("icc_profile")
    image = _eight_bits_on_white(opened)
    if within is not None:
        image.thumbnail((within, within), Image.Resampling.LANCZOS)
    return in_srgb(upright(image, orientation), profile)


def upright(image: Image.Image, orientation: int) -> Image.Image:
    """The picture turned as an Exif/TIFF orientation asks; values outside of the table turn nothing."""
    return image.transpose(_TURNS[orientation]) if orientation in _TURNS else image


def _orientation(opened: Image.Image) -> int:
    """The orientation tag; 1 when it is missing, no integer, or in an Exif block that cannot be read."""
    try:
        value = opened.getexif().get(ExifTags.Base.Orientation, 1)
    except DECODE_ERRORS:
        return 1
    return value if isinstance(value, int) else 1


def _eight_bits_on_white(image: Image.Image) -> Image.Image:
    """The picture in mode L, RGB, CMYK or LAB: itself where it is so already, for a copy of so much costs time."""
    if image.mode == "I" or image.mode.startswith("I;16"):
        return _scaled_to_eight_bits(image)
    if image.mode == "F":
        raise PictureError("its pixels are floating-point numbers of an unknown range")
    is_grey = image.mode in ("1", "L", "LA", "La")
    if image.has_transparency_data:
        layer = image.convert("RGBA")
        flat = Image.new("RGB", image.size, "white")
        flat.paste(layer, mask=layer.getchannel("A"))
        return flat.convert("L") if is_grey else flat
    return image if image.mode in ("L", "RGB", "CMYK", "LAB") else image.convert("L" if is_grey else "RGB")


def _scaled_to_eight_bits(image: Image.Image) -> Image.Image:
    values = np.asarray(image).astype(np.int64)
    if values.min() < 0 or values.max() > 65_535:
        raise PictureError("its pixels are 32-bit numbers of an unknown range")
    return Image.fromarray(((values + 128) // 257).astype(np.uint8))


def in_srgb(image: Image.Image, profile: bytes | None) -> Picture:
    """The picture by its own profile, relative colorimetric; without a profile it counts as sRGB."""
    if not profile and image.mode != "LAB":
        return Picture(image.convert("RGB"), "")
    try:
        own = ImageCms.createProfile("LAB") if image.mode == "LAB" else _usable_profile(image, profile or b"")
        srgb = ImageCms.createProfile("sRGB")
        intent = ImageCms.Intent.RELATIVE_COLORIMETRIC
        converted = ImageCms.profileToProfile(image, own, srgb, renderingIntent=intent, outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError) as problem:
        if image.mode == "LAB":
            raise PictureError("its Lab colours cannot be converted") from problem
        return Picture(image.convert("RGB"), "its colour profile cannot be used; taken as sRGB")
    if converted is None:
        raise PictureError("its colours cannot be converted")
    return Picture(converted, "")


def _usable_profile(image: Image.Image, profile: bytes) -> ImageCms.ImageCmsProfile:
    """The profile, if it describes such pixels. Raises OSError, or ValueError when it is for another kind."""
    parsed = ImageCms.ImageCmsProfile(io.BytesIO(profile))
    if _MODE_OF_SPACE.get(parsed.profile.xcolor_space.strip()) != image.mode:
        raise ValueError("a profile for other pixels")
    return parsed


def _words(problem: BaseException) -> str:
    if isinstance(problem, MemoryError):
        return "too large for the memory"
    return (str(problem).splitlines() or [""])[0] or type(problem).__name__
