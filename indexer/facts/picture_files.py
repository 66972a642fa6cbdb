"""What a file's name promises, and the readers' numbers: all that a run must know of reading when nothing changed."""

import os

#: Raised whenever a change in reading would tell other things of the same file: every file is then read again.
READER_VERSION = 2
#: Raised when `pixels` or `fingerprint` would give other values for the same pixels: all photos are looked at again.
LOOKING = 2

#: Names that promise a picture; such a file without one inside is reported, any other is just not a photo.
_DEVELOPED = {".jpg", ".jpeg", ".jpe", ".jfif", ".heic", ".heif", ".hif", ".avif", ".png", ".webp", ".tif", ".tiff"}
_RAW = {".dng", ".nef", ".cr2", ".cr3", ".arw", ".orf", ".rw2", ".raf", ".pef", ".srw"}
PICTURE_SUFFIXES = frozenset(_DEVELOPED | _RAW)


def promises_picture(name: str) -> bool:
    """Whether a file's name says that it is a picture."""
    return os.path.splitext(name)[1].lower() in PICTURE_SUFFIXES  # noqa: PTH122 - asked of every file of a walk
