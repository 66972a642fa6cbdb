"""The cuts that free the pieces of a print: edge to edge, the fewest, numbered as one makes them. Pure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from queries.cutting.values import Cut, Print, Rect, Way

_Plan = tuple[int, Way, int] | None


def cuts_of(sheet: Rect, boxes: Sequence[Rect]) -> tuple[Cut, ...]:
    """The fewest cuts that free all boxes, which lie apart in the sheet; waste comes off before pieces are parted.

    After a cut its left or upper part is finished first. Raises ValueError where cuts from edge to edge cannot do it.
    """
    search = _Search(tuple(boxes))
    return tuple(Cut(number, way, at, part) for number, (way, at, part) in enumerate(search.in_order(sheet), start=1))


def halves(part: Rect, way: Way, at: int) -> tuple[Rect, Rect]:
    """What a cut leaves: the left and the right part, or the upper and the lower one."""
    if way == "down":
        return Rect(part.x, part.y, at - part.x, part.height), Rect(at, part.y, part.right - at, part.height)
    return Rect(part.x, part.y, part.width, at - part.y), Rect(part.x, at, part.width, part.bottom - at)


def inside(box: Rect, part: Rect) -> bool:
    return part.x <= box.x and part.y <= box.y and box.right <= part.right and box.bottom <= part.bottom


@dataclass(slots=True)
class _Search:
    boxes: tuple[Rect, ...]
    known: dict[Rect, _Plan] = field(default_factory=dict)

    def in_order(self, part: Rect) -> Iterator[tuple[Way, int, Rect]]:
        plan = self.plan(part)
        if plan is None:
            raise ValueError(f"no cuts from edge to edge free the pieces in {part}")
        count, way, at = plan
        if count:
            yield way, at, part
            for half in halves(part, way, at):
                yield from self.in_order(half)

    def plan(self, part: Rect) -> _Plan:
        """How many cuts this part needs and the first of them; None where none do."""
        if part not in self.known:
            held = [box for box in self.boxes if inside(box, part)]
            done = not held or held == [part]
            self.known[part] = (0, "down", part.x) if done else self._best(part, held)
        return self.known[part]

    def _best(self, part: Rect, held: Sequence[Rect]) -> _Plan:
        best: tuple[tuple[int, bool, bool, int], Way] | None = None
        for way, at in _places(part, held):
            one, other = halves(part, way, at)
            first, second = self.plan(one), self.plan(other)
            if first is None or second is None:
                continue
            frees_waste = not all(any(inside(box, half) for box in held) for half in (one, other))
            key = (first[0] + second[0] + 1, not frees_waste, way == "down", at)
            if best is None or key < best[0]:
                best = key, way
        return None if best is None else (best[0][0], best[1], best[0][3])


def _places(part: Rect, held: Sequence[Rect]) -> Iterator[tuple[Way, int]]:
    """Where an edge of a box can be followed from side to side without harming another."""
    for x in sorted({edge for box in held for edge in (box.x, box.right)}):
        if part.x < x < part.right and not any(box.x < x < box.right for box in held):
            yield "down", x
    for y in sorted({edge for box in held for edge in (box.y, box.bottom)}):
        if part.y < y < part.bottom and not any(box.y < y < box.bottom for box in held):
            yield "across", y


def sheet_of(printed: Print) -> Rect:
    """The whole print: what its first cut goes through, or the one piece that fills it."""
    return printed.cuts[0].part if printed.cuts else printed.laid[0].box


def waste_of(printed: Print) -> tuple[Rect, ...]:
    """The parts that hold no piece, once all cuts are made."""
    cut_on, boxes = {cut.part for cut in printed.cuts}, {laid.box for laid in printed.laid}
    parts = (half for cut in printed.cuts for half in halves(cut.part, cut.way, cut.at))
    return tuple(part for part in parts if part not in cut_on and part not in boxes)
