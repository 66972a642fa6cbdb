"""The ways each opening may be filled, as far as the person left it open. Pure."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from queries.fitting import weights
from queries.fitting.collages import collages_for, panorama_collages
from queries.fitting.values import Asked, Collage, Opening, Picture
from queries.sleeves.values import Box


@dataclass(frozen=True, slots=True)
class Way:
    """One way to fill an opening with photos; `cells` lie on the page. Without a collage it is one photo."""

    collage: Collage | None
    cells: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class Slot:
    """An opening with all that it may hold. `pins`: photo key -> number of its cell from 0, None: any cell does."""

    opening: Opening
    ways: tuple[Way, ...]
    may_be_card: bool
    may_be_empty: bool
    pins: Mapping[str, int | None]


def slots_of(pictures: Sequence[Picture], openings: Sequence[Opening], asked: Asked) -> tuple[Slot, ...]:
    """The openings in their order. What was asked must have been checked (`asking.check`)."""
    long = any(max(p.aspect, 1 / p.aspect) > weights.PANORAMA for p in pictures)
    return tuple(_slot(opening, asked, long) for opening in openings)


def pins_at(name: str, pins: Mapping[str, str]) -> dict[str, int | None]:
    """What is pinned to an opening or to the cells of its collage."""
    found: dict[str, int | None] = {}
    for place, key in pins.items():
        opening, _, cell = place.partition(".")
        if opening == name:
            found[key] = int(cell) - 1 if cell else None
    return found


def ways_at(opening: Opening, asked: Asked, long: bool) -> tuple[Way, ...]:
    """`long`: whether there are panoramas, for which there are collages of one."""
    if opening.name in asked.cards | asked.empty:
        return ()
    count, pins = asked.collages.get(opening.name), pins_at(opening.name, asked.pins)
    cells = [cell for cell in pins.values() if cell is not None]
    ways = []
    if not cells and count in (None, 1):
        ways.append(Way(None, (matted(opening.box, asked.mat),)))
    if count != 1 and (count or cells or not pins):
        box, wanted = opening.box, bool(count or cells)
        made = collages_for(round(box.width, 6), round(box.height, 6), asked.style, asked=wanted)
        across = (
            panorama_collages(round(box.width, 6), round(box.height, 6), asked.style) if long and not wanted else ()
        )
        fit = (
            each
            for each in (*across, *made)
            if count in (None, len(each.cells)) and len(each.cells) > max(cells, default=-1)
        )
        ways += [Way(each, tuple(_on_page(cell, box) for cell in each.cells)) for each in fit]
    return tuple(ways)


def matted(box: Box, mat: float) -> Box:
    return Box(box.x + mat, box.y + mat, box.width - 2 * mat, box.height - 2 * mat)


def _slot(opening: Opening, asked: Asked, long: bool) -> Slot:
    name, pins = opening.name, pins_at(opening.name, asked.pins)
    is_photos = bool(pins) or name in asked.collages
    return Slot(
        opening,
        ways_at(opening, asked, long),
        may_be_card=name not in asked.empty and not is_photos,
        may_be_empty=name in asked.empty
        or (asked.card_count is not None and name not in asked.cards and not is_photos),
        pins=pins,
    )


def _on_page(cell: Box, pocket: Box) -> Box:
    return Box(pocket.x + cell.x, pocket.y + cell.y, cell.width, cell.height)
