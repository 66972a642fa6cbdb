"""Likenesses in, sets of photos alike out, each with the photos that stand for it. Pure.

Copies come first: each set of them counts as one frame when bursts are made. What the person told changes who stands
for a set and never who is in it: leaving out one photo must not tear a set into two that want a keeper each.
"""

from collections.abc import Iterable, Mapping, Sequence

from indexer.alike.bursts import Resembling, apart, burst_groups, resembling
from indexer.alike.copies import copy_groups
from indexer.alike.keepers import Verdict, best_copy, best_frame
from indexer.alike.values import AlikeSet, Contender, Contenders, Kind, Likeness

KEPT = "kept by you"
LEFT = "all left out by you"


def alike_sets(likenesses: Iterable[Likeness], photos: Contenders) -> list[AlikeSet]:
    """The sets among `photos`, copies before bursts, each kind in the order the sets' first keepers were taken.

    Likenesses with other photos do not count. A photo is in one set of copies at most, and in one burst only if it is a
    keeper among its copies.
    """
    known = [link for link in likenesses if link.one in photos and link.other in photos]
    copies = [
        (group, _copy_set(group, photos))
        for group in copy_groups((link for link in known if link.kind == "copy"), photos)
    ]
    frame_of = {key: _frame(group, photos) for group, _ in copies for key in group}
    standing = {frame_of[group[0]]: found.keepers for group, found in copies}
    near = resembling(
        (frame_of.get(link.one, link.one), frame_of.get(link.other, link.other), link.score)
        for link in known
        if link.kind == "burst" or _are_of_one_day(photos[link.one], photos[link.other])
    )
    bursts = (_burst_set(group, near, standing, photos) for group in burst_groups(near, photos))
    found = [*(found for _, found in copies), *(burst for burst in bursts if burst)]
    return sorted(found, key=lambda item: (item.kind != "copy", *_order(photos[item.members[0]])))


def _are_of_one_day(one: Contender, other: Contender) -> bool:
    """Whether two that look like copies and are none may be frames of one burst. A time that a copy lent is that of
    another frame, which must not come in by it."""
    return one.taken[:10] == other.taken[:10] and not (one.is_lent or other.is_lent)


def _frame(group: Sequence[str], photos: Contenders) -> str:
    """The copy that a group is known by when bursts are made, whatever was told."""
    return best_copy([photos[key] for key in group]).key


def _copy_set(group: Sequence[str], photos: Contenders) -> AlikeSet:
    members = [photos[key] for key in group]
    candidates = [photo for photo in members if photo.choice != "leave"] or members
    return _set("copy", members, best_copy(candidates))


def _burst_set(
    group: Sequence[str], near: Resembling, standing: Mapping[str, frozenset[str]], photos: Contenders
) -> AlikeSet | None:
    """The set of these frames: of copies, those that stand for them. None when that leaves fewer than two photos."""
    frame_of = {key: frame for frame in group for key in standing.get(frame, (frame,))}
    members = [photos[key] for key in frame_of]
    if len(members) < 2:
        return None
    told = [photo for photo in members if photo.choice != "leave"] or members
    # A lesser copy stands for a frame whose best one the person left out: it must not win against a frame of its own.
    among = [photo for photo in told if photo.key == frame_of[photo.key]] or told
    unlike = apart(group, near)
    least = min(len(unlike[frame_of[photo.key]]) for photo in among)
    return _set("burst", members, best_frame([p for p in among if len(unlike[frame_of[p.key]]) == least], among))


def _set(kind: Kind, members: Iterable[Contender], by_rule: Verdict) -> AlikeSet:
    """The set as the choices have it."""
    ordered = sorted(members, key=_order)
    kept = [photo.key for photo in ordered if photo.choice == "keep"]
    if kept:
        first, keepers, reason = kept[0], frozenset(kept), KEPT
    elif all(photo.choice == "leave" for photo in ordered):
        first, keepers, reason = by_rule.key, frozenset[str](), LEFT
    else:
        first, keepers, reason = by_rule.key, frozenset({by_rule.key}), by_rule.reason
    return AlikeSet(kind, (first, *(photo.key for photo in ordered if photo.key != first)), keepers, reason)


def _order(photo: Contender) -> tuple[object, ...]:
    return photo.taken, photo.place, photo.key
