"""What is fixed in a plan: what was fixed before, and what is asked for now. Pure."""

from collections.abc import Collection, Iterable
from dataclasses import replace

from queries.fitting.values import Asked
from queries.spread.values import Wishes


def asked_for(before: Asked, wishes: Wishes, gone: Collection[str] = ()) -> Asked:
    """What was fixed before stays fixed, unless it is fixed otherwise now; pins of the `gone` photos fall away.

    What is asked for now is taken as it stands: whether it contradicts itself is for the plan to find. A number of
    photos asked for now sets aside a number of cards asked for earlier, and the other way round.
    """
    settled = wishes.cards | wishes.freed
    touched = settled | {pocket_of(place) for place in wishes.pins} | wishes.collages.keys()
    pinned_now = set(wishes.pins.values())
    pins = {
        place: key
        for place, key in before.pins.items()
        if key not in pinned_now
        and key not in gone
        and pocket_of(place) not in settled
        and _stays(place, before, wishes)
    }
    counts_now = wishes.card_count, wishes.photo_count
    card_count, photo_count = counts_now if counts_now != (None, None) else (before.card_count, before.photo_count)
    return Asked(
        pins=pins | dict(wishes.pins),
        cards=before.cards - touched | wishes.cards,
        collages={pocket: count for pocket, count in before.collages.items() if pocket not in settled}
        | dict(wishes.collages),
        empty=before.empty - touched,
        card_count=card_count,
        photo_count=photo_count,
        mat=before.mat if wishes.mat is None else wishes.mat,
        style=replace(before.style, **wishes.style),
    )


def on_pages(asked: Asked, letters: Collection[str]) -> Asked:
    """What is fixed in the pockets of these pages ("L", "R"); the rest falls away, as its sleeve has changed."""
    return replace(
        asked,
        pins={place: key for place, key in asked.pins.items() if place[0] in letters},
        cards=_on(asked.cards, letters),
        collages={pocket: count for pocket, count in asked.collages.items() if pocket[0] in letters},
        empty=_on(asked.empty, letters),
    )


def with_pins_of(away: Collection[str], asked: Asked, with_all: Asked) -> Asked:
    """What is asked for, with the pins of photos that are away now, as they stand in `with_all`."""
    kept = {place: key for place, key in with_all.pins.items() if key in away}
    return replace(asked, pins=kept | dict(asked.pins))


def pocket_of(place: str) -> str:
    """The pocket of a place: "L1" of "L1.2"."""
    return place.partition(".")[0]


def _stays(place: str, before: Asked, wishes: Wishes) -> bool:
    """Whether an earlier pin goes with those of now: a photo pinned to a whole pocket goes with any collage there."""
    pocket = pocket_of(place)
    if pocket == place:
        return all(pocket_of(now) != pocket or now == pocket for now in wishes.pins)
    return pocket not in wishes.collages and (pocket not in wishes.pins or pocket in before.collages)


def _on(pockets: Iterable[str], letters: Collection[str]) -> frozenset[str]:
    return frozenset(pocket for pocket in pockets if pocket[0] in letters)
