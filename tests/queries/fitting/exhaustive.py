"""Every filling of a small spread, one after the other: what the programme is held against."""

from collections.abc import Iterator, Sequence
from itertools import permutations

from queries.fitting.assigning import placed_in
from queries.fitting.collages import collages_for, panorama_collages
from queries.fitting.values import Asked, Filled, Opening, Picture
from queries.fitting.worth import Case, value_of
from queries.sleeves.values import Box


def best_value(case: Case) -> float | None:
    """The value of the best filling that meets what was asked, None where there is none."""
    values = [value_of(case, filled) for filled in fillings(case) if meets(case.asked, filled)]
    return max(values, default=None)


def fillings(case: Case) -> Iterator[tuple[Filled, ...]]:
    """All ways to fill the openings, each photo once at most; asked or not."""
    yield from _rest(case, list(case.openings), list(case.pictures))


def meets(asked: Asked, filled: Sequence[Filled]) -> bool:
    by_name = {each.opening.name: each for each in filled}
    where = {}
    for each in filled:
        for number, placed in enumerate(each.photos, 1):
            where[placed.key] = (each.opening.name, number)
    for place, key in asked.pins.items():
        name, _, cell = place.partition(".")
        if where.get(key, ("",))[0] != name or (cell and where[key][1] != int(cell)):
            return False
        if name not in asked.collages and bool(cell) != (by_name[name].collage is not None):
            return False
    counts = all(len(by_name[name].photos) == count for name, count in asked.collages.items())
    singles = all(by_name[name].collage is None for name, count in asked.collages.items() if count == 1)
    cards = {name for name, each in by_name.items() if each.holds == "card"}
    empty = {name for name, each in by_name.items() if each.holds == "empty"}
    return (
        counts
        and singles
        and asked.cards <= cards
        and asked.empty <= empty
        and (asked.card_count is None or len(cards) == asked.card_count)
        and (asked.photo_count is None or len(where) == asked.photo_count)
    )


def _rest(case: Case, openings: Sequence[Opening], free: Sequence[Picture]) -> Iterator[tuple[Filled, ...]]:
    if not openings:
        yield ()
        return
    for filled in _one(case.asked, openings[0], free, any(max(p.aspect, 1 / p.aspect) > 2 for p in case.pictures)):
        used = {placed.key for placed in filled.photos}
        for others in _rest(case, openings[1:], [picture for picture in free if picture.key not in used]):
            yield (filled, *others)


def _one(asked: Asked, opening: Opening, free: Sequence[Picture], long: bool) -> Iterator[Filled]:
    yield Filled(opening, "card", (), None, "")
    yield Filled(opening, "empty", (), None, "")
    box, mat = opening.box, asked.mat
    inside = Box(box.x + mat, box.y + mat, box.width - 2 * mat, box.height - 2 * mat)
    for picture in free:
        yield Filled(opening, "photo", (placed_in(picture, inside),), None, "")
    wanted = opening.name in asked.collages or any(place.startswith(f"{opening.name}.") for place in asked.pins)
    made = collages_for(box.width, box.height, asked.style, asked=wanted)
    if not wanted and long:
        made += panorama_collages(box.width, box.height, asked.style)
    for collage in made:
        cells = [Box(box.x + cell.x, box.y + cell.y, cell.width, cell.height) for cell in collage.cells]
        for chosen in permutations(free, len(cells)):
            placed = tuple(placed_in(picture, cell) for picture, cell in zip(chosen, cells, strict=True))
            yield Filled(opening, "collage", placed, collage, "")
