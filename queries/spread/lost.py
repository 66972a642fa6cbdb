"""Photos of a plan that cannot stay on it: gone from the disk, left out since, or changed in shape."""

from collections.abc import Collection, Mapping

from queries.cropping.values import Window
from queries.fitting.values import Placed
from queries.photos import Photo
from queries.spread.gathering import file_of
from queries.spread.values import KeptPlan

GONE = "is gone from the disk"
RESHAPED = "was edited and has another shape"
#: How far a window's shape may be from its cell's: whole pixels of small pictures round by as much.
_ROUNDING = 0.03


def lost_photos(
    kept: KeptPlan, photos: Mapping[str, Photo], week_keys: Collection[str], asked_now: Collection[str]
) -> dict[str, str]:
    """By key: why a photo of the plan cannot stay, in a few words. `asked_now` are named or pinned now; those that the
    plan was told of are asked for too."""
    asked_for = {*asked_now, *kept.named, *kept.asked.pins.values()}
    reasons = {
        placed.key: _reason(placed, photos.get(placed.key), kept.windows.get(placed.key), week_keys, asked_for)
        for filled in kept.plan.filled
        for placed in filled.photos
    }
    return {key: reason for key, reason in reasons.items() if reason}


def _reason(
    placed: Placed, photo: Photo | None, window: Window | None, week_keys: Collection[str], asked_for: Collection[str]
) -> str | None:
    if photo is None or not file_of(photo):
        return GONE
    if photo.choice == "leave":
        return "was left out"
    if window and _is_reshaped(placed, photo, window):
        return RESHAPED
    if photo.key in asked_for:
        return None
    if photo.key not in week_keys:
        return "is no photo of this week any longer"
    return None if photo.keeper else "no longer stands for the photos alike to it"


def _is_reshaped(placed: Placed, photo: Photo, window: Window) -> bool:
    shown = (photo.width * window.width) / (photo.height * window.height)
    return abs(shown * placed.cell.height / placed.cell.width - 1) > _ROUNDING
