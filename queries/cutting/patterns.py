"""Every set of pieces that fits on one print, listed. Pure.

A set is built up from smaller ones: it fits if two parts of it, each as small as can be, fit side by side or one below
the other. For each set all sizes are kept that no other one is inside of, so nothing is missed.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import product

from queries.cutting.trees import Counts, Form, Tree, area_of, join, smallest

#: How many pairs of trees are tried before listing is given up: a second or two.
MOST_TRIES = 400_000

#: Each set of pieces that fits, with its smallest trees.
Fitting = Mapping[Counts, tuple[Tree, ...]]


def fitting_sets(
    forms: Sequence[Form], demand: Counts, width: int, height: int, most: int = MOST_TRIES
) -> Fitting | None:
    """Every set of no more pieces than `demand` that fits; None where listing them takes more than `most` tries."""
    found: dict[Counts, tuple[Tree, ...]] = {}
    kinds = [(0, 0)] * len(demand)
    for number, count in enumerate(demand):
        own = [form for form in forms if form.kind == number and form.width <= width and form.height <= height]
        if own and count:
            found[one(number, len(demand))] = smallest(own)
            kinds[number] = (min(form.width for form in own), min(form.height for form in own))
    level, tried = list(found), 0
    while level:
        grown: list[Counts] = []
        for counts in _larger(level, demand, found):
            if area_of(kinds, counts) > width * height:
                continue
            trees, tries = _trees(counts, found, width, height)
            tried += tries + 1
            if tried > most:
                return None
            if trees:
                found[counts] = trees
                grown.append(counts)
        level = grown
    return found


def largest_sets(found: Fitting, demand: Counts) -> tuple[Counts, ...]:
    """The sets to which no further piece of the demand can be added."""
    return tuple(
        counts
        for counts in found
        if not any(counts[kind] < demand[kind] and _changed(counts, kind, 1) in found for kind in range(len(demand)))
    )


def one(kind: int, kinds: int) -> Counts:
    return tuple(int(number == kind) for number in range(kinds))


def parts_of(counts: Counts) -> Iterator[tuple[Counts, Counts]]:
    """Every way to part a set into two that are not empty; each pair in both orders."""
    for first in product(*(range(count + 1) for count in counts)):
        if any(first) and first != counts:
            yield first, tuple(whole - part for whole, part in zip(counts, first, strict=True))


def _larger(level: Sequence[Counts], demand: Counts, found: Fitting) -> Iterator[Counts]:
    """The sets of one piece more of which every part of one piece less fits."""
    seen: set[Counts] = set()
    for counts in level:
        for kind, most in enumerate(demand):
            larger = _changed(counts, kind, 1)
            if counts[kind] < most and larger not in seen:
                seen.add(larger)
                if all(_changed(larger, less, -1) in found for less in range(len(demand)) if larger[less]):
                    yield larger


def _trees(counts: Counts, found: Fitting, width: int, height: int) -> tuple[tuple[Tree, ...], int]:
    made: dict[tuple[int, int], Tree] = {}
    tries = 0
    for first, second in parts_of(counts):
        if first > second:
            continue
        for one_tree, other in product(found[first], found[second]):
            tries += 1
            if one_tree.width + other.width <= width:
                _keep(made, join(True, one_tree, other))
            if one_tree.height + other.height <= height:
                _keep(made, join(False, one_tree, other))
    return smallest(made.values()), tries


def _keep(made: dict[tuple[int, int], Tree], tree: Tree) -> None:
    made.setdefault((tree.width, tree.height), tree)


def _changed(counts: Counts, kind: int, by: int) -> Counts:
    return (*counts[:kind], counts[kind] + by, *counts[kind + 1 :])
