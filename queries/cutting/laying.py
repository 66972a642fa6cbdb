"""The pieces of an order laid on the fewest prints: the story. Pure but for the clock that ends the search."""

from collections.abc import Sequence
from dataclasses import dataclass
from time import monotonic

from queries.cutting.arranging import arranged
from queries.cutting.choosing import Chosen, Pattern, fewest, least_bother
from queries.cutting.columns import Clock, found_patterns
from queries.cutting.patterns import fitting_sets, largest_sets
from queries.cutting.placing import print_of
from queries.cutting.sharing import shared_out
from queries.cutting.spaces import Space, refuse_larger, spaces_of
from queries.cutting.trees import Counts, Kind, Tree, only
from queries.cutting.values import Layout, Paper, Piece, Print, Tight

#: The search for fewer different patterns and fewer shrunk prints takes no longer, in seconds.
_POLISHING = 2.0
#: With more patterns than this, that search looks at those in use only.
_MANY = 250


@dataclass(frozen=True, slots=True)
class _Order:
    """The pieces by kinds, and where they may lie."""

    pieces: tuple[Piece, ...]
    of_piece: tuple[int, ...]
    kinds: tuple[Kind, ...]
    demand: Counts
    paper: Paper
    spaces: tuple[Space, ...]


def lay_out(pieces: Sequence[Piece], paper: Paper, *, tight: Tight = "shrink", seconds: float = 20.0) -> Layout:
    """All pieces on the fewest prints that guillotine cuts allow, as far as the time allows, with the proven bound.

    Pieces that fit only together where the lab may trim are shrunk or go on prints apart, by `tight`. Raises PrintError
    for a piece larger than the paper, and for a trim that leaves nothing.
    """
    end = monotonic() + seconds
    order = _order_of(pieces, paper, tight)
    if not pieces:
        return Layout((), 0)
    patterns, chosen = _choose(order, lambda: end - monotonic())
    shared = shared_out(order.of_piece, [pattern.counts for pattern in patterns], chosen.uses)
    trees: dict[Counts, tuple[Tree, Space]] = {}
    prints = [_print(order, patterns[number].tree, numbers, trees) for number, numbers in shared]
    return Layout(tuple(prints), min(chosen.lower_bound, len(prints)))


def _order_of(pieces: Sequence[Piece], paper: Paper, tight: Tight) -> _Order:
    sides = [(min(piece.width, piece.height), max(piece.width, piece.height)) for piece in pieces]
    for piece, kind in zip(pieces, sides, strict=True):
        refuse_larger(piece.name, kind, paper)
    kinds = tuple(sorted(set(sides), reverse=True))
    of_piece = tuple(kinds.index(kind) for kind in sides)
    demand = tuple(of_piece.count(number) for number in range(len(kinds)))
    return _Order(tuple(pieces), of_piece, kinds, demand, paper, spaces_of(paper, tight))


def _choose(order: _Order, left: Clock) -> tuple[tuple[Pattern, ...], Chosen]:
    """The patterns and how often each is printed. The last space holds all that any holds, so it gives the number."""
    listed = _listed(order, order.spaces[-1])
    if listed is None:
        space = order.spaces[-1]
        forms = space.forms(order.kinds, order.paper)
        found = found_patterns(forms, order.demand, (space.width, space.height), left)
        patterns, chosen = found.patterns, found.chosen
    else:
        patterns = listed
        chosen = fewest(patterns, order.demand, left())
        if len(order.spaces) > 1:
            patterns, chosen = _with_unshrunk(order, patterns, chosen)
    if len(patterns) > _MANY:
        kept = [number for number, uses in enumerate(chosen.uses) if uses]
        patterns = tuple(patterns[number] for number in kept)
        chosen = Chosen(tuple(chosen.uses[number] for number in kept), chosen.lower_bound)
    return patterns, least_bother(patterns, order.demand, chosen, min(_POLISHING, left()))


def _with_unshrunk(order: _Order, patterns: tuple[Pattern, ...], chosen: Chosen) -> tuple[tuple[Pattern, ...], Chosen]:
    """The patterns that need no shrinking before those that may."""
    whole = _listed(order, order.spaces[0]) or ()
    known = {pattern.counts for pattern in whole}
    kept = [number for number, pattern in enumerate(patterns) if pattern.counts not in known]
    uses = {pattern.counts: count for pattern, count in zip(patterns, chosen.uses, strict=True)}
    both = whole + tuple(Pattern(patterns[number].counts, patterns[number].tree, shrunk=True) for number in kept)
    return both, Chosen(tuple(uses.get(pattern.counts, 0) for pattern in both), chosen.lower_bound)


def _listed(order: _Order, space: Space) -> tuple[Pattern, ...] | None:
    found = fitting_sets(space.forms(order.kinds, order.paper), order.demand, space.width, space.height)
    if found is None:
        return None
    return tuple(Pattern(counts, found[counts][0]) for counts in largest_sets(found, order.demand))


def _print(order: _Order, tree: Tree, numbers: Sequence[int], trees: dict[Counts, tuple[Tree, Space]]) -> Print:
    counts = tuple(sum(order.of_piece[number] == kind for number in numbers) for kind in range(len(order.kinds)))
    if counts not in trees:
        trees[counts] = _arranged(order, tree, counts)
    pieces = [(order.pieces[number], order.of_piece[number]) for number in numbers]
    return print_of(pieces, *trees[counts], order.paper)


def _arranged(order: _Order, tree: Tree, counts: Counts) -> tuple[Tree, Space]:
    """The pieces in the first space that holds them: few cuts where all arrangements can be tried, else as found."""
    for space in order.spaces:
        if found := arranged(space.forms(order.kinds, order.paper), counts, space):
            return found, space
    kept = only(tree, list(counts))
    assert kept is not None, "a print is made for the pieces on it"
    return kept, order.spaces[-1]
