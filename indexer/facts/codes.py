"""The short names of photos. Pure."""

from collections.abc import Iterable
from itertools import pairwise

#: A code is never shorter than this.
LEAST = 5


def shortest_codes(keys: Iterable[str]) -> dict[str, str]:
    """Each key's first letters, at least LEAST of them, as many as set it apart from every other of the given keys.

    Keys are distinct and of one length. Keys that do not share their first LEAST letters never lengthen each other's
    code, so a group with one beginning may be given alone.
    """
    ordered = sorted(set(keys))
    shared = [_shared(before, after) for before, after in pairwise(ordered)]
    edges = [0, *shared, 0]
    return {key: key[: max(LEAST, edges[place] + 1, edges[place + 1] + 1)] for place, key in enumerate(ordered)}


def _shared(one: str, other: str) -> int:
    """How many first letters two different keys of one length share."""
    return next(place for place, (a, b) in enumerate(zip(one, other, strict=True)) if a != b)
