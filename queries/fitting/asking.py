"""Whether what a person fixed can be met at all, told before anything is planned. Pure.

Each thing found wrong is one line that names the pocket or photo and the way out, as PlanError.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from indexer.errors import PlanError
from queries.fitting.slots import pins_at, ways_at
from queries.fitting.values import Asked, Opening, Picture


def check(pictures: Sequence[Picture], openings: Sequence[Opening], asked: Asked) -> None:
    """Raises PlanError for the first thing that contradicts the pockets, the photos or another wish."""
    if not openings:
        raise PlanError("the spread has no pockets; name a sleeve for the left or the right page")
    named = {opening.name: opening for opening in openings}
    _check_names(named, asked)
    _check_pins(pictures, asked)
    _check_one_use(named, asked)
    _check_sizes(named, asked)
    _check_counts(pictures, named, asked)


def room_for(openings: Sequence[Opening], asked: Asked) -> int:
    """The most photos that these pockets hold, collages included, beside the cards asked for."""
    return _photos_that_fit({opening.name: opening for opening in openings}, asked)[1]


def _check_names(named: Mapping[str, Opening], asked: Asked) -> None:
    for name in sorted({*map(_opening_of, asked.pins), *asked.cards, *asked.empty, *asked.collages} - set(named)):
        sides = [[each for each in named if each[0] == letter] for letter in "LR"]
        spans = " and ".join(f"{side[0]} to {side[-1]}" for side in sides if side)
        raise PlanError(f"there is no pocket {name}; this spread has {spans}")


def _check_pins(pictures: Sequence[Picture], asked: Asked) -> None:
    codes = {picture.key: picture.code for picture in pictures}
    for place, key in asked.pins.items():
        if key not in codes:
            raise PlanError(f"the photo pinned to {place} ({key[:12]}) is not among the photos to place; name it too")
        cell = place.partition(".")[2]
        if "." in place and not (cell.isdecimal() and int(cell) >= 1):
            raise PlanError(
                f"{place} is no cell of a collage; cells are numbered from 1, such as {_opening_of(place)}.1"
            )
    for key, times in Counter(asked.pins.values()).items():
        if times > 1:
            places = " and ".join(place for place, pinned in asked.pins.items() if pinned == key)
            raise PlanError(f"photo {codes[key]} is pinned to {places}; it has one place, so leave one pin")


def _check_one_use(named: Mapping[str, Opening], asked: Asked) -> None:
    for name in named:
        pins = [place for place in asked.pins if _opening_of(place) == name]
        uses = {
            "a card": name in asked.cards,
            "nothing": name in asked.empty,
            "a pinned photo": bool(pins),
            "a collage": name in asked.collages and not pins,
        }
        wanted = [use for use, is_asked in uses.items() if is_asked]
        if len(wanted) > 1:
            raise PlanError(f"{name} is to hold {' and '.join(wanted)}; it holds one of them, so leave one")
        _check_pins_of_one(name, pins, asked)


def _check_pins_of_one(name: str, pins: Sequence[str], asked: Asked) -> None:
    count, cells = asked.collages.get(name), [int(place.partition(".")[2]) for place in pins if "." in place]
    if name in pins and cells:
        raise PlanError(
            f"a photo is pinned to {name} and others to cells of it; pin them all to cells, such as {name}.1"
        )
    if cells and count == 1:
        raise PlanError(
            f"{name} is to hold one photo, and photos are pinned to cells of a collage there; leave one of the two"
        )
    if cells and (highest := max(cells)) > (most := 4 if count is None else count):
        raise PlanError(f"there is no cell {name}.{highest}; a collage there has {most} photos at most")


def _check_sizes(named: Mapping[str, Opening], asked: Asked) -> None:
    smallest = min(min(o.box.width, o.box.height) for o in named.values())
    if asked.mat < 0 or 2 * asked.mat >= smallest:
        raise PlanError(
            f"a mat of {asked.mat:g} in leaves nothing of a pocket with a side of {smallest:g} in; choose another"
        )
    for name, count in sorted(asked.collages.items()):
        if not 1 <= count <= 4:
            raise PlanError(f"{name}={count} cannot be; a collage has 2 to 4 photos")
    for name, opening in named.items():
        wants = name in asked.collages or any(_opening_of(place) == name for place in asked.pins)
        if wants and not ways_at(opening, asked, False):
            raise PlanError(_too_small(opening, asked))


def _too_small(opening: Opening, asked: Asked) -> str:
    photos = asked.collages.get(opening.name)
    cells = [cell for cell in pins_at(opening.name, asked.pins).values() if cell is not None]
    wanted = f"a collage of {photos}" if photos else f"a collage with a cell {max(cells, default=0) + 1}"
    size = f"{opening.box.width:g}x{opening.box.height:g} in"
    less = [replace(asked, pins={}, collages={opening.name: n}) for n in (3, 2) if n < (photos or 4)]
    fewer = [each.collages[opening.name] for each in less if ways_at(opening, each, False)]
    way_out = f"{fewer[0]} photos fit" if fewer else "choose a larger pocket"
    return f"{opening.name} ({size}) is too small for {wanted}; {way_out}"


def _check_counts(pictures: Sequence[Picture], named: Mapping[str, Opening], asked: Asked) -> None:
    for count, what in ((asked.card_count, "cards"), (asked.photo_count, "photos")):
        if count is not None and count < 0:
            raise PlanError(f"there cannot be {count} {what}; give 0 or more")
    held = set(asked.collages) | {_opening_of(place) for place in asked.pins}
    least, most = _photos_that_fit(named, asked)
    if least > len(pictures):
        raise PlanError(
            f"the pins and collages asked for need {least} photos, and there are {len(pictures)}; name more"
        )
    _check_cards(len(named), len(named) - len(held | asked.empty), asked)
    if asked.photo_count is None:
        return
    if asked.photo_count < least:
        raise PlanError(f"the pins and collages asked for need {least} photos, not {asked.photo_count}; ask for fewer")
    if min(asked.photo_count, len(pictures)) > most:
        raise PlanError(f"{asked.photo_count} photos do not fit; these pockets hold {most} at most, collages included")


def _check_cards(pockets: int, may_be: int, asked: Asked) -> None:
    if asked.card_count is None:
        return
    if asked.card_count > may_be:
        raise PlanError(f"{asked.card_count} cards do not fit; {may_be} of {pockets} pockets are free for cards")
    if asked.card_count < (told := len(asked.cards)):
        fixed = ", ".join(sorted(asked.cards))
        raise PlanError(
            f"cards are fixed in {fixed}, more than the {asked.card_count} asked for in all; ask for {told}, or free a"
            " pocket"
        )


def _photos_that_fit(named: Mapping[str, Opening], asked: Asked) -> tuple[int, int]:
    """The fewest photos that what was asked needs, and the most that fit beside the cards asked for."""
    least, free = 0, []
    for name, opening in named.items():
        counts = [len(way.cells) for way in ways_at(opening, asked, False)]
        if name in asked.collages or any(_opening_of(place) == name for place in asked.pins):
            least += min(counts, default=0)
        free.append(max(counts, default=0))
    cards = max(0, (asked.card_count or 0) - len(asked.cards))
    return least, sum(sorted(free, reverse=True)[: len(free) - cards])


def _opening_of(place: str) -> str:
    return place.partition(".")[0]
