"""A print's cuts in words that someone who has never seen the tool can follow. Pure."""

from collections.abc import Mapping, Sequence
from math import gcd
from typing import Literal

from queries.cutting.cuts import halves, inside
from queries.cutting.values import Cut, Print, Rect
from queries.lengths import UM_PER_INCH, UM_PER_MM

#: The unit that the person told the paper in.
Unit = Literal["in", "mm"]

#: Rulers and trimmers show sixteenths of an inch, many rulers half of that, which short lengths need (common practice).
_PARTS, _FINE_PARTS, _SHORT = 16, 32, UM_PER_INCH // 8
#: Places rounded to whole µm differ from a sixteenth by no more, in µm.
_HAIR = 2

_SIDES = {"down": ("left", "right"), "across": ("upper", "lower")}
_EDGES = {"down": "left", "across": "top"}


def steps_of(printed: Print, names: Mapping[str, str], unit: Unit) -> tuple[str, ...]:
    """One step a cut, in order, without its number: where to cut, and what comes free on both sides.

    `names` has for each piece what is written on it, the pocket on the first line. A print of one piece that fills it
    has a single step that says so.
    """
    told = told_names([names[laid.piece] for laid in printed.laid])
    if not printed.cuts:
        return tuple(f"No cut: the whole print goes to {name}." for name in told)
    boxes = dict(zip((laid.box for laid in printed.laid), told, strict=True))
    later = {cut.part: cut.number for cut in printed.cuts}
    parents = {
        half: (cut.number, side)
        for cut in printed.cuts
        for half, side in zip(halves(cut.part, cut.way, cut.at), _SIDES[cut.way], strict=True)
    }
    return tuple(_step(cut, parents.get(cut.part), boxes, later, unit) for cut in printed.cuts)


def told_names(names: Sequence[str]) -> tuple[str, ...]:
    """The pockets alone where the rest is the same for all, as on a print of one week."""
    if len({name.partition("\n")[2] for name in names}) <= 1:
        return tuple(name.partition("\n")[0] for name in names)
    return tuple(in_one_line(name) for name in names)


def in_one_line(name: str) -> str:
    pocket, *rest = name.splitlines()
    return f"{pocket} ({', '.join(rest)})" if rest else pocket


def in_words(length: int, unit: Unit) -> str:
    """A length in µm as one reads it off a ruler: 2 15/16 in, 2.91 in (about 2 15/16), 1/32 in, 76.2 mm."""
    if unit == "mm":
        return f"{length / UM_PER_MM:.1f}".removesuffix(".0") + " mm"
    whole = _FINE_PARTS if length < _SHORT else _PARTS
    parts = round(length * whole / UM_PER_INCH)
    if abs(length - parts * UM_PER_INCH / whole) <= _HAIR:
        return f"{_mixed(parts, whole)} in"
    decimal = f"{length / UM_PER_INCH:.2f} in"
    return f"{decimal} (about {_mixed(parts, whole)})" if parts else decimal


def _mixed(parts: int, whole: int) -> str:
    """So many parts of an inch as a mixed number."""
    inches, rest = divmod(parts, whole)
    common = gcd(rest, whole)
    words = [str(inches)] if inches or not rest else []
    return " ".join([*words, *([f"{rest // common}/{whole // common}"] if rest else [])])


def _step(
    cut: Cut, parent: tuple[int, str] | None, boxes: Mapping[Rect, str], later: Mapping[Rect, int], unit: Unit
) -> str:
    one, other = halves(cut.part, cut.way, cut.at)
    away = in_words(cut.at - (cut.part.x if cut.way == "down" else cut.part.y), unit)
    edge, (side, other_side) = _EDGES[cut.way], _SIDES[cut.way]
    part = f"The {parent[1]} part of cut {parent[0]}" if parent else ""
    rest = _freed(other, other_side, cut, boxes, later)
    if one not in boxes and one not in later:  # pieces start at the upper left, so this is the strip that the lab trims
        whose = f"{part}: trim its {edge} edge" if parent else f"Trim the {edge} edge of the print"
        return f"{whose} at the marks: {away}, or what the lab left of it. {rest}"
    told = f"{part}: cut {cut.way}, {away} from its" if parent else f"Cut {cut.way}, {away} from the"
    of_print = "" if parent else " of the print"
    return f"{told} {edge} edge{of_print}. {_freed(one, side, cut, boxes, later)} {rest}"


def _freed(half: Rect, side: str, cut: Cut, boxes: Mapping[Rect, str], later: Mapping[Rect, int]) -> str:
    if half in boxes:
        return f"{side.capitalize()} piece: to {boxes[half]}."
    if half in later:
        number = later[half]
        told = f"go on with cut {number}" if number == cut.number + 1 else f"keep for cut {number}"
        return f"{side.capitalize()} part: {told}."
    assert not any(inside(box, half) for box in boxes), "a part with pieces is a piece or is cut on"
    return f"{side.capitalize()} part: waste."
