"""A photo of any format as an upright sRGB JPEG."""

import io

from PIL import ExifTags, Image

from indexer.facts.pictures import DECODE_ERRORS, PictureError, open_picture
from queries.made_files.jpeg import jpeg_bytes
from queries.photos import Photo
from queries.pull.names import SUFFIXES, known_time

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
    try:
        return jpeg_bytes(image, exif=_capture_time_exif(photo)), picture.note
    except DECODE_ERRORS as problem:
        raise PictureError(f"cannot be written as a JPEG: {problem}") from problem


def _capture_time_exif(photo: Photo) -> bytes:
    """Exif with DateTimeOriginal and nothing else; empty where no time of day is known."""
    time = known_time(photo)
    if len(time) < len("2026-03-30T09:15"):
        return b""
    text = time.replace("-", ":").replace("T", " ") + ("" if photo.precision == "second" else ":00")
    exif = Image.Exif()
    exif[ExifTags.IFD.Exif] = {ExifTags.Base.DateTimeOriginal: text}
    return exif.tobytes()
