"""Walking a library folder: every file's place, size and time, and nothing opened."""

import os
import stat
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

#: Folders of the system's own keeping that do not begin with a dot.
_SYSTEM_FOLDERS = frozenset({"$recycle.bin", "system volume information", "lost+found", "__macosx", "recycler"})
#: Disks keep years beyond 2262, whose nanoseconds no database holds.
_LEAST_NS, _MOST_NS = -(2**63), 2**63 - 1
_REPARSE_POINT = getattr(stat, "FILE_ATTRIBUTE_REPARSE_POINT", 0x400)


class FoundFile(NamedTuple):
    """A file as the folder lists it; `size` in bytes, `mtime_ns` in nanoseconds since 1970, held within 64 bits."""

    size: int
    mtime_ns: int


@dataclass(slots=True)
class Walk:
    """All that a walk found. Paths are below the root, as the bytes the system gave.

    `closed` are folders that could not be listed, with the reason; `bare` those with nothing in them that a walk
    enters; `skipped` counts hidden and system folders, and links, none of which are entered.
    """

    files: dict[bytes, FoundFile] = field(default_factory=dict)
    closed: dict[bytes, str] = field(default_factory=dict)
    bare: set[bytes] = field(default_factory=set)
    skipped: int = 0


def walk(root: str, below: str = "", heartbeat: Callable[[int], None] = lambda _: None) -> Walk:
    """Walk `root`, or only its folder `below`; links are never followed, so no way leads out or round in a circle.

    `heartbeat` is told the count of files so far, once a folder. The root itself may be a link: the person named it.
    """
    found = Walk()
    seen: set[tuple[int, int]] = set()
    waiting = [below]
    while waiting:
        relative = waiting.pop()
        if _is_seen(os.path.join(root, relative), seen):  # noqa: PTH118 - the hot loop joins plain strings
            found.skipped += 1
            continue
        try:
            waiting.extend(_list(root, relative, found))
        except OSError as error:
            found.closed[os.fsencode(relative)] = error.strerror or type(error).__name__
        heartbeat(len(found.files))
    return found


def is_entered(name: str) -> bool:
    """Whether a walk looks at what has this name: nothing hidden, and no folder of the system's own."""
    return not name.startswith(".") and name.lower() not in _SYSTEM_FOLDERS


def _list(root: str, relative: str, found: Walk) -> Iterator[str]:
    """Record the files of one folder; yield its folders."""
    prefix = relative + os.sep if relative else ""
    is_bare = True
    with os.scandir(os.path.join(root, relative)) as entries:  # noqa: PTH118
        for entry in entries:
            name = entry.name
            if not is_entered(name) or entry.is_symlink():
                found.skipped += 1
            elif entry.is_dir(follow_symlinks=False):
                if _is_junction(entry):
                    found.skipped += 1
                else:
                    is_bare = False
                    yield prefix + name
            elif entry.is_file(follow_symlinks=False):
                try:
                    status = entry.stat(follow_symlinks=False)
                except FileNotFoundError:
                    continue  # deleted just now
                is_bare = False
                mtime_ns = max(_LEAST_NS, min(status.st_mtime_ns, _MOST_NS))
                found.files[os.fsencode(prefix + name)] = FoundFile(status.st_size, mtime_ns)
    if is_bare:
        found.bare.add(os.fsencode(relative))


def _is_junction(entry: os.DirEntry[str]) -> bool:
    """Windows: a folder that stands for another place; elsewhere never."""
    attributes = getattr(entry.stat(follow_symlinks=False), "st_file_attributes", 0)
    return bool(attributes & _REPARSE_POINT)


def _is_seen(path: str, seen: set[tuple[int, int]]) -> bool:
    """A folder mounted inside itself comes by twice; its number on the disk gives it away (0: unknown)."""
    try:
        status = os.stat(path)  # noqa: PTH116 - the hot loop keeps to plain strings
    except OSError:
        return False
    identity = (status.st_dev, status.st_ino)
    if status.st_ino and identity in seen:
        return True
    seen.add(identity)
    return False
