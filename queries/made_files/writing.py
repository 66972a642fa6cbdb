"""Bytes in, verified file out: nothing half-written ever stands under a final name."""

import hashlib
import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from indexer.errors import FolderError

_BLOCK = 1 << 20  # bytes
_PART_BEGINS, _PART_ENDS = ".weeksheaf-", ".part"


@dataclass(frozen=True, slots=True)
class Written:
    """A file that stands under its final name: the SHA-256 of its content, its size in bytes and its file time."""

    sha256: str
    size: int
    mtime_ns: int


def read_block(file: BinaryIO) -> bytes:
    """The next block of an open file, empty at its end."""
    return file.read(_BLOCK)


def file_sha256(path: Path) -> str:
    """The SHA-256 of a file's content. Raises OSError."""
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while block := read_block(file):
            digest.update(block)
    return digest.hexdigest()


def write_verified(
    blocks: Iterable[bytes], folder: Path, name: str, part: str, *, mtime_ns: int | None = None, over: bool = False
) -> Written:
    """Write under a temporary name, read back, and only then give the final name; `over` lets it replace a file.

    `part` sets the temporary name apart. Raises FileExistsError when the final name is taken and `over` is not set,
    OSError when the folder cannot be written, FolderError when what is read back is not what was written, and what
    `blocks` raises.
    """
    temporary = folder / f"{_PART_BEGINS}{part}{_PART_ENDS}"
    digest = hashlib.sha256()
    opened = _create(temporary)
    try:
        with opened as file:
            for block in blocks:
                digest.update(block)
                file.write(block)
            file.flush()
            os.fsync(file.fileno())
        if file_sha256(temporary) != digest.hexdigest():
            raise FolderError(f"{folder / name} reads back other than it was written; check that disk, then try again")
        if mtime_ns is not None:
            os.utime(temporary, ns=(mtime_ns, mtime_ns))
        if over:
            temporary.replace(folder / name)
        else:
            _rename_to_free_name(temporary, folder / name)
    finally:
        temporary.unlink(missing_ok=True)
    info = (folder / name).stat()
    return Written(digest.hexdigest(), info.st_size, info.st_mtime_ns)


def clear_leftovers(folder: Path) -> None:
    """Remove the temporary files of a run that was killed. Raises OSError."""
    for path in folder.glob(f"{_PART_BEGINS}*{_PART_ENDS}"):
        if path.is_file() or path.is_symlink():
            path.unlink(missing_ok=True)


def reason_of(problem: OSError) -> str:
    """The system's words for what went wrong, without numbers and paths."""
    return (problem.strerror or str(problem) or type(problem).__name__).lower()


def _create(temporary: Path) -> BinaryIO:
    try:
        return temporary.open("xb")
    except FileExistsError:
        raise FolderError(f"another run is writing into {temporary.parent}; wait until it has ended") from None


def _rename_to_free_name(temporary: Path, final: Path) -> None:
    """Rename, never over another file. A second link makes that one step; where there are no links, look first."""
    try:
        os.link(temporary, final)
    except FileExistsError:
        raise
    except OSError:  # FAT and some network disks have no hard links
        if os.path.lexists(final):
            raise FileExistsError(final) from None
        temporary.rename(final)
