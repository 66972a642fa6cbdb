"""A folder that files are made in: outside of the library, with room, and every trouble named."""

import contextlib
import errno
import os
import shutil
import stat
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from indexer.errors import FolderError
from queries.made_files.values import FileState, Recorded, bytes_words, is_as_recorded
from queries.made_files.writing import file_sha256, reason_of

#: Bytes kept free for what is written besides.
_SPARE = 8_000_000
_FULL = (errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC))


def check_target(folder: Path, library_folders: Sequence[Path]) -> None:
    """Raise FolderError when the folder is a file, or lies in a library folder by whatever way it is reached."""
    if os.path.lexists(folder) and not folder.is_dir():
        raise FolderError(f"{folder} is not a folder; give the name of a folder")
    real = _real(folder)
    around = (real, *real.parents)
    for library in library_folders:
        if _real(library) in around or any(_is_same(place, library) for place in around):
            raise FolderError(
                f"{folder} lies inside the library folder {library}, where nothing is ever written; "
                "choose a folder outside of it"
            )


def look_at(folder: Path, names: Iterable[str], records: Mapping[str, Recorded]) -> dict[str, FileState]:
    """The state of each name that is taken in the folder. `records` goes by name; only doubtful content is hashed."""
    states = {}
    for name in names:
        state = _state_of(folder / name)
        if state is None:
            continue
        record = records.get(name)
        if record and state.is_plain and state.size == record.size and not is_as_recorded(record, state):
            state = replace(state, sha256=sha256_or_none(folder / name))
        states[name] = state
    return states


def check_space(folder: Path, needed: int) -> None:
    """Raise FolderError when `needed` bytes do not fit on the folder's disk."""
    if needed == 0:
        return
    free = free_bytes(folder)
    if needed + _SPARE > free:
        raise full_disk(folder, needed, free)


def free_bytes(folder: Path) -> int:
    """Bytes free on the disk where the folder is or will be."""
    place = next(place for place in (folder.absolute(), *folder.absolute().parents) if place.exists())
    return shutil.disk_usage(place).free


def full_disk(folder: Path, needed: int, free: int) -> FolderError:
    """The error for a disk without room."""
    return FolderError(
        f"{folder} needs {bytes_words(needed)} and its disk has {bytes_words(free)} free; "
        "make room, or choose a folder on another disk"
    )


@contextlib.contextmanager
def named_troubles(folder: Path, bytes_left: Callable[[], int] = lambda: 0) -> Iterator[None]:
    """Turn what the system says of the folder's disk into an error that names the folder and the way out."""
    try:
        yield
    except OSError as problem:
        if problem.errno in _FULL:
            raise full_disk(folder, bytes_left(), free_bytes(folder)) from problem
        raise FolderError(
            f"{folder} cannot be used ({reason_of(problem)}); allow it, or choose another folder"
        ) from problem


def sha256_or_none(path: Path) -> str | None:
    """The SHA-256 of a file's content, None where it cannot be read."""
    try:
        return file_sha256(path)
    except OSError:
        return None


def _state_of(path: Path) -> FileState | None:
    try:
        info = path.lstat()
    except OSError:
        return None
    return FileState(info.st_size, info.st_mtime_ns, is_plain=stat.S_ISREG(info.st_mode))


def _real(path: Path) -> Path:
    """The path without links, in the one case that Windows compares by."""
    return Path(os.path.normcase(os.path.realpath(path)))


def _is_same(one: Path, other: Path) -> bool:
    """Whether two paths lead to one folder, also where the disk ignores case and the system's path rules do not."""
    try:
        return one.samefile(other)
    except OSError:
        return False
