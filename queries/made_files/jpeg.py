"""A picture as the JPEG that labs want: quality 95, 4:4:4, baseline, in sRGB with its profile (common practice; that
more than 95 is waste says Pillow's manual)."""

import io
from typing import Any

from PIL import Image

from indexer.facts.colour_profiles import srgb_profile

QUALITY = 95
_FULL_COLOUR = 0  # Pillow's number for 4:4:4


def jpeg_bytes(image: Image.Image, *, dpi: int | None = None, exif: bytes = b"", comment: bytes = b"") -> bytes:
    """The same picture gives the same bytes; nothing of the metadata that came with it goes along.

    Raises what Pillow raises, as for a picture of more pixels than the format holds.
    """
    image.info = {}
    said: dict[str, Any] = {"exif": exif, "comment": comment, "dpi": (dpi, dpi) if dpi else b""}
    file = io.BytesIO()
    image.save(
        file,
        "JPEG",
        quality=QUALITY,
        subsampling=_FULL_COLOUR,
        icc_profile=srgb_profile(),
        **{name: value for name, value in said.items() if value},
    )
    return file.getvalue()
