"""Copies of one shot, put together. Pure.

Being a copy passes on from one to the next: a reduced copy may look less like an edit than like the original that both
were made of. What must not pass on is a mistake: a copy that lost its date may resemble two frames of a burst. So the
surest likenesses are taken first, two photos that their cameras dated differently never come together, and nothing
counts as a copy that is more than two steps from the keeper.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product

from indexer.alike.keepers import best_copy
from indexer.alike.values import Contenders, Likeness, times_agree

#: How many likenesses away from its keeper a copy may be.
STEPS = 2

Neighbours = Mapping[str, set[str]]


def copy_groups(links: Iterable[Likeness], photos: Contenders) -> list[list[str]]:
    """The photos that are copies of each other, in groups of two at least; each in one group. `links` name known photos
    only. The choices that were told play no part."""
    groups = _joined(sorted(links, key=lambda link: (-link.score, link.one, link.other)), photos)
    return sorted(part for members, near in groups for part in _near_keeper(members, near, photos))


def _joined(links: Sequence[Likeness], photos: Contenders) -> Iterator[tuple[list[str], Neighbours]]:
    """Groups with the likenesses inside: joined from the surest one on, as far as the cameras' own times agree."""
    group_of: dict[str, list[str]] = {}
    for link in links:
        one, other = (group_of.setdefault(key, [key]) for key in (link.one, link.other))
        if one is not other and _are_of_one_shot(one, other, photos):
            if len(one) < len(other):
                one, other = other, one
            one.extend(other)
            group_of.update(dict.fromkeys(other, one))
    near: defaultdict[str, set[str]] = defaultdict(set)
    for link in links:
        if group_of[link.one] is group_of[link.other]:
            near[link.one].add(link.other)
            near[link.other].add(link.one)
    for members in {id(group): group for group in group_of.values() if len(group) > 1}.values():
        yield sorted(members), near


def _are_of_one_shot(one: Sequence[str], other: Sequence[str], photos: Contenders) -> bool:
    times, others = ({photos[key].own_time for key in keys} for keys in (one, other))
    return all(times_agree(mine, theirs) for mine, theirs in product(times, others))


def _near_keeper(members: Sequence[str], near: Neighbours, photos: Contenders) -> Iterator[list[str]]:
    """The group, or where it is a long chain, the parts of it that are each near to a keeper."""
    left = set(members)
    while len(left) > 1:
        keeper = best_copy([photos[key] for key in sorted(left)]).key
        part = _within(STEPS, keeper, near, left)
        if len(part) > 1:
            yield sorted(part)
        left -= part


def _within(steps: int, start: str, near: Neighbours, among: set[str]) -> set[str]:
    reached = newest = {start}
    for _ in range(steps):
        newest = {other for key in newest for other in near[key]} & among - reached
        reached = reached | newest
    return reached
