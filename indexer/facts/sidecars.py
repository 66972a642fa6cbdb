"""Which XMP files lie beside which photos: by names alone, nothing opened.

`name.jpg.xmp` and `name.xmp` belong to `name.jpg`, in the same folder and in whatever case (common practice).
"""

import os
from collections import defaultdict
from collections.abc import Mapping

from indexer.facts.folders import FoundFile

_ENDING = b".xmp"
#: Names that differ in case alone could be many; so many are read with one photo.
MOST_PER_PHOTO = 4


def find_sidecars(found: Mapping[bytes, FoundFile]) -> dict[bytes, tuple[bytes, ...]]:
    """The sidecars of every file that has any, paths below the folder; those with the whole name come first."""
    beside: defaultdict[tuple[str, str], list[bytes]] = defaultdict(list)
    for path in found:
        if path[-4:].lower() == _ENDING:
            beside[_place(path[:-4])].append(path)
    if not beside:
        return {}  # most libraries have none, and a walk may have found very many files
    sidecars = {}
    for path in found:
        stem = os.path.splitext(path)[0]  # noqa: PTH122 - asked of every file of a walk
        both = [*sorted(beside.get(_place(path), ())), *sorted(beside.get(_place(stem), ()))]
        if both and path[-4:].lower() != _ENDING:
            sidecars[path] = tuple(dict.fromkeys(both))[:MOST_PER_PHOTO]
    return sidecars


def sidecar_texts(sidecars: Mapping[bytes, tuple[bytes, ...]], found: Mapping[bytes, FoundFile]) -> dict[bytes, str]:
    """One text of names, sizes and times for every file with sidecars: another text is a reason to read it again."""
    return {path: "; ".join(_text(beside, found[beside]) for beside in names) for path, names in sidecars.items()}


def _place(path: bytes) -> tuple[str, str]:
    """The folder, and the name in one case."""
    folder, name = os.path.split(os.fsdecode(path))
    return folder, name.lower()  # not folded: that would take straße.xmp for the sidecar of strasse.jpg


def _text(path: bytes, there: FoundFile) -> str:
    name = os.path.basename(os.fsdecode(path))  # noqa: PTH119
    return f"{name.encode('utf-8', 'backslashreplace').decode()} {there.size} {there.mtime_ns}"
