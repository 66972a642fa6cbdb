"""Frames of one scene, put together. Pure.

A chain of likenesses alone would let a panning sequence, each frame like its neighbour, swallow an afternoon. So a set
is a star: a frame and those that resemble this very one. The largest star comes first, the earliest among equals: from
a pan it cuts as few sets as can be, and a burst that is disturbed by a stranger or two stays whole. A likeness may be
missed, so in larger sets two that each resemble two thirds of the others are taken to resemble each other.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from heapq import heapify, heappop, heapreplace
from math import ceil

from indexer.alike.keepers import best_frame, is_clearly_better
from indexer.alike.values import Contender

#: In a set of so many, a frame must resemble one more besides the keeper: a likeness by chance comes alone.
WITNESS_FROM = 5
#: In a set of so many, two that each resemble this share of the others resemble each other: it was missed. The last
#: frame of a star cut from a pan resembles half of it.
MANY_FROM, MOST = 5, 2 / 3
#: A clearly better keeper may cost a set this share of its frames, not more.
KEPT_SHARE = 0.8

#: Each frame with those it resembles, and how surely.
Resembling = Mapping[str, Mapping[str, float]]


def resembling(links: Iterable[tuple[str, str, float]]) -> Resembling:
    """The likenesses both ways round; of several between two, the surest."""
    near: defaultdict[str, dict[str, float]] = defaultdict(dict)
    for one, other, score in links:
        if one != other:
            near[one][other] = near[other][one] = max(score, near[one].get(other, score))
    return near


def burst_groups(near: Resembling, frames: Mapping[str, Contender]) -> Iterator[list[str]]:
    """The frames in sets of two at least, each in one set and all of it like one of them: the order they were taken.

    The choices that were told play no part.
    """
    order = sorted(near, key=lambda key: (frames[key].taken, frames[key].place, key))
    numbers = {key: number for number, key in enumerate(order)}
    left = set(order)
    waiting = [(-len(near[key]), numbers[key]) for key in order]
    heapify(waiting)
    while waiting:
        size, number = waiting[0]
        centre = order[number]
        now = sum(other in left for other in near[centre]) if centre in left else 0
        if not now:
            heappop(waiting)
        elif now < -size:
            heapreplace(waiting, (-now, number))  # others have taken some of its neighbours since
        else:
            group = _around(centre, near, left, frames)
            left.difference_update(group)
            if len(group) > 1:
                yield sorted(group, key=numbers.__getitem__)


def apart(group: Collection[str], near: Resembling) -> dict[str, set[str]]:
    """Each frame of a set with those of the others that it does not resemble. Of two that each resemble most of the set
    it is taken that they were missed."""
    inside = set(group)
    alike = {key for key in inside if _is_like_most(key, near, inside)} if len(inside) >= MANY_FROM else set[str]()
    return {key: inside - near[key].keys() - {key} - (alike if key in alike else set()) for key in group}


def _is_like_most(key: str, near: Resembling, group: set[str]) -> bool:
    return len(group & near[key].keys()) >= MOST * len(group - {key})


def _around(centre: str, near: Resembling, left: set[str], frames: Mapping[str, Contender]) -> set[str]:
    """The set around a frame; if others resemble nearly all of it and are clearly better than those that resemble all,
    the part of it that is around the best of those."""
    group = _with_missed(_star(centre, near, left), near, left)
    if len(group) <= 2:
        return group
    unlike = apart(group, near)
    best = _best([key for key in group if not unlike[key]], frames)
    few = len(group) - ceil(KEPT_SHARE * len(group))
    better = _best([key for key in group if len(unlike[key]) <= few], frames)
    part = group - unlike[better.key]
    return part if is_clearly_better(better, best) and not apart(part, near)[better.key] else group


def _with_missed(star: set[str], near: Resembling, left: set[str]) -> set[str]:
    """The star and what resembles most of it, as long as somebody then still resembles all."""
    if len(star) < MANY_FROM:
        return star
    beside = {other for key in star for other in near[key] if other in left and other not in star}
    wider = star | {key for key in beside if _is_like_most(key, near, star)}
    return star if all(apart(wider, near).values()) else wider


def _best(keys: Collection[str], frames: Mapping[str, Contender]) -> Contender:
    contenders = [frames[key] for key in sorted(keys)]
    return frames[best_frame(contenders, contenders).key]


def _star(centre: str, near: Resembling, among: set[str]) -> set[str]:
    """A frame and what resembles it; in a large star only what resembles one more of it."""
    around = {key for key in near[centre] if key in among}
    if len(around) + 1 < WITNESS_FROM:
        return around | {centre}
    seen_twice = {key for key in around if not around.isdisjoint(near[key])}
    surest = max(around, key=lambda key: (near[centre][key], key))
    return (seen_twice or {surest}) | {centre}
