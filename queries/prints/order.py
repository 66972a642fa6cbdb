"""Pieces of one or several weeks as the prints of one order. Pure."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from queries.cutting.rounded import lay_out_by_a_hair
from queries.cutting.values import Layout, Paper, Piece, Print, Tight, Trim
from queries.lengths import in_pixels
from queries.orders.values import OrderedPiece, OrderedPrint, order_name
from queries.print_settings import Lab
from queries.prints.marks import marks_of
from queries.prints.pieces import with_shape
from queries.prints.values import PicturePiece, PlacedPiece, PrintJob, PrintPiece


@dataclass(frozen=True, slots=True)
class Sheet:
    """One print of an order: its name ("o12-07"), how its pieces lie and are cut, and the pieces as they are printed:
    shrunk ones in their new shape."""

    name: str
    layout: Print
    pieces: Mapping[str, PrintPiece]

    @property
    def file(self) -> str:
        return f"{self.name}.jpg"


def laid_out(pieces: Sequence[PrintPiece], lab: Lab, tight: Tight) -> Layout:
    """The pieces on the lab's paper, on as few prints as can be. Raises PrintError for one that is larger."""
    paper = Paper(lab.width, lab.height, Trim(*lab.trim))
    return lay_out_by_a_hair([Piece(piece.name, piece.width, piece.height) for piece in pieces], paper, tight=tight)


def sheets_of(layout: Layout, pieces: Sequence[PrintPiece], number: int) -> tuple[Sheet, ...]:
    """The prints with their names, which sort as they are numbered."""
    by_name = {piece.name: piece for piece in pieces}
    digits = max(2, len(str(len(layout.prints))))
    return tuple(
        Sheet(
            f"{order_name(number)}-{place:0{digits}}",
            laid,
            {item.piece: _as_laid(by_name[item.piece], laid, item.piece) for item in laid.laid},
        )
        for place, laid in enumerate(layout.prints, start=1)
    )


def job_of(sheet: Sheet, lab: Lab, sources: Mapping[str, str]) -> PrintJob:
    """All that is needed to draw a print; `sources` are paths by photo key."""
    placed = []
    for laid in sheet.layout.laid:
        box = laid.box
        left, top, right, bottom = (in_pixels(edge, lab.dpi) for edge in (box.x, box.y, box.right, box.bottom))
        placed.append(PlacedPiece((left, top, right, bottom), laid.turned, sheet.pieces[laid.piece]))
    keys = {part.key for piece in sheet.pieces.values() if isinstance(piece, PicturePiece) for part in piece.parts}
    width, height = lab.pixels
    marks = marks_of(sheet.layout, lab)
    return PrintJob(
        sheet.name, width, height, lab.dpi, tuple(placed), marks, {key: sources[key] for key in sorted(keys)}
    )


def ordered_of(sheets: Sequence[Sheet], marks: Mapping[str, str]) -> tuple[OrderedPrint, ...]:
    """The prints as they are told to the index; `marks` are those of the pieces by name, before any was shrunk."""
    return tuple(
        OrderedPrint(
            sheet.name,
            tuple(
                OrderedPiece(
                    week=sheet.pieces[laid.piece].week.first_day,
                    pocket=sheet.pieces[laid.piece].pocket,
                    mark=marks[laid.piece],
                    keys=keys_of(sheet.pieces[laid.piece]),
                    x=laid.box.x,
                    y=laid.box.y,
                    width=laid.box.width,
                    height=laid.box.height,
                    turned=laid.turned,
                )
                for laid in sheet.layout.laid
            ),
        )
        for sheet in sheets
    )


def keys_of(piece: PrintPiece) -> tuple[str, ...]:
    """The keys of the photos on a piece."""
    return tuple(part.key for part in piece.parts) if isinstance(piece, PicturePiece) else ()


def _as_laid(piece: PrintPiece, laid: Print, name: str) -> PrintPiece:
    """The piece in the size that it has on the print."""
    if laid.scale_x == laid.scale_y == 1.0 or not isinstance(piece, PicturePiece):
        return piece
    item = next(item for item in laid.laid if item.piece == name)
    width, height = item.box.width, item.box.height
    return with_shape(piece, *((height, width) if item.turned else (width, height)))
