"""One picture file -> what its pixels show: fingerprint, sharpness, clipped shares, and whether it is a photograph.

Cheap before dear: the embedded thumbnail where it can be trusted, else a scaled decode.
"""

import os
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import BinaryIO, Literal, TypeVar

import numpy as np
from PIL import Image, ImageChops

from indexer.facts.containers import BrokenContainer, Container, NotAPicture, parse
from indexer.facts.fingerprint import Fingerprint, fingerprint_of
from indexer.facts.pictures import (
    Decoded,
    PictureError,
    decode_heif_thumbnail,
    decode_scaled,
    in_srgb,
    luma_of,
    upright,
)
from indexer.facts.raw_previews import decode_raw_preview
from indexer.facts.sharpness import SIDES, UNKNOWN, Sharpness, sharpness_of
from indexer.facts.subjects import Subject, is_blank, may_be_text, subject_of
from indexer.facts.thumbnails import trusted_thumbnail

MadeFrom = Literal["thumbnail", "decode"]
_T = TypeVar("_T")

#: What fingerprints are taken of has a longer side of this many pixels up to twice as many, where the picture has.
_SIDE = 320
#: The thumbnail of a HEIF file serves where its longer side has as many.
_HEIF_SIDE = 160
#: Grey up to this counts as clipped at black, and channels from this on, all three of them, as clipped at white.
_BLACK, _WHITE = 2, 253


@dataclass(frozen=True, slots=True)
class PixelFacts:
    """What the upright picture shows.

    `sharpness`: variance of the Laplacian of the grey picture at a longer side of 960, 480 and 240 pixels; None where
    the picture is smaller, all None from a thumbnail. `dark`, `bright`: shares of the pixels clipped at black and at
    white, 0..1. `pictures`: how many the file holds (an animation, a burst file); the first, or the primary, is shown.
    The preview in a raw file counts as decoded: more of it cannot be.
    """

    made_from: MadeFrom
    fingerprint: Fingerprint
    sharpness: Sharpness
    dark: float
    bright: float
    subject: Subject
    pictures: int = 1


@dataclass(frozen=True, slots=True)
class NoPixels:
    """Why a file shows nothing, in words."""

    reason: str


def look_at(path: str, *, may_trust_thumbnail: bool) -> PixelFacts | NoPixels:
    """Look at one file. Raises nothing for any content; a file that cannot be opened is a reason too."""
    return _tried(path, lambda file: _look(file, may_trust_thumbnail))


def small_picture(path: str) -> Image.Image | NoPixels:
    """The upright picture in sRGB, decoded to 320 pixels or more, as fingerprints are taken of. Raises nothing."""
    return _tried(path, _small)


def _tried(path: str, look: Callable[[BinaryIO], _T | NoPixels]) -> _T | NoPixels:
    try:
        with Path(path).open("rb") as file:
            return look(file)
    except OSError as error:
        return NoPixels(error.strerror or str(error) or type(error).__name__)
    except NotAPicture as error:
        return NoPixels(f"it holds {error}")
    except BrokenContainer as error:
        return NoPixels(error.reason)
    except PictureError as error:
        return NoPixels(str(error))
    except MemoryError:
        return NoPixels("too large for the memory")


def _look(file: BinaryIO, may_trust_thumbnail: bool) -> PixelFacts | NoPixels:
    container = _whole(file)
    if isinstance(container, NoPixels):
        return container
    if may_trust_thumbnail and container.format != "raw" and (thumbnail := _thumbnail(file, container)) is not None:
        image = _upright(thumbnail)
        luma = np.asarray(image.convert("L"))
        # Letters are lost in so small a picture, and a photograph should not pass for nothing.
        if not is_blank(luma) and not may_be_text(luma):
            return _facts("thumbnail", image, UNKNOWN, "photograph", thumbnail.pictures)
    decoded = _decode(file, container, SIDES[0])
    return decoded if isinstance(decoded, NoPixels) else _decoded(decoded)


def _small(file: BinaryIO) -> Image.Image | NoPixels:
    container = _whole(file)
    decoded = container if isinstance(container, NoPixels) else _decode(file, container, _SIDE)
    return decoded if isinstance(decoded, NoPixels) else _upright(_reduced(decoded))


def _whole(file: BinaryIO) -> Container | NoPixels:
    container = parse(file, _size(file))
    return NoPixels(container.damage) if container.damage else container


def _decode(file: BinaryIO, container: Container, longer: int) -> Decoded | NoPixels:
    if container.format != "raw":
        return decode_scaled(file, longer)
    preview = decode_raw_preview(file, _size(file), longer)
    return preview or NoPixels("raw data without a preview, which are not developed")


def _size(file: BinaryIO) -> int:
    return os.fstat(file.fileno()).st_size


def _decoded(decoded: Decoded) -> PixelFacts:
    image = _upright(_reduced(decoded))
    subject = subject_of(np.asarray(image.convert("L")))
    return _facts("decode", image, sharpness_of(luma_of(decoded.image)), subject, decoded.pictures)


def _thumbnail(file: BinaryIO, container: Container) -> Decoded | None:
    if container.format not in ("HEIF", "AVIF"):
        return trusted_thumbnail(container)
    try:
        return decode_heif_thumbnail(file, _HEIF_SIDE)
    except PictureError:  # the picture itself may be whole
        return None


def _reduced(decoded: Decoded) -> Decoded:
    factor = max(decoded.image.size) // _SIDE
    return replace(decoded, image=decoded.image.reduce(factor)) if factor > 1 else decoded


def _upright(decoded: Decoded) -> Image.Image:
    return in_srgb(upright(decoded.image, decoded.orientation), decoded.profile).image


def _facts(
    made_from: MadeFrom, image: Image.Image, sharpness: Sharpness, subject: Subject, pictures: int
) -> PixelFacts:
    darkest = ImageChops.darker(ImageChops.darker(*image.split()[:2]), image.getchannel("B"))
    count = image.width * image.height
    return PixelFacts(
        made_from=made_from,
        fingerprint=fingerprint_of(image),
        sharpness=sharpness,
        dark=sum(image.convert("L").histogram()[: _BLACK + 1]) / count,
        bright=sum(darkest.histogram()[_WHITE:]) / count,
        subject=subject,
        pictures=pictures,
    )
