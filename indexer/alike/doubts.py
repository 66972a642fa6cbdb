"""Which bursts are uncertain until both photos were looked at closely, and what comes of the looks. Pure.

What looks alike from afar may be two things that look alike. Only what can be that is in doubt: photos taken one after
the other and not at once, of which the score is not sure. Every doubt costs time, so that a photo is laid beside few
that came before it, the least sure first.
"""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from indexer.alike.coefficients import AT_ONCE, CERTAIN_SCORE, ENOUGH_SAME, MOST_DOUBTS, OTHER_SURFACES
from indexer.alike.values import Likeness, Looked


@dataclass(frozen=True, slots=True)
class Doubt:
    """A photo, and those taken before it that it may only look like, the least sure first."""

    key: str
    earlier: tuple[str, ...]


def doubts_among(found: Collection[Likeness], photos: Mapping[str, Looked]) -> list[Doubt]:
    """The doubts in the order the photos were taken, each pair in one of them; at most `MOST_DOUBTS` pairs a photo.

    A pair of which one was seen by its thumbnail is in none: it is decoded and compared again.
    """
    earlier: defaultdict[str, list[tuple[float, str]]] = defaultdict(list)
    for link in found:
        if link.kind == "burst" and link.score < CERTAIN_SCORE:
            first, second = sorted((photos[link.one], photos[link.other]), key=_order)
            if first.made_from == second.made_from == "decode" and not _is_at_once(first, second):
                earlier[second.key].append((link.score, first.key))
    ordered = sorted(earlier, key=lambda key: _order(photos[key]))
    return [Doubt(key, tuple(first for _, first in sorted(earlier[key])[:MOST_DOUBTS])) for key in ordered]


def _order(photo: Looked) -> tuple[bool, float, str]:
    return photo.moment is None, photo.moment or 0.0, photo.key


def _is_at_once(one: Looked, other: Looked) -> bool:
    if one.moment is None or other.moment is None or not (one.exact and other.exact):
        return False
    return abs(one.moment - other.moment) <= AT_ONCE


def batches(doubts: Sequence[Doubt], most: int) -> Iterator[tuple[list[Doubt], set[str]]]:
    """The doubts in their order, so many together that at most `most` photos take part, or one alone; with them."""
    batch, photos = list[Doubt](), set[str]()
    for doubt in doubts:
        more = photos | {doubt.key, *doubt.earlier}
        if batch and len(more) > most:
            yield batch, photos
            batch, more = [], {doubt.key, *doubt.earlier}
        batch.append(doubt)
        photos = more
    if batch:
        yield batch, photos


def look_alikes(doubt: Doubt, differ: Callable[[str, str], float | None]) -> Iterator[str]:
    """Those that show other surfaces than the photo itself. `differ` says by how much the surfaces of two photos
    differ, or None where that cannot be told; once `ENOUGH_SAME` do not, the surer ones are taken not to either."""
    same = 0
    for key in doubt.earlier:
        difference = differ(doubt.key, key)
        if difference is not None and difference >= OTHER_SURFACES:
            yield key
        else:
            same += 1
            if same == ENOUGH_SAME:
                return
