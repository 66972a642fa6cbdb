"""Pictures into bytes: JPEG of a chosen weight, turned as the sensor lay, WebP, PNG, TIFF, thumbnails."""

from io import BytesIO

from PIL import Image, ImageOps

from .exif_block import block
from .household import Shot

#: What turns a displayed picture into the stored one; the displayed one comes back by the Exif orientation.
_STORED = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}
_QUALITIES = (80, 74, 68, 62, 56, 50, 46)
#: Bytes that a device's photos should not be much above.
_WEIGHTS = {"ada": 54_000, "ben": 47_000, "compact": 49_000, "grandmother": 22_000}


def stored(image: Image.Image, orientation: int) -> Image.Image:
    """The pixels as they lie in a file with that Exif orientation."""
    return image.transpose(_STORED[orientation]) if orientation in _STORED else image


def jpeg(image: Image.Image, weight: int, exif: bytes = b"") -> bytes:
    """The best of a few qualities that keeps the file below `weight` bytes, else the lowest."""
    data = b""
    for quality in _QUALITIES:
        data = jpeg_at(image, quality, exif)
        if len(data) <= weight:
            break
    return data


def jpeg_at(image: Image.Image, quality: int, exif: bytes = b"") -> bytes:
    target = BytesIO()
    image.save(target, "JPEG", quality=quality, subsampling="4:2:0", optimize=True, exif=exif)
    return target.getvalue()


def camera_jpeg(shot: Shot, image: Image.Image) -> bytes:
    """The file as the shot's device writes it: turned, with Exif, and with a thumbnail unless it is Ben's phone."""
    lying = stored(image, shot.orientation)
    thumbnail = None if shot.device == "ben" else small_jpeg(lying, letterbox=shot.device == "compact")
    return jpeg(lying, _WEIGHTS[shot.device], block(shot, shot.orientation, thumbnail))


def small_jpeg(image: Image.Image, letterbox: bool) -> bytes:
    """A thumbnail within 160x120 pixels (120x160 standing); letterboxed ones are 160x120 with black bars."""
    box = (160, 120) if letterbox or image.width >= image.height else (120, 160)
    small = image.copy()
    small.thumbnail(box, Image.Resampling.LANCZOS)
    if letterbox:
        framed = Image.new("RGB", box)
        framed.paste(small, ((box[0] - small.width) // 2, (box[1] - small.height) // 2))
        small = framed
    return jpeg_at(small, 48)


def message_bytes(name: str, image: Image.Image) -> bytes:
    """A message copy: no metadata at all, WebP or JPEG as the name says."""
    if name.endswith(".jpg"):
        return jpeg(image, _WEIGHTS["grandmother"])
    target = BytesIO()
    image.save(target, "WEBP", quality=62, method=4)
    return target.getvalue()


def png(image: Image.Image) -> bytes:
    """A PNG with a palette, as flat pages need no more."""
    target = BytesIO()
    image.quantize(96, dither=Image.Dither.NONE).save(target, "PNG", optimize=True)
    return target.getvalue()


def tiff(image: Image.Image, modified: str) -> bytes:
    """A TIFF with DateTime (tag 306) and nothing else about time."""
    target = BytesIO()
    tags = Image.Exif()
    tags[306] = modified
    image.save(target, "TIFF", compression="tiff_lzw", dpi=(150, 150), exif=tags)
    return target.getvalue()


def displayed(data: bytes) -> Image.Image:
    """The picture of a JPEG as a viewer shows it."""
    with Image.open(BytesIO(data)) as image:
        return ImageOps.exif_transpose(image).convert("RGB")
