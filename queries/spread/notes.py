"""What is to be said of a week's plan beside the plan itself. Pure."""

from collections.abc import Collection, Iterable, Mapping, Sequence

from queries.cropping.values import Window
from queries.photos import Photo
from queries.spread.values import AUTO, KeptPlan
from queries.weeks import Week, week_words

#: A side of which more is shown is whole, as a person sees it.
_WHOLE_SIDE = 0.995


def frozen_words(week: Week) -> str:
    return f"The week is done, and its plan stays as it is; weeksheaf mark {week.name} open lets it change."


def frozen_error(week: Week) -> str:
    return (
        f"{week_words(week)}, is done and its plan stays as it is; to change it, re-open the week first:"
        f" weeksheaf mark {week.name} open"
    )


def unreachable_words() -> str:
    return (
        "None of the plan's photos is on the disk, and the plan stays as it is: connect the disk, or run"
        " weeksheaf index if they have moved."
    )


def unreachable_error(week: Week) -> str:
    return (
        f"none of the photos planned for {week_words(week)}, is on the disk; connect it, or run weeksheaf index if they"
        " have moved"
    )


def skipped_words(week: Week) -> str:
    return (
        "The week is skipped and has no pages in the album: its neighbours share a sleeve past it;"
        f" weeksheaf mark {week.name} open gives it pages."
    )


def done_unplanned_words(week: Week) -> str:
    return (
        f"The week is done and has no plan; this one is not kept, unless you say weeksheaf mark {week.name} open first."
    )


def unreadable_error(week: Week) -> str:
    return (
        f"what was kept as the plan of {week_words(week)}, cannot be read, as where a newer weeksheaf made it; use that"
        f" one, or drop the plan: weeksheaf fit {week.name} --forget"
    )


def lost_words(lost: Mapping[str, str], photos: Mapping[str, Photo]) -> list[str]:
    """One line for each photo that could not stay."""
    return [f"{_code(key, photos)} {reason}; its place was planned anew." for key, reason in lost.items()]


def waiting_words(week: Week, photos: Sequence[Photo], cards: Sequence[str]) -> list[str]:
    """That photos came in since the plan was made, which has room for them: `cards` are pockets that hold cards for
    want of photos. Freeing one of them plans anew and drops nothing that was fixed."""
    if not photos or not cards:
        return []
    codes = ", ".join(photo.code for photo in photos)
    return [
        f"Not on this plan, and there is room: {codes}. To take them in: weeksheaf fit {week.name} --free {cards[0]}"
    ]


def gone_words(gone: Iterable[Photo]) -> list[str]:
    """One line for each photo that would have been proposed and is not there."""
    return [
        f"{photo.code} is passed over: {photo.path} is not there; connect its disk, or run weeksheaf index."
        for photo in gone
    ]


def twin_words(twins: Mapping[str, str]) -> list[str]:
    """One line for each photo that is not proposed since another shows the same; `twins` has the reasons by code."""
    return [f"{code} is left out: {reason}; weeksheaf keep {code} has it come in." for code, reason in twins.items()]


def dropped_words(own: KeptPlan | None, letters: Collection[str]) -> list[str]:
    """What was fixed in pockets that are there no longer; `letters` are those of the pages that stay."""
    if own is None:
        return []
    fixed = {*own.asked.pins, *own.asked.cards, *own.asked.collages, *own.asked.empty}
    dropped = sorted(place for place in fixed if place[0] not in letters)
    return [f"What was fixed in {', '.join(dropped)} falls away, as that page has another sleeve."] if dropped else []


def strangers_words(kept: KeptPlan, photos: Mapping[str, Photo], week_keys: Collection[str]) -> list[str]:
    """One line for each photo of the plan that is of another week."""
    return [f"{_code(key, photos)} is no photo of this week." for key in kept.keys if key not in week_keys]


def unplaced_words(told: Iterable[str], kept: KeptPlan, photos: Mapping[str, Photo]) -> list[str]:
    """One line for each photo that a crop or a zoom was told of and that is not on the plan."""
    away = dict.fromkeys(key for key in told if key not in kept.keys)
    return [f"{_code(key, photos)} is not on this plan; its crop is kept for when it is." for key in away]


def idle_crop_words(
    crops: Mapping[str, str | float], windows: Mapping[str, Window], photos: Mapping[str, Photo]
) -> list[str]:
    """One line for each photo that shows the same whatever crop was told, as nothing is cut off along that side."""
    return [
        f"{_code(key, photos)} loses nothing {where}: its crop {told if isinstance(told, str) else f'{told:g}'} moves"
        " nothing here."
        for key, told in crops.items()
        if key in windows and (where := _uncut(told, windows[key]))
    ]


def _uncut(told: str | float, window: Window) -> str:
    """Where the window leaves no room for this crop; "" where it does, or where none was told."""
    if told == AUTO:
        return ""
    across, down = window.width > _WHOLE_SIDE, window.height > _WHOLE_SIDE
    if across and down:
        return "in its pocket"
    if told in ("left", "right") and across:
        return "at the sides"
    return "at the top and bottom" if told in ("top", "bottom") and down else ""


def no_photos_error(week: Week, photos: Collection[Photo], gone: Collection[Photo]) -> str:
    if gone:
        return f"no photo of {week_words(week)}, is on the disk; connect it, or run weeksheaf index if they have moved"
    if photos:
        return (
            f"{week_words(week)}, has {len(photos)} {'photo' if len(photos) == 1 else 'photos'} and none to plan with:"
            f" weeksheaf week {week.name} --shortlist 9 says why; keep one, or name photos"
        )
    return (
        f"there are no photos in {week_words(week)}; name some, or see weeksheaf weeks for the weeks that have photos"
    )


def _code(key: str, photos: Mapping[str, Photo]) -> str:
    return photos[key].code if key in photos else key[:5]
