"""A photo of any format as an upright sRGB JPEG: quality 95, 4:4:4, baseline."""

import io

from PIL import ExifTags, Image, ImageCms

from indexer.facts.pictures import DECODE_ERRORS, PictureError, open_picture
from queries.photos import Photo
from queries.pull.names import SUFFIXES, known_time

QUALITY = 95
_FULL_COLOUR = 0  # Pillow's number for 4:4:4
_MOST_PIXELS_A_SIDE = 65_500  # the encoder's limit
_PREVIEW_BELOW = 0.9  # of the indexed size: what opens smaller than this is a preview beside raw data


def as_upright_jpeg(data: bytes, photo: Photo) -> tuple[bytes, str]:
    """The JPEG made from the original's bytes, and a note ("" when nothing was guessed).

    The same original gives the same bytes. Raises PictureError when it cannot be decoded whole, or is raw data.
    """
    if photo.format.upper() not in SUFFIXES:
        raise PictureError("raw data are not turned into a JPEG; pull it without --jpeg")
    picture = open_picture(io.BytesIO(data))
    image = picture.image
    if max(image.size) < _PREVIEW_BELOW * max(photo.width, photo.height):
        raise PictureError(f"only a preview of {image.width} x {image.height} pixels can be opened")
    if max(image.size) > _MOST_PIXELS_A_SIDE:
        raise PictureError(f"{image.width} x {image.height} pixels are more than a JPEG holds")
    image.info = {}  # nothing of the original's metadata goes along unasked
    file = io.BytesIO()
    try:
        image.save(
            file,
            "JPEG",
            quality=QUALITY,
            subsampling=_FULL_COLOUR,
            icc_profile=srgb_profile(),
            exif=_capture_time_exif(photo),
        )
    except DECODE_ERRORS as problem:
        raise PictureError(f"cannot be written as a JPEG: {problem}") from problem
    return file.getvalue(), picture.note


def srgb_profile() -> bytes:
    """An ICC profile for sRGB. Its date and platform are set to fixed ones, so that equal pictures give equal files."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    profile[24:36] = b"\x07\xd0\x00\x01\x00\x01\x00\x00\x00\x00\x00\x00"  # ICC.1, bytes 24 to 35: 2000-01-01 00:00:00
    profile[40:44] = b"\x00\x00\x00\x00"  # bytes 40 to 43: no platform
    return bytes(profile)


def _capture_time_exif(photo: Photo) -> bytes:
    """Exif with DateTimeOriginal and nothing else; empty where no time of day is known."""
    time = known_time(photo)
    if len(time) < len("2026-03-30T09:15"):
        return b""
    text = time.replace("-", ":").replace("T", " ") + ("" if photo.precision == "second" else ":00")
    exif = Image.Exif()
    exif[ExifTags.IFD.Exif] = {ExifTags.Base.DateTimeOriginal: text}
    return exif.tobytes()
