"""A plan as the text that is kept of it, and back. Pure.

The text is JSON with the names of the values' fields. Reading takes what it knows: a field that is missing has its
default, one that is unknown is passed over, so that plans kept by an older or a newer form still stand.
"""

import dataclasses
import json
from collections.abc import Mapping
from typing import Any, Literal, TypeVar, get_args, get_origin

from queries.cropping.values import Window
from queries.fitting.values import Asked, Collage, Filled, Opening, Placed, Plan, Style
from queries.sleeves.values import Box
from queries.spread.values import SIDES, KeptPlan, Page

_T = TypeVar("_T")
#: Raised when the text says other things by the same names.
FORM = 1
#: What a text that is no plan raises while it is read.
_BROKEN = (KeyError, TypeError, ValueError, AttributeError, RecursionError, OverflowError)
#: No length, share or resolution of a plan is more.
_LARGEST = 1e6


def plan_text(kept: KeptPlan) -> str:
    """The plan as JSON, in one line of ASCII."""
    return json.dumps({"form": FORM, **_plain(kept)}, separators=(",", ":"))


def plan_in(text: str) -> KeptPlan | None:
    """The plan that was kept as `text`, or None where it cannot be read."""
    try:
        said = json.loads(text)
        return _kept(said) if said["form"] == FORM else None
    except _BROKEN:
        return None


def _plain(value: Any) -> Any:
    """Values as JSON has them; sets in order, so that one plan has one text."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, Mapping):
        return {str(name): _plain(item) for name, item in value.items()}
    if isinstance(value, frozenset):
        return sorted(value)
    return [_plain(item) for item in value] if isinstance(value, tuple) else value


def _kept(said: Mapping[str, Any]) -> KeptPlan:
    left, right = (_made(Page, page) for page in said["pages"])
    if (left.side, right.side) != SIDES:
        raise ValueError("the pages are not left and right")
    return KeptPlan(
        (left, right),
        _plan(said["plan"]),
        _asked(said.get("asked", {})),
        tuple(map(str, said.get("named", ()))),
        {str(key): crop if isinstance(crop, str) else _number(crop) for key, crop in said.get("crops", {}).items()},
        {str(key): _number(zoom) for key, zoom in said.get("zooms", {}).items()},
        {str(key): _made(Window, window) for key, window in said.get("windows", {}).items()},
    )


def _plan(said: Mapping[str, Any]) -> Plan:
    filled = tuple(map(_filled, said["filled"]))
    if len({item.opening.name for item in filled}) < len(filled):
        raise ValueError("a pocket stands there twice")
    gap = min(float(said.get("gap", 0.0)), _LARGEST)  # nothing was proven where it has no end
    return _made(Plan, {**said, "gap": gap}, filled=filled, words=tuple(map(str, said.get("words", ()))))


def _filled(said: Mapping[str, Any]) -> Filled:
    opening = said["opening"]
    return _made(
        Filled,
        said,
        opening=_made(Opening, opening, box=_made(Box, opening["box"])),
        photos=tuple(_made(Placed, placed, cell=_made(Box, placed["cell"])) for placed in said["photos"]),
        collage=_collage(said["collage"]) if said.get("collage") else None,
    )


def _collage(said: Mapping[str, Any]) -> Collage:
    strip = _made(Box, said["strip"]) if said.get("strip") else None
    return _made(Collage, said, cells=tuple(_made(Box, cell) for cell in said["cells"]), strip=strip)


def _asked(said: Mapping[str, Any]) -> Asked:
    return _made(
        Asked,
        said,
        cards=frozenset(map(str, said.get("cards", ()))),
        empty=frozenset(map(str, said.get("empty", ()))),
        style=_made(Style, said.get("style", {})),
    )


def _made(kind: type[_T], said: Mapping[str, Any], **made: Any) -> _T:
    """A value of that kind from the fields that it has; `made` are those that are more than numbers and texts."""
    types = {field.name: field.type for field in dataclasses.fields(kind)}  # type: ignore[arg-type]
    plain = {name: _scalar(value, types[name]) for name, value in said.items() if name in types and name not in made}
    return kind(**plain | made)


def _scalar(value: Any, kind: object) -> Any:
    """A value by its field's type, so that nothing else can stand where one is reckoned with. Raises ValueError."""
    if kind is float:
        return _number(value)
    if get_origin(kind) is Literal and value not in get_args(kind):
        raise ValueError(f"{value!r} is none of {get_args(kind)}")
    return str(value) if kind is str else value


def _number(value: Any) -> float:
    """A length, a share or a resolution: nothing on two pages is larger than a million. Raises ValueError."""
    if isinstance(value, bool) or not abs(float(value)) <= _LARGEST:
        raise ValueError(f"{value!r} is no number of a plan")
    return float(value)
