"""What an order holds as the JSON text that is kept of it, and back. Pure.

Reading passes over fields that it does not know; a form that it does not know is none that it can read.
"""

import json
from collections.abc import Mapping
from datetime import date
from typing import Any, NamedTuple

from queries.orders.values import Order, OrderedPiece, OrderedPrint, Reprint

#: Raised when the text says other things by the same names.
FORM = 1
#: What a text of another form raises while it is read.
_BROKEN = (KeyError, TypeError, ValueError, AttributeError, RecursionError)


class Content(NamedTuple):
    """What an order holds: the folder with its files, its prints, and the fewest prints that its pieces need."""

    folder: str
    prints: tuple[OrderedPrint, ...]
    lower_bound: int


def order_text(order: Order) -> str:
    """What an order holds as JSON, in one line of ASCII; what becomes of it is told by words of their own."""
    prints = [{"name": item.name, "pieces": [_piece_fields(piece) for piece in item.pieces]} for item in order.prints]
    return _line({"folder": order.folder, "lower_bound": order.lower_bound, "prints": prints})


def content_in(text: str) -> Content | None:
    """What an order holds by its text, or None where it cannot be read."""
    try:
        said = _said(text)
        prints = tuple(
            OrderedPrint(str(item["name"]), tuple(_piece(piece) for piece in item["pieces"])) for item in said["prints"]
        )
        return Content(str(said["folder"]), prints, _whole(said["lower_bound"]))
    except _BROKEN:
        return None


def reprint_text(reprint: Reprint) -> str:
    """Which pieces of a print are to be printed again, as JSON; the moment is told beside it."""
    pockets = [{"week": week.isoformat(), "pocket": pocket} for week, pocket in reprint.pieces]
    return _line({"print": reprint.print, "pockets": pockets})


def reprint_in(text: str, told_at: str) -> Reprint | None:
    """Which pieces are to be printed again by that text, or None where it cannot be read."""
    try:
        said = _said(text)
        pieces = tuple((date.fromisoformat(item["week"]), str(item["pocket"])) for item in said["pockets"])
        return Reprint(str(said["print"]), pieces, told_at)
    except _BROKEN:
        return None


def _line(fields: Mapping[str, Any]) -> str:
    return json.dumps({"form": FORM, **fields}, separators=(",", ":"))


def _said(text: str) -> Mapping[str, Any]:
    said: Mapping[str, Any] = json.loads(text)
    if said["form"] != FORM:
        raise ValueError("another form")
    return said


def _piece_fields(piece: OrderedPiece) -> dict[str, Any]:
    return {
        "week": piece.week.isoformat(),
        "pocket": piece.pocket,
        "mark": piece.mark,
        "keys": list(piece.keys),
        "x": piece.x,
        "y": piece.y,
        "width": piece.width,
        "height": piece.height,
        "turned": piece.turned,
    }


def _piece(said: Mapping[str, Any]) -> OrderedPiece:
    x, y, width, height = (_whole(said[name]) for name in ("x", "y", "width", "height"))
    week, keys = date.fromisoformat(said["week"]), tuple(map(str, said.get("keys", ())))
    turned = said.get("turned") is True
    return OrderedPiece(week, str(said["pocket"]), str(said["mark"]), keys, x, y, width, height, turned)


def _whole(value: Any) -> int:
    if not isinstance(value, int) or isinstance(value, bool):
        raise TypeError("no whole number")
    return value
