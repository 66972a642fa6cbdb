"""Which piece goes on which print, once the patterns are chosen: the first pieces on the first prints. Pure."""

from collections import Counter
from collections.abc import Sequence

from queries.cutting.trees import Counts


def shared_out(kinds: Sequence[int], patterns: Sequence[Counts], uses: Sequence[int]) -> list[tuple[int, list[int]]]:
    """For each print its pattern and the numbers of its pieces; `kinds` has the kind of each piece, in order.

    The next print is always one that takes the first piece still waiting, and of these the one whose last piece is the
    earliest. Within a kind the pieces keep their order. A print that nothing is left for is not made.
    """
    waiting: list[list[int]] = [[] for _ in patterns[0]] if patterns else []
    for piece, kind in enumerate(kinds):
        waiting[kind].append(piece)
    left = Counter({number: count for number, count in enumerate(uses) if count})
    made: list[tuple[int, list[int]]] = []
    while any(waiting):
        first = min(pieces[0] for pieces in waiting if pieces)
        fitting = [number for number in left if patterns[number][kinds[first]]]
        takes = {number: _taken(waiting, patterns[number]) for number in fitting}
        best = min(fitting, key=lambda number: (takes[number][-1], -len(takes[number]), number))
        made.append((best, takes[best]))
        waiting = [[piece for piece in pieces if piece not in takes[best]] for pieces in waiting]
        left -= Counter([best])
    return made


def _taken(waiting: Sequence[Sequence[int]], counts: Counts) -> list[int]:
    return sorted(piece for pieces, count in zip(waiting, counts, strict=True) for piece in pieces[:count])
