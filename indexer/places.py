"""Which of a photo's files is there as it was read."""

import os
from collections.abc import Sequence

from indexer.store.pixels import Place


def first_there(places: Sequence[Place]) -> str | None:
    """The first of a photo's files that is there as it was read: a disk may be out of reach without its photos being
    missing, and a file that was saved over since may show another picture."""
    for place in places:
        try:
            now = os.stat(place.path)  # noqa: PTH116
        except (OSError, ValueError):
            continue
        if (now.st_size, now.st_mtime_ns) == (place.size, place.mtime_ns):
            return place.path
    return None
