"""The part of each photo that its pocket shows."""

from collections.abc import Callable, Mapping, Sequence

from queries.cropping import window_of
from queries.cropping.looking import NOTHING, Seen
from queries.cropping.values import Window
from queries.fitting.values import Placed
from queries.photos import Photo
from queries.spread.values import KeptPlan

#: What photos show, as far as their crops depend on it, by key: asked once, for all that need it.
Look = Callable[[Sequence[Photo]], Mapping[str, Seen]]
#: Aspects that differ by less are one: less than a pixel of any print.
_SAME_ASPECT = 1e-4


def windows_of(kept: KeptPlan, before: KeptPlan | None, photos: Mapping[str, Photo], look: Look) -> dict[str, Window]:
    """By key. A photo whose cell has the shape that it had `before`, and of which nothing else was told since, keeps
    the window it had; what needs no cutting is not looked at."""
    placed = [one for filled in kept.plan.filled for one in filled.photos]
    stay = {one.key: window for one in placed if (window := _same(one, kept, before))}
    new = [one for one in placed if one.key not in stay]
    seen = look([photos[one.key] for one in new if _needs_a_look(one, kept, photos[one.key])])
    return stay | {one.key: _window(one, kept, photos[one.key], seen.get(one.key, NOTHING)) for one in new}


def _needs_a_look(placed: Placed, kept: KeptPlan, photo: Photo) -> bool:
    """Not where the whole photo is shown, or where its place was told and is not narrowed."""
    is_zoomed = kept.zooms.get(placed.key, 1.0) != 1.0
    is_whole = abs(photo.width / photo.height / _aspect(placed) - 1) < _SAME_ASPECT
    return is_zoomed or not (is_whole or placed.key in kept.crops)


def _window(placed: Placed, kept: KeptPlan, photo: Photo, seen: Seen) -> Window:
    told, zoom = kept.crops.get(placed.key), kept.zooms.get(placed.key, 1.0)
    return window_of(photo.width, photo.height, _aspect(placed), seen.detail, seen.heads, told=told, zoom=zoom)


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
