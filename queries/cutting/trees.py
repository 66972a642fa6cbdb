"""What lies on a print as a tree: a piece, or two smaller trees side by side or one below the other. Pure.

Every guillotine cutting is such a tree, and every such tree can be cut edge to edge (Gilmore and Gomory 1965: from
memory).
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

#: How many pieces of each kind.
Counts = tuple[int, ...]

#: The sides of a kind of piece, the shorter first: pieces that differ by a turn are of one kind.
Kind = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Form:
    """A kind of piece as it may lie: the room it takes, and its true sides, which are larger where it is exempt."""

    kind: int
    width: int
    height: int
    true_width: int
    true_height: int

    @property
    def exempt(self) -> int:
        """Along how many axes it reaches where the lab may trim."""
        return (self.true_width > self.width) + (self.true_height > self.height)


@dataclass(frozen=True, slots=True)
class Join:
    """Two trees, the second to the right of the first, or below it."""

    beside: bool
    first: "Tree"
    second: "Tree"
    width: int
    height: int


Tree = Form | Join


def join(beside: bool, first: Tree, second: Tree) -> Join:
    if beside:
        return Join(True, first, second, first.width + second.width, max(first.height, second.height))
    return Join(False, first, second, max(first.width, second.width), first.height + second.height)


def placed(tree: Tree, x: int = 0, y: int = 0) -> Iterator[tuple[Form, int, int]]:
    """Each piece of the tree with its left upper corner."""
    if isinstance(tree, Form):
        yield tree, x, y
        return
    yield from placed(tree.first, x, y)
    if tree.beside:
        yield from placed(tree.second, x + tree.first.width, y)
    else:
        yield from placed(tree.second, x, y + tree.first.height)


def counts_of(tree: Tree, kinds: int) -> Counts:
    counts = [0] * kinds
    for form, _, _ in placed(tree):
        counts[form.kind] += 1
    return tuple(counts)


def only(tree: Tree, left: list[int]) -> Tree | None:
    """The tree with no more pieces of each kind than `left` says, which is counted down; the rest moves together."""
    if isinstance(tree, Form):
        left[tree.kind] -= 1
        return tree if left[tree.kind] >= 0 else None
    first, second = only(tree.first, left), only(tree.second, left)
    if first is None or second is None:
        return first or second
    return join(tree.beside, first, second)


def smallest(trees: Iterable[Tree]) -> tuple[Tree, ...]:
    """Those trees that no other one is inside of, one of each size; by width."""
    kept: list[Tree] = []
    for tree in sorted(trees, key=lambda tree: (tree.width, tree.height)):
        if not kept or tree.height < kept[-1].height:
            kept.append(tree)
    return tuple(kept)


def area_of(kinds: Sequence[Kind], counts: Counts) -> int:
    return sum(width * height * count for (width, height), count in zip(kinds, counts, strict=True))
