"""Paper that is named in round millimetres, and pieces in inches that miss it by a hair: laid out as meant.

Pure but for the clock that ends the search.
"""

from collections.abc import Sequence
from dataclasses import replace

from indexer.errors import PrintError
from queries.cutting.laying import lay_out
from queries.cutting.values import Cut, Laid, Layout, Paper, Piece, Print, Rect, Tight
from queries.lengths import inches_meant


def lay_out_by_a_hair(pieces: Sequence[Piece], paper: Paper, *, tight: Tight = "shrink") -> Layout:
    """As `lay_out`. Where the paper is one of inches in round millimetres (152x102 mm), and pieces do not fit or take
    more prints for that, they are laid on the paper in inches and all is scaled to this one: by 0.3 %, for 10x15 cm by
    1.6 %. With `tight` apart each keeps its size."""
    meant = inches_meant(paper.width, paper.height)
    if meant is None or tight == "apart":
        return lay_out(pieces, paper, tight=tight)
    as_meant = replace(paper, width=meant[0], height=meant[1])
    try:
        exact = lay_out(pieces, paper, tight=tight)
    except PrintError as error:
        try:
            return _scaled(lay_out(pieces, as_meant, tight=tight), as_meant, paper)
        except PrintError:
            raise error from None
    scaled = lay_out(pieces, as_meant, tight=tight)
    return exact if len(exact.prints) <= len(scaled.prints) else _scaled(scaled, as_meant, paper)


def _scaled(layout: Layout, old: Paper, new: Paper) -> Layout:
    return replace(layout, prints=tuple(_scaled_print(printed, old, new) for printed in layout.prints))


def _scaled_print(printed: Print, old: Paper, new: Paper) -> Print:
    laid = tuple(_scaled_laid(item, old, new) for item in printed.laid)
    cuts = tuple(_scaled_cut(cut, old, new) for cut in printed.cuts)
    across, down = new.width / old.width, new.height / old.height
    return Print(laid, cuts, printed.scale_x * across, printed.scale_y * down)


def _scaled_laid(laid: Laid, old: Paper, new: Paper) -> Laid:
    return replace(laid, box=_scaled_box(laid.box, old, new))


def _scaled_cut(cut: Cut, old: Paper, new: Paper) -> Cut:
    sides = (old.width, new.width) if cut.way == "down" else (old.height, new.height)
    return replace(cut, at=_edge(cut.at, *sides), part=_scaled_box(cut.part, old, new))


def _scaled_box(box: Rect, old: Paper, new: Paper) -> Rect:
    """Edges are scaled, not sides, so that boxes that touched still do."""
    left, right = (_edge(at, old.width, new.width) for at in (box.x, box.right))
    top, bottom = (_edge(at, old.height, new.height) for at in (box.y, box.bottom))
    return Rect(left, top, right - left, bottom - top)


def _edge(at: int, old: int, new: int) -> int:
    return (2 * at * new + old) // (2 * old)
