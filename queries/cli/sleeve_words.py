"""Sleeves as documents and in words."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any

from queries.cli.output import columns, width
from queries.cli.visible import visible
from queries.sleeves.by_rule import PAGE, is_plain
from queries.sleeves.catalogue import Catalogue, Known, quoted
from queries.sleeves.drawing_text import draw_page
from queries.sleeves.sizes import size_words
from queries.sleeves.values import Box, Sleeve

#: The page of a spread on which a face shows, as the first letter of its pockets' names.
_PAGE_OF = {"front": "R", "back": "L"}


def catalogue_document(found: Catalogue) -> dict[str, Any]:
    return {
        "sleeves": [sleeve_fields(item) for item in found.known],
        "unreadable": [{"name": name, "problem": problem} for name, problem in found.broken],
    }


def sleeve_fields(item: Known) -> dict[str, Any]:
    return {
        "name": item.name,
        "made": item.sleeve.made,
        "at_home": item.at_home,
        "width_in": item.sleeve.width,
        "height_in": item.sleeve.height,
        "pockets": len(item.sleeve.pockets),
        "sizes": [
            {"count": count, "width_in": across, "height_in": down} for (across, down), count in _sizes(item.sleeve)
        ],
    }


def face_document(item: Known, face: str) -> dict[str, Any]:
    """One sleeve: `drawing` is that of its front, `pockets` are those of the face."""
    return {
        **sleeve_fields(item),
        "cell": str(item.cell),
        "drawing": item.drawing,
        "face": face,
        "pockets": [
            {"pocket": name, "x_in": box.x, "y_in": box.y, "width_in": box.width, "height_in": box.height}
            for name, box in _named(item, face)
        ],
    }


def told_document(added: Sequence[Known]) -> dict[str, Any]:
    return {"sleeves": [sleeve_fields(item) for item in added]}


def at_home_document(found: Catalogue) -> dict[str, Any]:
    return {"at_home": [sleeve.name for sleeve in found.at_home()]}


def catalogue_lines(found: Catalogue, *, show_all: bool) -> Iterator[str]:
    """Those at home, then the others that were drawn, then those made by rule: the plain ones, or all."""
    others = [item for item in found.known if not item.at_home]
    by_rule = [item for item in others if item.sleeve.made == "by rule"]
    shown = [item for item in by_rule if show_all or is_plain(item.sleeve)]
    yield from _group("At home:", [item for item in found.known if item.at_home])
    yield from _group("Drawn, not at home:", [item for item in others if item.sleeve.made == "drawn"])
    yield from _group("Made by rule:" if show_all else "Made by rule, the plainest:", shown)
    for name, problem in found.broken:
        yield f"Unreadable: {visible(name)}: {visible(problem)}"
    if len(shown) < len(by_rule):
        yield f"{len(by_rule) - len(shown):,} more are made by rule: weeksheaf sleeves --all"
    yield 'See one: weeksheaf sleeves show "NAME". Tick it: weeksheaf sleeves own "NAME"'


def face_lines(item: Known, face: str) -> Iterator[str]:
    """One face, drawn to scale."""
    state = "at home" if item.at_home else "not at home"
    yield f"{visible(item.name)}: {_held(item)}; {item.sleeve.made}, {state}"
    page = "right" if face == "front" else "left"
    yield f"The {face}, which shows on the {page} page:"
    yield ""
    labelled = [(box, (name, *_size_label(box, item))) for name, box in _named(item, face)]
    yield from draw_page(item.sleeve.width, item.sleeve.height, labelled, width())


def added_lines(added: Sequence[Known], before: Catalogue) -> Iterator[str]:
    earlier = {item.name: (item.drawing, item.cell) for item in before.known}
    for item in added:
        was = earlier.get(item.name)
        done = "Added" if was is None else "Unchanged" if was == (item.drawing, item.cell) else "Drawn anew"
        yield f"{done}: {visible(item.name)}: {_held(item)}; at home"


def at_home_lines(found: Catalogue) -> Iterator[str]:
    at_home = [item for item in found.known if item.at_home]
    yield from _group("At home now:", at_home, is_last=True)
    if not at_home:
        yield 'No sleeve is at home now; one that you have: weeksheaf sleeves own "NAME"'


def forgotten_lines(names: Sequence[str]) -> Iterator[str]:
    yield f"Forgotten: {', '.join(quoted(visible(name)) for name in names)}"


def _group(title: str, items: Sequence[Known], *, is_last: bool = False) -> Iterator[str]:
    if items:
        yield title
        yield from columns([("", visible(item.name), _held(item)) for item in items])
        if not is_last:
            yield ""


def _held(item: Known) -> str:
    """ "3 of 6x4in, 6 of 3x4in", and the page where it is no album page."""
    held = ", ".join(f"{count} of {size_words(*size, item.unit)}" for size, count in _sizes(item.sleeve))
    across, down = item.sleeve.width, item.sleeve.height
    return held if (across, down) == (PAGE, PAGE) else f"{held} on {size_words(across, down, item.unit)}"


def _size_label(box: Box, item: Known) -> tuple[str, ...]:
    return (size_words(box.width, box.height, item.unit),)


def _sizes(sleeve: Sleeve) -> list[tuple[tuple[float, float], int]]:
    """The sizes of the pockets and how many there are of each, the largest first."""
    counts = Counter((box.width, box.height) for box in sleeve.pockets)
    return sorted(counts.items(), key=lambda pair: (-pair[0][0] * pair[0][1], -pair[0][0]))


def _named(item: Known, face: str) -> list[tuple[str, Box]]:
    """The pockets of a face by their names: R1.. on the front, L1.. on the back."""
    sleeve = item.sleeve if face == "front" else item.sleeve.back()
    return [(f"{_PAGE_OF[face]}{number}", box) for number, box in enumerate(sleeve.pockets, 1)]
