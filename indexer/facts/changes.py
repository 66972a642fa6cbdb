"""What is known against what was found: the decision which files are to be read. Pure."""

import os
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from indexer.facts.folders import FoundFile


class KnownFile(NamedTuple):
    """A file as the index knows it.

    `has_failed` says that some step failed on it, `was_shut` that it could not even be opened, which the file's size
    and time do not show when it can be opened again. `sidecar` is the text of the sidecars it was read with.
    """

    id: int
    folder_id: int
    path: bytes
    size: int
    mtime_ns: int
    kind: str
    key: str | None
    reader_version: int
    is_missing: bool
    has_failed: bool
    was_shut: bool
    sidecar: str = ""


_NONE: Mapping[bytes, str] = {}


@dataclass(slots=True)
class Changes:
    """What became of the files of one place.

    `to_read`: paths with the row they may have. `returned`: rows found again as they were, in `unchanged` too.
    `absent`: rows whose file is gone. `held`: rows whose file is not to be seen, in a folder that may only be out of
    reach.
    """

    to_read: list[tuple[bytes, KnownFile | None]] = field(default_factory=list)
    unchanged: list[KnownFile] = field(default_factory=list)
    returned: list[KnownFile] = field(default_factory=list)
    absent: list[KnownFile] = field(default_factory=list)
    held: list[KnownFile] = field(default_factory=list)


def compare(
    known: Iterable[KnownFile],
    found: Mapping[bytes, FoundFile],
    out_of_reach: Collection[bytes],
    reader_version: int,
    sidecars: Mapping[bytes, str] = _NONE,
) -> Changes:
    """Sort the known files of one folder and the found ones, paths below the folder.

    Size and time decide, cheap before dear; a file whose reading failed to open is always tried again. `out_of_reach`
    are folders that are bare or closed; b"" stands for the whole. `sidecars` holds the text of those beside each file
    that has any: a photo is read again when one of them appears, changes or goes.
    """
    changes = Changes()
    met = set()
    for row in known:
        there = found.get(row.path)
        if there is None:
            if not row.is_missing:
                is_held = any(_is_below(row.path, folder) for folder in out_of_reach)
                (changes.held if is_held else changes.absent).append(row)
            continue
        met.add(row.path)
        is_other = there != (row.size, row.mtime_ns) or sidecars.get(row.path, "") != row.sidecar
        if is_other or row.reader_version != reader_version or row.was_shut:
            changes.to_read.append((row.path, row))
        else:
            changes.unchanged.append(row)
            if row.is_missing:
                changes.returned.append(row)
    changes.to_read.extend((path, None) for path in found if path not in met)
    return changes


def holds_back(photos_known: int, photos_found: int, folder_is_there: bool) -> bool:
    """Whether a whole folder is to be taken as out of reach: it held photos and now shows none."""
    return photos_known > 0 and (photos_found == 0 or not folder_is_there)


def _is_below(path: bytes, folder: bytes) -> bool:
    return not folder or path.startswith(folder + os.fsencode(os.sep))
