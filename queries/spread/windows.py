"""The part of each photo that its pocket shows."""

from collections.abc import Callable, Mapping

from queries.cropping import window_of
from queries.cropping.looking import NOTHING, Seen
from queries.cropping.values import Window
from queries.fitting.values import Placed
from queries.photos import Photo
from queries.spread.values import KeptPlan

#: What a photo shows, as far as its crop depends on it.
Look = Callable[[Photo], Seen]
#: Aspects that differ by less are one: less than a pixel of any print.
_SAME_ASPECT = 1e-4


def windows_of(kept: KeptPlan, before: KeptPlan | None, photos: Mapping[str, Photo], look: Look) -> dict[str, Window]:
    """By key. A photo whose cell has the shape that it had `before`, and of which nothing else was told since, keeps
    the window it had; what needs no cutting is not looked at."""
    return {
        placed.key: _same(placed, kept, before) or _window(placed, kept, photos[placed.key], look)
        for filled in kept.plan.filled
        for placed in filled.photos
    }


def _window(placed: Placed, kept: KeptPlan, photo: Photo, look: Look) -> Window:
    aspect, told, zoom = _aspect(placed), kept.crops.get(placed.key), kept.zooms.get(placed.key, 1.0)
    is_whole = abs(photo.width / photo.height / aspect - 1) < _SAME_ASPECT and zoom == 1.0
    seen = NOTHING if is_whole or (told is not None and zoom == 1.0) else look(photo)
    return window_of(photo.width, photo.height, aspect, seen.detail, seen.heads, told=told, zoom=zoom)


def _same(placed: Placed, kept: KeptPlan, before: KeptPlan | None) -> Window | None:
    if before is None or placed.key not in before.windows:
        return None
    was = next(old for filled in before.plan.filled for old in filled.photos if old.key == placed.key)
    same_told = all(
        told.get(placed.key) == told_before.get(placed.key)
        for told, told_before in ((kept.crops, before.crops), (kept.zooms, before.zooms))
    )
    if same_told and abs(_aspect(was) / _aspect(placed) - 1) < _SAME_ASPECT:
        return before.windows[placed.key]
    return None


def _aspect(placed: Placed) -> float:
    return placed.cell.width / placed.cell.height
