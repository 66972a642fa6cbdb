"""What a pulled file is to hold: the original's bytes, or the JPEG made from them."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from queries.originals import Source, source_blocks
from queries.photos import Photo
from queries.pull.jpeg import as_upright_jpeg


@dataclass(frozen=True, slots=True)
class Content:
    """The bytes to write, read as they are taken. `source_sha256` is set when they are not the original's own."""

    blocks: Iterable[bytes]
    source_sha256: str = ""
    note: str = ""


def copied(source: Source) -> Content:
    """The original's own bytes. SourceError is raised while its blocks are taken."""
    return Content(source_blocks(source))


def converted(photo: Photo, source: Source) -> Content:
    """The upright sRGB JPEG of a photo. Raises SourceError and PictureError."""
    data = b"".join(source_blocks(source))
    jpeg, note = as_upright_jpeg(data, photo)
    return Content((jpeg,), hashlib.sha256(data).hexdigest(), note)
