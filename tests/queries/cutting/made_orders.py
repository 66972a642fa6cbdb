"""Invented orders, and a plain search for the fewest prints that shares nothing with the one under test."""

from collections.abc import Iterator, Sequence
from functools import cache
from random import Random

from queries.cutting.cuts import halves
from queries.cutting.values import Laid, Paper, Piece, Print, Rect, Trim
from queries.lengths import UM_PER_INCH, UM_PER_MM

INCH = UM_PER_INCH
SIX_BY_FOUR = Paper(6 * INCH, 4 * INCH)
HAIR = INCH // 16
TRIMMED = Paper(6 * INCH, 4 * INCH, Trim(HAIR, HAIR, 2 * HAIR, HAIR))


def pieces_of(*sizes: tuple[float, float]) -> list[Piece]:
    """Pieces of so many inches, named p0, p1 and so on."""
    return [Piece(f"p{at}", round(width * INCH), round(height * INCH)) for at, (width, height) in enumerate(sizes)]


def random_order(
    seed: int, paper: Paper = SIX_BY_FOUR, *, most: int = 60, kinds: int = 8, least: int = 2 * INCH
) -> list[Piece]:
    """Up to `most` pieces of up to `kinds` sizes, in quarter inches or in millimetres, that fit the paper."""
    draw = Random(seed)
    step = draw.choice((INCH // 4, UM_PER_MM))
    first = -(-least // step)
    sizes = []
    while len(sizes) < kinds:
        sides = (draw.randint(first, paper.width // step) * step, draw.randint(first, paper.height // step) * step)
        sizes.append(sides if draw.random() < 0.7 or sides[0] > paper.height else sides[::-1])
    return [Piece(f"p{at}", *draw.choice(sizes)) for at in range(draw.randint(1, most))]


def parts_cut(printed: Print, sheet: Rect) -> list[Rect]:
    """What lies on the table when all cuts were made in order; a cut through paper that is not there is a KeyError."""
    parts = {sheet}
    for number, cut in enumerate(printed.cuts, start=1):
        assert cut.number == number
        parts.remove(cut.part)
        made = halves(cut.part, cut.way, cut.at)
        assert all(half.width > 0 and half.height > 0 for half in made)
        parts.update(made)
    return sorted(parts, key=lambda part: (part.y, part.x))


def apart(one: Laid, other: Laid) -> bool:
    a, b = one.box, other.box
    return a.right <= b.x or b.right <= a.x or a.bottom <= b.y or b.bottom <= a.y


def fewest_plainly(sides: Sequence[tuple[int, int]], paper: Paper, *, apart: bool) -> int:
    """The fewest prints, by trying every grouping and every cut at a whole unit: for a few pieces of small whole sides.

    `apart`: pieces keep off the trimmed edges; one that is too long for that may lie in a part that is as long as the
    paper. Else the whole paper is used.
    """
    trim = paper.trim if apart else Trim()
    free = (trim.left, trim.top, paper.width - trim.right, paper.height - trim.bottom)

    def lies(side: int, low: int, high: int, axis: int) -> bool:
        least, most, whole = free[axis], free[axis + 2], (paper.width, paper.height)[axis]
        return side <= min(high, most) - max(low, least) or (side > most - least and high - low == whole >= side)

    @cache
    def fits(part: tuple[int, int, int, int], group: tuple[int, ...]) -> bool:
        x0, y0, x1, y1 = part
        if not group:
            return True
        if len(group) == 1:
            width, height = sides[group[0]]
            return any(lies(w, x0, x1, 0) and lies(h, y0, y1, 1) for w, h in ((width, height), (height, width)))
        if sum(sides[item][0] * sides[item][1] for item in group) > (x1 - x0) * (y1 - y0):
            return False
        cuts = [((x0, y0, x, y1), (x, y0, x1, y1)) for x in range(x0 + 1, x1)]
        cuts += [((x0, y0, x1, y), (x0, y, x1, y1)) for y in range(y0 + 1, y1)]
        return any(
            fits(one, tuple(taken)) and fits(other, tuple(item for item in group if item not in taken))
            for one, other in cuts
            for taken in _subsets(group)
        )

    groupings = _groupings(list(range(len(sides))))
    whole = (0, 0, paper.width, paper.height)
    return min(len(groups) for groups in groupings if all(fits(whole, tuple(group)) for group in groups))


def _subsets(group: tuple[int, ...]) -> Iterator[list[int]]:
    for bits in range(2 ** len(group)):
        yield [item for at, item in enumerate(group) if bits >> at & 1]


def _groupings(items: list[int]) -> Iterator[list[list[int]]]:
    if not items:
        yield []
        return
    for groups in _groupings(items[1:]):
        yield [[items[0]], *groups]
        for at in range(len(groups)):
            yield [*groups[:at], [items[0], *groups[at]], *groups[at + 1 :]]
