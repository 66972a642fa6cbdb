"""One look at a picture file, for all that its crop depends on."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from numpy.typing import NDArray

from indexer.facts.pictures import PictureError, open_picture
from indexer.facts.workers import Lost, process_count, run_all
from queries.cropping import detail, faces
from queries.cropping.values import Window

#: A picture that takes longer is given up.
_SECONDS_PER_PICTURE = 120.0
#: Below this many pictures a further process costs more to start than it saves.
_PICTURES_PER_PROCESS = 6


@dataclass(frozen=True, slots=True)
class Seen:
    """Where the detail of a picture lies, as `window_of` takes it, and the heads in it."""

    detail: NDArray[Any] | None
    heads: tuple[Window, ...] = ()


#: What is seen of a picture that cannot be decoded.
NOTHING = Seen(None)


def looks_at(paths: Sequence[str]) -> dict[str, Seen]:
    """What the pictures in these files show, by path, decoded in processes of their own: one that hangs or crashes its
    decoder costs that picture alone. Raises ReaderError when no process can be started."""
    processes = process_count(len(paths), _PICTURES_PER_PROCESS)
    results = run_all(look_at, paths, seconds_per_job=_SECONDS_PER_PICTURE, processes=processes)
    return {paths[place]: NOTHING if isinstance(seen, Lost) else seen for place, seen in results}


def look_at(path: str) -> Seen:
    """What the picture in this file shows; NOTHING where it cannot be decoded."""
    try:
        picture = open_picture(path, faces.SIDE if faces.can_find() else detail.SIDE).image
    except PictureError:
        return NOTHING
    return Seen(detail.detail_map(picture), faces.heads_in(picture))
