"""Cutting marks: short hairlines at both ends of every cut, where there is nothing but waste. Pure."""

from collections.abc import Iterator, Sequence

from queries.cutting.values import Cut, Print, Rect
from queries.lengths import UM_PER_MM, in_pixels
from queries.print_settings import Lab
from queries.prints.values import PixelBox

#: How long a mark is beyond what the lab may take, and how short one may be to be worth drawing (common practice).
_LONGEST, _SHORTEST = 3 * UM_PER_MM, 1 * UM_PER_MM


def marks_of(layout: Print, lab: Lab) -> tuple[PixelBox, ...]:
    """Lines one pixel wide, from pixel to pixel, both included. Each lies on the waste side of its cut and none on a
    piece; where there are pieces on both sides of an end, or hardly any room, that end has none."""
    upright = [_pixels(laid.box, lab.dpi) for laid in layout.laid]
    lying = [_swapped(box) for box in upright]
    down = [mark for cut in layout.cuts if cut.way == "down" for mark in _marks(cut, lab, upright)]
    across = [_swapped(mark) for cut in layout.cuts if cut.way == "across" for mark in _marks(cut, lab, lying)]
    return tuple(dict.fromkeys(down + across))


def _pixels(box: Rect, dpi: int) -> PixelBox:
    left, top, right, bottom = (in_pixels(edge, dpi) for edge in (box.x, box.y, box.right, box.bottom))
    return left, top, right, bottom


def _swapped(box: PixelBox) -> PixelBox:
    return box[1], box[0], box[3], box[2]


def _marks(cut: Cut, lab: Lab, boxes: Sequence[PixelBox]) -> Iterator[PixelBox]:
    """The marks of a cut from top to bottom; for one across, the sides of all boxes, and of the marks, are swapped."""
    is_down = cut.way == "down"
    begin, end = (cut.part.y, cut.part.bottom) if is_down else (cut.part.x, cut.part.right)
    across, along = (lab.width, lab.height) if is_down else (lab.height, lab.width)
    before, after = (lab.trim[1], lab.trim[3]) if is_down else (lab.trim[0], lab.trim[2])
    at = in_pixels(cut.at, lab.dpi)
    columns = [column for column in (at, at - 1) if 0 <= column < in_pixels(across, lab.dpi)]
    first, last = in_pixels(begin, lab.dpi), in_pixels(end, lab.dpi) - 1
    lengths = _LONGEST + (before if begin == 0 else 0), _LONGEST + (after if end == along else 0)
    for start, step, length in ((first, 1, lengths[0]), (last, -1, lengths[1])):
        most = min(in_pixels(length, lab.dpi), last - first + 1)
        free, column = max(((_free(boxes, column, start, step, most), column) for column in columns), default=(0, 0))
        if free >= in_pixels(length - _LONGEST + _SHORTEST, lab.dpi):
            stop = start + step * (free - 1)
            yield column, min(start, stop), column, max(start, stop)


def _free(boxes: Sequence[PixelBox], column: int, start: int, step: int, most: int) -> int:
    """How many pixels, of `most` from `start` on, lie on no piece in this column."""
    beside = [(top, bottom - 1) for left, top, right, bottom in boxes if left <= column < right]
    if any(top <= start <= bottom for top, bottom in beside):
        return 0
    gaps = [step * ((top if step > 0 else bottom) - start) for top, bottom in beside]
    return min([most, *(gap for gap in gaps if gap > 0)])
