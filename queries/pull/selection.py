"""Which photos of a week are pulled, and what is said of those that are not. Pure."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from queries.photos import Photo


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A photo of the week that is not pulled.

    `behind` is the key of the pulled photo that stands for it; where none does, `note` says why it is left out, in at
    most two short lines.
    """

    photo: Photo
    behind: str | None
    note: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Selection:
    """The photos of a week, those to be pulled and the others."""

    taken: tuple[Photo, ...]
    left_out: tuple[LeftOut, ...] = ()


def select(
    photos: Sequence[Photo],
    taken: Collection[str],
    *,
    weeks_elsewhere: Mapping[str, str] | None = None,
    notes: Mapping[str, str] | None = None,
) -> Selection:
    """Part the photos of a week into those with the keys in `taken` and the others.

    `weeks_elsewhere` names the week of each keeper that is not among `photos`, by its key; `notes` says of a photo's
    key why it was not taken, where that is not for being alike to another.
    """
    by_key = {photo.key: photo for photo in photos}
    left_out = []
    for photo in photos:
        if photo.key not in taken:
            behind = _stand_in(photo, by_key, taken)
            note = () if behind else _note(photo, weeks_elsewhere or {}, (notes or {}).get(photo.key, ""))
            left_out.append(LeftOut(photo, behind, note))
    return Selection(tuple(photo for photo in photos if photo.key in taken), tuple(left_out))


def keepers_elsewhere(photos: Sequence[Photo]) -> set[str]:
    """The keys of keepers that stand for one of these photos and are not among them."""
    keys = {photo.key for photo in photos}
    return {photo.alike.keeper_key for photo in photos if photo.alike and photo.alike.keeper_key} - keys


def _stand_in(photo: Photo, by_key: Mapping[str, Photo], taken: Collection[str]) -> str | None:
    """The taken photo that stands for this one: its keeper, or its keeper's keeper, as of a copy in a burst."""
    passed = set()
    while photo.key not in taken:
        passed.add(photo.key)
        keeper = photo.alike.keeper_key if photo.alike else None
        if keeper is None or keeper in passed or keeper not in by_key:
            return None
        photo = by_key[keeper]
    return photo.key


def _note(photo: Photo, weeks_elsewhere: Mapping[str, str], note: str) -> tuple[str, ...]:
    alike = photo.alike
    if photo.choice == "leave":
        return ("left out by you",)
    if alike and alike.keeper_code and not alike.is_keeper:
        what = "copy of" if alike.kind == "copy" else "alike to"
        week = weeks_elsewhere.get(alike.keeper_key or "")
        return (f"{what} {alike.keeper_code}", *([week] if week else []))
    return (note,) if note else ()
