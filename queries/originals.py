"""The file of a photo to read from: that it is there, and still the one that was indexed."""

import os
import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from indexer.facts.reading import read_file
from queries.made_files.writing import read_block, reason_of
from queries.photos import Photo


class SourceError(Exception):
    """The original could not be read as it was planned; its text is the reason."""


@dataclass(frozen=True, slots=True)
class Source:
    """The original to copy from. Where an unrecorded file is in its way, it is known what a copy would hold.

    `fresh_sha256` is the copy's, `own_sha256` the original's: another one, when the copy is a JPEG made from it.
    """

    path: str
    size: int
    mtime_ns: int
    fresh_sha256: str | None = None
    own_sha256: str | None = None


@dataclass(frozen=True, slots=True)
class NoSource:
    """An original that cannot be copied, and why."""

    path: str
    reason: str


def find_source(photo: Photo) -> Source | NoSource:
    """The file to copy: the photo's own as it was indexed, or another of its places when that one is gone."""
    found = _plain_file(photo.path)
    if isinstance(found, Source):
        if (found.size, found.mtime_ns) == (photo.size, photo.mtime_ns):
            return found
        return NoSource(photo.path, "changed since it was indexed; run weeksheaf index")
    others = (_plain_file(path) for path in photo.paths if path != photo.path)
    return next((other for other in others if isinstance(other, Source) and _shows(other.path, photo)), found)


def _shows(path: str, photo: Photo) -> bool:
    """Whether a file still shows that photo: of a photo's other places neither size nor time is at hand."""
    facts = read_file(path).facts
    return facts is not None and facts.key == photo.key


def source_blocks(source: Source) -> Iterator[bytes]:
    """The original's content. Raises SourceError when it cannot be read, or is not the file of the plan to its end."""
    try:
        with Path(source.path).open("rb") as file:
            while block := read_block(file):
                yield block
            info = os.fstat(file.fileno())
    except OSError as problem:
        raise SourceError(f"cannot be read: {reason_of(problem)}") from problem
    if (info.st_size, info.st_mtime_ns) != (source.size, source.mtime_ns):
        raise SourceError("changed while it was read; run weeksheaf index")


def _plain_file(path: str) -> Source | NoSource:
    try:
        info = Path(path).stat()
    except (FileNotFoundError, NotADirectoryError):
        return NoSource(path, "not found; connect its disk, or run weeksheaf index")
    except OSError as problem:
        return NoSource(path, f"cannot be read: {reason_of(problem)}")
    if not stat.S_ISREG(info.st_mode):
        return NoSource(path, "no longer a file; run weeksheaf index")
    return Source(path, info.st_size, info.st_mtime_ns)
