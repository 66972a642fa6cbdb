"""Any picture file, opened upright, in 8 bits and sRGB, flattened on white."""

import io
import struct
import warnings
from contextlib import ExitStack
from dataclasses import dataclass
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


class PictureError(Exception):
    """The picture cannot be shown; its text is the reason."""


@dataclass(frozen=True, slots=True)
class Picture:
    """An upright RGB picture in sRGB; `note` says what was guessed about it, or is empty."""

    image: Image.Image
    note: str


def open_picture(source: str | BinaryIO, within: int | None = None) -> Picture:
    """Decode the first (HEIF: the primary) picture of a file, no side longer than `within` pixels where that is given.

    Raises PictureError when it cannot be decoded whole.
    """
    register_heif_opener()
    Image.MAX_IMAGE_PIXELS = PIXEL_LIMIT
    try:
        with ExitStack() as stack:
            stack.enter_context(warnings.catch_warnings())
            warnings.simplefilter("ignore")  # a size beyond the limit is refused below, by name
            # Given a name, Pillow 13 maps an uncompressed TIFF and scrambles it where its orientation swaps the sides.
            file = stack.enter_context(Path(source).open("rb")) if isinstance(source, str) else source
            return _prepare(stack.enter_context(Image.open(file)), within)
    except UnidentifiedImageError as problem:
        raise PictureError("not a picture that can be opened") from problem
    except DECODE_ERRORS as problem:
        raise PictureError(f"damaged or cut off ({_words(problem)})") from problem


def _prepare(opened: Image.Image, within: int | None) -> Picture:
    if opened.width * opened.height > PIXEL_LIMIT:
        raise PictureError(f"{opened.width} x {opened.height} pixels are more than can be opened")
    if within is not None:
        opened.draft(None, (2 * within, 2 * within))  # a JPEG decoded at half size or less costs a fraction
    opened.load()
    orientation = _orientation(opened)  # after loading: a TIFF is turned by then, and its tag gone
    profile = opened.info.get("icc_profile")
    image = _eight_bits_on_white(opened)
    if within is not None:
        image.thumbnail((within, within), Image.Resampling.LANCZOS)
    if orientation in _TURNS:
        image = image.transpose(_TURNS[orientation])
    return _in_srgb(image, profile)


def _orientation(opened: Image.Image) -> int:
    """The orientation tag; 1 when it is missing, no integer, or in an Exif block that cannot be read."""
    try:
        value = opened.getexif().get(ExifTags.Base.Orientation, 1)
    except DECODE_ERRORS:
        return 1
    return value if isinstance(value, int) else 1


def _eight_bits_on_white(image: Image.Image) -> Image.Image:
    """A copy in mode L, RGB, CMYK or LAB."""
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
    if image.mode in ("CMYK", "LAB"):
        return image.copy()
    return image.copy() if image.mode in ("L", "RGB") else image.convert("L" if is_grey else "RGB")


def _scaled_to_eight_bits(image: Image.Image) -> Image.Image:
    values = np.asarray(image).astype(np.int64)
    if values.min() < 0 or values.max() > 65_535:
        raise PictureError("its pixels are 32-bit numbers of an unknown range")
    return Image.fromarray(((values + 128) // 257).astype(np.uint8))


def _in_srgb(image: Image.Image, profile: bytes | None) -> Picture:
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
