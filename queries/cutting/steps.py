"""A print's cuts in words that someone who has never seen the tool can follow. Pure."""

from collections.abc import Mapping, Sequence
from math import gcd
from typing import Literal

from queries.cutting.cuts import halves, inside
from queries.cutting.values import Cut, Print, Rect
from queries.lengths import UM_PER_INCH, UM_PER_MM

#: The unit that the person told the paper in.
Unit = Literal["in", "mm"]

#: Rulers and trimmers show sixteenths of an inch (common practice).
_PARTS = 16
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
    """A length in µm as one reads it off a ruler: 2 15/16 in, 2.91 in (about 2 15/16), 76.2 mm."""
    if unit == "mm":
        return f"{length / UM_PER_MM:.1f}".removesuffix(".0") + " mm"
    parts = round(length * _PARTS / UM_PER_INCH)
    if abs(length - parts * UM_PER_INCH / _PARTS) <= _HAIR:
        return f"{_mixed(parts)} in"
    decimal = f"{length / UM_PER_INCH:.2f} in"
    return f"{decimal} (about {_mixed(parts)})" if parts else decimal


def _mixed(parts: int) -> str:
    """Sixteenths as a mixed number."""
    whole, rest = divmod(parts, _PARTS)
    common = gcd(rest, _PARTS)
    words = [str(whole)] if whole or not rest else []
    return " ".join([*words, *([f"{rest // common}/{_PARTS // common}"] if rest else [])])


def _step(
    cut: Cut, parent: tuple[int, str] | None, boxes: Mapping[Rect, str], later: Mapping[Rect, int], unit: Unit
) -> str:
    away = in_words(cut.at - (cut.part.x if cut.way == "down" else cut.part.y), unit)
    edge = _EDGES[cut.way]
    if parent is None:
        told = f"Cut {cut.way}, {away} from the {edge} edge of the print."
    else:
        told = f"The {parent[1]} part of cut {parent[0]}: cut {cut.way}, {away} from its {edge} edge."
    one, other = halves(cut.part, cut.way, cut.at)
    first, second = (
        _freed(half, side, cut, boxes, later) for half, side in zip((one, other), _SIDES[cut.way], strict=True)
    )
    return f"{told} {first} {second}"


def _freed(half: Rect, side: str, cut: Cut, boxes: Mapping[Rect, str], later: Mapping[Rect, int]) -> str:
    if half in boxes:
        return f"{side.capitalize()} piece: to {boxes[half]}."
    if half in later:
        number = later[half]
        told = f"go on with cut {number}" if number == cut.number + 1 else f"keep for cut {number}"
        return f"{side.capitalize()} part: {told}."
    assert not any(inside(box, half) for box in boxes), "a part with pieces is a piece or is cut on"
    return f"{side.capitalize()} part: waste."
