"""Which of two devices is right: the one that more than its clock vouches for, then the one others agree with. Pure."""

from collections import Counter, defaultdict
from collections.abc import Collection
from typing import TypeAlias

from indexer.dating.clock.rolls import Roll
from indexer.dating.clock.seconds import seconds_of
from indexer.dating.clock.voting import NEAR_ZERO, Vote, agrees, occasions_of

#: (what vouches for it, how many devices it agrees with)
Rank: TypeAlias = tuple[int, int]

_ENOUGH = 3
_SAME = 2


def vouchers(roll: Roll, fixes: Collection[Vote]) -> int:
    """3 points for the satellites, who know; 1 for zones written and 1 for names with the same time, as phones give,
    whose clocks are set by the network."""
    near = sum(abs(vote.shift) <= NEAR_ZERO for vote in fixes)
    by_satellite = 3 * (near >= _ENOUGH and 2 * near >= len(fixes))
    zones = sum(shot.offset_minutes is not None for shot in roll.shots)
    names = sum(
        shot.names_time is not None and abs(seconds_of(shot.names_time) - own) <= _SAME
        for shot, own in zip(roll.shots, roll.own, strict=True)
    )
    return by_satellite + (2 * zones >= len(roll.shots)) + (2 * names >= len(roll.shots))


def agreeing(votes_by_pair: dict[tuple[int, int], list[Vote]]) -> Counter[int]:
    """With how many others each roll (by number) mostly agrees, of those it shares enough occasions with."""
    found: defaultdict[int, set[int]] = defaultdict(set)
    for (one, other), votes in votes_by_pair.items():
        occasions = occasions_of(votes)
        right = sum(any(agrees(vote, 0) for vote in occasion) for occasion in occasions)
        if right >= _ENOUGH and 2 * right >= len(occasions):
            found[one].add(other)
            found[other].add(one)
    return Counter({roll: len(others) for roll, others in found.items()})
