"""An order in words and as fields, for the cutting guide and order.json. Pure."""

from collections.abc import Mapping
from typing import Any

from queries.cutting.steps import in_words
from queries.cutting.values import Laid
from queries.lengths import UM_PER_INCH
from queries.orders.values import order_name
from queries.prints.order import Sheet, keys_of
from queries.prints.printing import Prepared
from queries.weeks import span_words


def guide_heading(prepared: Prepared) -> str:
    return f"Order {order_name(prepared.number)}"


def guide_names(sheet: Sheet) -> dict[str, str]:
    """What stands on each piece in the guide: its pocket, and below it the days of its week."""
    return {name: f"{piece.pocket}\n{span_words(piece.week)}" for name, piece in sheet.pieces.items()}


def most_trimmed(prepared: Prepared) -> str:
    """The most that the lab takes of any edge, as one reads it off a ruler."""
    return in_words(max(prepared.lab.trim), prepared.lab.unit)


def order_fields(prepared: Prepared) -> dict[str, Any]:
    """The order for order.json: sizes in inches and pixels, files by name."""
    codes = {key: photo.code for key, photo in prepared.photos.items()}
    lab = prepared.lab
    return {
        "weeks": [week.week.name for week in prepared.weeks],
        "size_in": [_inches(lab.width), _inches(lab.height)],
        "dpi": lab.dpi,
        "lab_trim_in": [_inches(edge) for edge in lab.trim],
        "lower_bound": prepared.layout.lower_bound,
        "prints": [print_fields(sheet, lab.pixels, codes) for sheet in prepared.sheets],
    }


def print_fields(sheet: Sheet, pixels: tuple[int, int], codes: Mapping[str, str]) -> dict[str, Any]:
    """One print: its file, size in pixels, how its pieces were scaled, and the pieces on it."""
    return {
        "file": sheet.file,
        "width": pixels[0],
        "height": pixels[1],
        "scale_x": round(sheet.layout.scale_x, 6),
        "scale_y": round(sheet.layout.scale_y, 6),
        "pieces": [_piece_fields(sheet, laid, codes) for laid in sheet.layout.laid],
    }


def _piece_fields(sheet: Sheet, laid: Laid, codes: Mapping[str, str]) -> dict[str, Any]:
    """`code` is that of the photo, null for a card and for a collage, whose photos stand in `codes`."""
    piece, box = sheet.pieces[laid.piece], laid.box
    own = [codes[key] for key in keys_of(piece)]
    return {
        "week": piece.week.name,
        "pocket": piece.pocket,
        "code": own[0] if len(own) == 1 else None,
        "codes": own,
        "x_in": _inches(box.x),
        "y_in": _inches(box.y),
        "width_in": _inches(box.width),
        "height_in": _inches(box.height),
        "turned": laid.turned,
    }


def _inches(length: int) -> float:
    return round(length / UM_PER_INCH, 6)
