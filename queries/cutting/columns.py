"""Patterns where they are too many to be listed: only those that could make the order cheaper. Pure.

Column generation (Gilmore and Gomory 1961, 1965: from memory): the programme with parts of prints allowed is solved on
the patterns known so far; its prices say what a piece of each kind costs, and the worthiest pattern at these prices is
added until none is worth more than a print. At every step, the demand's price over the worthiest pattern's is a lower
bound on the number of prints (Farley 1990: from memory).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from queries.cutting.choosing import Chosen, Pattern, fewest, relaxed, whole_bound
from queries.cutting.knapsack import Grid, grids_of, worthiest
from queries.cutting.trees import Counts, Form, Tree, counts_of, join

#: Says how many seconds are left.
Clock = Callable[[], float]


@dataclass(frozen=True, slots=True)
class Found:
    """The patterns found, how often each is printed, and the fewest prints that any patterns need."""

    patterns: tuple[Pattern, ...]
    chosen: Chosen


def found_patterns(forms: Sequence[Form], demand: Counts, size: tuple[int, int], left: Clock) -> Found:
    """Patterns for the demand in a space of that width and height, and the fewest prints of them."""
    known = {pattern.counts: pattern for pattern in _greedy(forms, demand, size)}
    grids = grids_of(forms, *size)
    bound = max(_area_bound(forms, demand, size), _generate(grids, known, demand, left))
    chosen = _fewest(known, demand, bound, left() / 3)
    if chosen.prints > bound:
        _dive(grids, known, demand, left)
        chosen = _fewest(known, demand, bound, left() / 2)
    return Found(tuple(known.values()), chosen)


def _fewest(known: dict[Counts, Pattern], demand: Counts, bound: int, seconds: float) -> Chosen:
    chosen = fewest(tuple(known.values()), demand, seconds, at_least=bound)
    return Chosen(chosen.uses, bound)


def _generate(grids: tuple[Grid, Grid], known: dict[Counts, Pattern], demand: Counts, left: Clock) -> int:
    """Add patterns until no other one makes the relaxed programme cheaper; the lower bound."""
    fitting, bounding = grids
    bound = 1
    while left() > 1:
        now = relaxed(tuple(known.values()), demand)
        prices = [float(price) for price in now.prices]
        worth, tree = worthiest(fitting, prices)
        most = worth if bounding is fitting else worthiest(bounding, prices)[0]
        bound = max(bound, whole_bound(now.value / max(most, 1.0)))
        if worth <= 1 + 1e-9 or not _add(known, tree, len(demand)):
            break
    return bound


def _dive(grids: tuple[Grid, Grid], known: dict[Counts, Pattern], demand: Counts, left: Clock) -> None:
    """Add the patterns that the rest of the order needs, once the most used ones are settled; again until all is."""
    rest = demand
    while any(rest) and left() > 1:
        _generate(grids, known, rest, left)
        patterns = tuple(known.values())
        uses = relaxed(patterns, rest).uses
        most = int(uses.argmax())
        times = max(1, int(uses[most] + 1e-9))
        rest = tuple(max(0, count - times * got) for count, got in zip(rest, patterns[most].counts, strict=True))


def _add(known: dict[Counts, Pattern], tree: Tree | None, kinds: int) -> bool:
    counts = counts_of(tree, kinds) if tree else ()
    if tree is None or counts in known:
        return False
    known[counts] = Pattern(counts, tree)
    return True


def _area_bound(forms: Sequence[Form], demand: Counts, size: tuple[int, int]) -> int:
    least = [min(form.width * form.height for form in forms if form.kind == kind) for kind in range(len(demand))]
    area = sum(room * count for room, count in zip(least, demand, strict=True))
    return max(1, -(-area // (size[0] * size[1])))


def _greedy(forms: Sequence[Form], demand: Counts, size: tuple[int, int]) -> list[Pattern]:
    """Patterns filled row by row, the largest pieces first, until the demand is met; and one of each kind alone."""
    made: list[Tree] = []
    left = list(demand)
    while any(left):
        made.append(_rows(forms, left, *size))
    made += [next(form for form in forms if form.kind == kind) for kind in range(len(demand))]
    return [Pattern(counts_of(tree, len(demand)), tree) for tree in made]


def _rows(forms: Sequence[Form], left: list[int], width: int, height: int) -> Tree:
    """One print: rows below each other, each as high as its first piece; what is used is taken off `left`."""
    whole: Tree | None = None
    while True:
        room = height - (whole.height if whole else 0)
        row: Tree | None = None
        while True:
            most_x, most_y = (width - row.width, row.height) if row else (width, room)
            fitting = [form for form in forms if left[form.kind] and form.width <= most_x and form.height <= most_y]
            if not fitting:
                break
            best = max(fitting, key=lambda form: (form.width * form.height, form.height))
            left[best.kind] -= 1
            row = join(True, row, best) if row else best
        if row is None:
            break
        whole = join(False, whole, row) if whole else row
    assert whole is not None, "every kind fits on a print of its own"
    return whole
