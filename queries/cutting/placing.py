"""A tree of pieces set on the paper: boxes, shrinkage, and what the lab may take. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass

from queries.cutting.cuts import cuts_of
from queries.cutting.spaces import Space, usable
from queries.cutting.trees import Form, Tree, placed
from queries.cutting.values import Laid, Paper, Piece, Print, Rect, Trim


@dataclass(frozen=True, slots=True)
class _Scale:
    """A packed length `whole` brought to `onto`, where it is longer than that."""

    whole: int
    onto: int

    @property
    def factor(self) -> float:
        return min(1.0, self.onto / self.whole)

    def of(self, at: int) -> int:
        return at if self.whole <= self.onto else at * self.onto // self.whole


def print_of(pieces: Sequence[tuple[Piece, int]], tree: Tree, space: Space, paper: Paper) -> Print:
    """The print of a tree packed for `space`; `pieces` with their kinds, put into the places of their kind in order.

    What is laid stands in the order of the pieces.
    """
    free = usable(paper)
    across = _Scale(tree.width, tree.width if space.exempts else free.width)
    down = _Scale(tree.height, tree.height if space.exempts else free.height)
    waiting = list(pieces)
    laid: list[Laid] = []
    for form, x, y in sorted(placed(tree), key=lambda item: (item[2], item[1])):
        number = next(number for number, (_, kind) in enumerate(waiting) if kind == form.kind)
        piece, _ = waiting.pop(number)
        left, top = free.x + across.of(x), free.y + down.of(y)
        right, bottom = free.x + across.of(x + form.width), free.y + down.of(y + form.height)
        box = _true_box(form, Rect(left, top, right - left, bottom - top), paper)
        laid.append(Laid(piece.name, box, piece.width != form.true_width, _at_risk(box, free)))
    order = [piece.name for piece, _ in pieces]
    laid.sort(key=lambda item: order.index(item.piece))
    cuts = cuts_of(Rect(0, 0, paper.width, paper.height), [item.box for item in laid])
    return Print(tuple(laid), cuts, across.factor, down.factor)


def _true_box(form: Form, box: Rect, paper: Paper) -> Rect:
    """An exempt piece at its true size: spread over both edges by what may be trimmed there."""
    x, width = (box.x, box.width) if form.true_width == form.width else _spread(form.true_width, paper.width, _x(paper))
    y, height = (
        (box.y, box.height) if form.true_height == form.height else _spread(form.true_height, paper.height, _y(paper))
    )
    return Rect(x, y, width, height)


def _spread(length: int, whole: int, trims: tuple[int, int]) -> tuple[int, int]:
    return (whole - length) * trims[0] // max(1, sum(trims)), length


def _x(paper: Paper) -> tuple[int, int]:
    return paper.trim.left, paper.trim.right


def _y(paper: Paper) -> tuple[int, int]:
    return paper.trim.top, paper.trim.bottom


def _at_risk(box: Rect, free: Rect) -> Trim:
    return Trim(
        max(0, free.x - box.x),
        max(0, free.y - box.y),
        max(0, box.right - free.right),
        max(0, box.bottom - free.bottom),
    )
