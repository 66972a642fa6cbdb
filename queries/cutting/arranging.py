"""The pieces of one print arranged so that few cuts free them. Pure.

There are always as many parts as cuts and one more; so the fewest cuts are the fewest pieces of waste.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from math import prod

from queries.cutting.patterns import Fitting, fitting_sets, parts_of
from queries.cutting.spaces import Space
from queries.cutting.trees import Counts, Form, Tree, join

#: Of pieces that can be parted in more ways than this not all arrangements are tried: six different ones are the most.
_MOST_WAYS = 2**6
_MOST_TRIES = 30_000
#: Nor when so many sheets with pieces in them have been looked at: half a second or so.
_MOST_SHEETS = 1_500

#: One axis along which a piece reaches where the lab may trim weighs more than any number of cuts.
_RISK = 1000


@dataclass(frozen=True, slots=True)
class Found:
    """An arrangement: what it costs, and how far its pieces lie from the corner, in µm times µm² of their area.

    Of two that cost the same, the one that lies closer has its large pieces first and its waste at the right and below.
    """

    cost: int
    away: int
    area: int
    tree: Tree

    @property
    def rank(self) -> tuple[int, int]:
        return self.cost, self.away


def arranged(forms: tuple[Form, ...], counts: Counts, space: Space) -> Tree | None:
    """The best arrangement of just these pieces; None where they do not fit, or are too many to try."""
    if prod(count + 1 for count in counts) > _MOST_WAYS:
        return None
    found = fitting_sets(forms, counts, space.width, space.height, _MOST_TRIES)
    if found is None or counts not in found:
        return None
    search = _Search(forms, found)
    best = search.best(space.width, space.height, counts)
    return best.tree if best and len(search.known) <= _MOST_SHEETS else None


@dataclass(slots=True)
class _Search:
    forms: tuple[Form, ...]
    fitting: Fitting
    known: dict[tuple[int, int, Counts], Found | None] = field(default_factory=dict)

    def best(self, width: int, height: int, counts: Counts) -> Found | None:
        """The cheapest way to free these pieces from a sheet of that size: its cost and its tree."""
        key = (width, height, counts)
        if len(self.known) > _MOST_SHEETS:
            return None
        if key not in self.known:
            self.known[key] = min(self._ways(width, height, counts), key=lambda found: found.rank, default=None)
        return self.known[key]

    def _ways(self, width: int, height: int, counts: Counts) -> Iterator[Found]:
        trees = [tree for tree in self.fitting[counts] if tree.width <= width and tree.height <= height]
        if not trees:
            return
        if sum(counts) == 1:
            yield from self._alone(width, height, counts.index(1))
            return
        smaller = [(tree.width, height) for tree in trees if tree.width < width]
        smaller += [(width, tree.height) for tree in trees if tree.height < height]
        for sides in smaller:
            if found := self.best(*sides, counts):
                yield replace(found, cost=found.cost + 1)
        for first, second in parts_of(counts):
            yield from self._parted(width, height, first, second)

    def _alone(self, width: int, height: int, kind: int) -> Iterator[Found]:
        for form in self.forms:
            if form.kind == kind and form.width <= width and form.height <= height:
                cuts = (form.width < width) + (form.height < height)
                yield Found(form.exempt * _RISK + cuts, 0, form.width * form.height, form)

    def _parted(self, width: int, height: int, first: Counts, second: Counts) -> Iterator[Found]:
        for at in {tree.width for tree in self.fitting[first] if tree.height <= height and tree.width < width}:
            if (one := self.best(at, height, first)) and (other := self.best(width - at, height, second)):
                yield _joined(True, one, other)
        for at in {tree.height for tree in self.fitting[first] if tree.width <= width and tree.height < height}:
            if (one := self.best(width, at, first)) and (other := self.best(width, height - at, second)):
                yield _joined(False, one, other)


def _joined(beside: bool, one: Found, other: Found) -> Found:
    tree = join(beside, one.tree, other.tree)
    offset = one.tree.width if beside else one.tree.height
    away = one.away + other.away + offset * other.area
    return Found(one.cost + other.cost + 1, away, one.area + other.area, tree)
