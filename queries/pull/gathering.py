"""What the plan must know of the disk: the target folder, what lies in it, the originals, the free space."""

import hashlib
import os
import shutil
import stat
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from indexer.errors import PullError
from indexer.facts.reading import read_file
from queries.photos import Photo
from queries.pull.copying import file_sha256, reason_of
from queries.pull.decoding import conversions
from queries.pull.manifest import FILE_NAME, Manifest, PulledPhoto, PulledSheet, Unusable, parse_manifest
from queries.pull.plan import FileState, NoSource, Source, is_as_recorded, size_words

#: Bytes kept free for week.json and the week sheet.
_SPARE = 8_000_000


def check_target(folder: Path, library_folders: Sequence[Path]) -> None:
    """Raise PullError when the folder is a file, or lies in a library folder by whatever way it is reached."""
    if os.path.lexists(folder) and not folder.is_dir():
        raise PullError(f"{folder} is not a folder; give the name of a folder")
    real = _real(folder)
    around = (real, *real.parents)
    for library in library_folders:
        if _real(library) in around or any(_is_same(place, library) for place in around):
            raise PullError(
                f"{folder} lies inside the library folder {library}, where nothing is ever written; "
                "choose a folder outside of it"
            )


def read_held(folder: Path) -> Manifest | Unusable | None:
    """What week.json says of the folder; None when there is none. Raises PullError when it cannot be read."""
    path = folder / FILE_NAME
    if not os.path.lexists(path):
        return None
    if path.is_symlink() or not path.is_file():
        return Unusable("it is no plain file")
    try:
        return parse_manifest(path.read_bytes())
    except OSError as problem:
        raise PullError(
            f"{path} cannot be read ({reason_of(problem)}); allow reading it, or choose another folder"
        ) from problem


def pulled_key(path: Path) -> str | None:
    """The key of the photo that a file in a working folder was made from, by the week.json beside it."""
    try:
        held = read_held(path.parent)
    except PullError:
        return None
    records = held.photos if isinstance(held, Manifest) else ()
    return next((record.key for record in records if record.file == path.name), None)


def look_at(
    folder: Path, names: Iterable[str], records: Mapping[str, PulledPhoto | PulledSheet]
) -> dict[str, FileState]:
    """The state of each name that is taken in the folder. `records` goes by name; only doubtful content is hashed."""
    states = {}
    for name in names:
        state = _state_of(folder / name)
        if state is None:
            continue
        record = records.get(name)
        if record and state.is_plain and state.size == record.size and not is_as_recorded(record, state):
            state = replace(state, sha256=_sha256_or_none(folder / name))
        states[name] = state
    return states


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


def hashed_to_compare(
    path: Path, state: FileState, photo: Photo, source: Source | NoSource, *, as_jpeg: bool
) -> tuple[FileState, Source | NoSource]:
    """Both sides with the SHA-256 of their content, for an unrecorded file under a wanted name; dear, so only there.

    Unchanged come back what cannot be compared, and exact copies whose size already settles it.
    """
    if isinstance(source, NoSource) or not state.is_plain or (not as_jpeg and state.size != source.size):
        return state, source
    fresh, own = _fresh_hashes(photo, source, as_jpeg=as_jpeg)
    if not fresh:
        return state, source
    return replace(state, sha256=_sha256_or_none(path)), replace(source, fresh_sha256=fresh, own_sha256=own)


def check_space(folder: Path, needed: int) -> None:
    """Raise PullError when `needed` bytes do not fit on the folder's disk."""
    if needed == 0:
        return
    free = free_bytes(folder)
    if needed + _SPARE > free:
        raise full_disk(folder, needed, free)


def free_bytes(folder: Path) -> int:
    """Bytes free on the disk where the folder is or will be."""
    place = next(place for place in (folder.absolute(), *folder.absolute().parents) if place.exists())
    return shutil.disk_usage(place).free


def full_disk(folder: Path, needed: int, free: int) -> PullError:
    """The error for a disk without room."""
    return PullError(
        f"{folder} needs {size_words(needed)} and its disk has {size_words(free)} free; "
        "make room, or choose a folder on another disk"
    )


def _state_of(path: Path) -> FileState | None:
    try:
        info = path.lstat()
    except OSError:
        return None
    return FileState(info.st_size, info.st_mtime_ns, is_plain=stat.S_ISREG(info.st_mode))


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


def _fresh_hashes(photo: Photo, source: Source, *, as_jpeg: bool) -> tuple[str, str]:
    """The SHA-256 that a pulled file would have, and that of its original; two empty texts where it cannot be made."""
    if not as_jpeg:
        own = _sha256_or_none(Path(source.path)) or ""
        return own, own
    (_, content), *_ = conversions([(photo, source)])
    if isinstance(content, str):
        return "", ""
    return hashlib.sha256(b"".join(content.blocks)).hexdigest(), content.source_sha256


def _sha256_or_none(path: Path) -> str | None:
    try:
        return file_sha256(path)
    except OSError:
        return None


def _real(path: Path) -> Path:
    """The path without links, in the one case that Windows compares by."""
    return Path(os.path.normcase(os.path.realpath(path)))


def _is_same(one: Path, other: Path) -> bool:
    """Whether two paths lead to one folder, also where the disk ignores case and the system's path rules do not."""
    try:
        return one.samefile(other)
    except OSError:
        return False
