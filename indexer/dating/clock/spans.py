"""Spans of a camera's own time, [since, until) with None where it is open, around photos that belong together. Pure."""

from collections.abc import Iterable, Sequence
from itertools import groupby

from indexer.dating.clock.seconds import DAY, start_of_day

Span = tuple[int | None, int | None]


def lies_in(own: int, span: Span) -> bool:
    """Whether a time lies in the half-open span."""
    since, until = span
    return (since is None or since <= own) and (until is None or own < until)


def spans_of(
    chosen: set[int], own: Sequence[int], marks: Sequence[int] = (), ends: Sequence[int] = (), *, tight: bool = False
) -> list[Span]:
    """The fewest spans that hold the chosen photos (indices into `own`) and no other.

    A border is the own time of the first photo behind it, or the first of `marks` between the photos on both sides.
    The outer ends are open, unless one of `ends` lies there. Photos of one second of which only some are chosen are
    left out. `tight`: no end is open, but is the first photo and the end of the last one's day.
    """
    mixed = {own[i] for i in chosen} & {own[i] for i in range(len(own)) if i not in chosen}
    order = sorted(range(len(own)), key=own.__getitem__)
    cells = [(inside, list(part)) for inside, part in groupby(order, lambda i: i in chosen and own[i] not in mixed)]
    spans: list[Span] = []
    for at, (inside, cell) in enumerate(cells):
        if not inside:
            continue
        first, last = own[cell[0]], own[cell[-1]]
        since = (
            _border(cells[at - 1][1], cell, own, marks) if at else max((e for e in ends if e <= first), default=None)
        )
        until = min((end for end in ends if end > last), default=None)
        if at + 1 < len(cells):
            until = _border(cell, cells[at + 1][1], own, marks)
        if tight:
            end = start_of_day(last) + DAY
            since, until = first, end if until is None else min(until, end)
        spans.append((since, until))
    return spans


def without(span: Span, taken: Iterable[Span]) -> list[Span]:
    """What is left of a span outside the spans that are taken."""
    left = [span]
    for hole in taken:
        left = [piece for part in left for piece in _around(part, hole)]
    return left


def _border(before: Sequence[int], behind: Sequence[int], own: Sequence[int], marks: Sequence[int]) -> int:
    last, first = own[before[-1]], own[behind[0]]
    return next((mark for mark in marks if last < mark <= first), first)


def _around(span: Span, hole: Span) -> list[Span]:
    since, until = span
    start, end = hole
    if (start is not None and until is not None and until <= start) or (
        end is not None and since is not None and end <= since
    ):
        return [span]
    pieces: list[Span] = []
    if start is not None and (since is None or since < start):
        pieces.append((since, start))
    if end is not None and (until is None or end < until):
        pieces.append((end, until))
    return pieces
