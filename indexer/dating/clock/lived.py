"""The order in which a camera's photos were taken, as its file numbers tell it where its clock jumped. Pure.

Numbers rise with every shot from 0001 to 9999 and then begin again (DCF, CIPA DC-009), whatever the clock does.
"""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median_low

from indexer.dating.clock.seconds import DAY, HOUR

Number = tuple[str, str, int]

#: A camera's clock is rarely set: a chain in which the time falls back oftener than in one step of so many, besides
#: twice, is a mixture of two cameras or of renamed files.
_STEPS_A_JUMP = 20
#: Numbers have begun again when some lie below and some above these.
_AFTER_WRAP, _BEFORE_WRAP = 1_000, 9_000


@dataclass(frozen=True, slots=True)
class Order:
    """Indices of the photos in the order they were taken; `chains`: those that file numbers put in order."""

    all: tuple[int, ...]
    chains: tuple[tuple[int, ...], ...]


def lived_order(own: Sequence[int], numbers: Sequence[Number | None]) -> Order:
    """The order of photos by their own times and numbers: by numbers where the clock fell back, else by times."""
    chains = sorted(_chains(own, numbers), key=lambda chain: (median_low(own[i] for i in chain), chain))
    if not any(_falls(chain, own, HOUR) for chain in chains):
        by_time = sorted(range(len(own)), key=lambda i: (own[i], numbers[i] or ("", "", 0), i))
        return Order(tuple(by_time), tuple(chains))
    return Order(_woven([i for chain in chains for i in chain], own), tuple(chains))


def _woven(numbered: Sequence[int], own: Sequence[int]) -> tuple[int, ...]:
    """Photos without a number behind the numbered one that is the last before them by the clock."""
    places = sorted((own[i], place) for place, i in enumerate(numbered))
    keyed = [(place, 0, 0, i) for place, i in enumerate(numbered)]
    for i in set(range(len(own))).difference(numbered):
        at = bisect_right(places, (own[i], len(own)))
        keyed.append((places[at - 1][1] if at else -1, 1, own[i], i))
    return tuple(i for *_, i in sorted(keyed))


def _chains(own: Sequence[int], numbers: Sequence[Number | None]) -> list[tuple[int, ...]]:
    """Photos whose numbers run on: those with one beginning of the name, or of one folder if numbers come twice."""
    by_prefix: defaultdict[str, list[tuple[int, str, int]]] = defaultdict(list)
    for i, number in enumerate(numbers):
        if number is not None:
            by_prefix[number[1].casefold()].append((number[2], number[0], i))
    chains = []
    for group in by_prefix.values():
        for part in [group] if _is_one_count(group) else _by_folder(group):
            chain = _unwrapped(sorted((number, own[i], i) for number, _, i in part), own)
            if len(chain) > 1 and _falls(chain, own, DAY) <= 2 + len(chain) // _STEPS_A_JUMP:
                chains.append(chain)
    return chains


def _is_one_count(group: Sequence[tuple[int, str, int]]) -> bool:
    """Whether no number stands in two folders."""
    return len({number for number, _, _ in group}) == len({(number, folder) for number, folder, _ in group})


def _by_folder(group: Sequence[tuple[int, str, int]]) -> list[list[tuple[int, str, int]]]:
    folders: defaultdict[str, list[tuple[int, str, int]]] = defaultdict(list)
    for item in group:
        folders[item[1]].append(item)
    return list(folders.values())


def _unwrapped(counted: Sequence[tuple[int, int, int]], own: Sequence[int]) -> tuple[int, ...]:
    """Indices by number; where numbers began again, the high ones first if they are the older ones."""
    chain = tuple(i for *_, i in counted)
    if len(chain) < 2 or counted[0][0] >= _AFTER_WRAP or counted[-1][0] <= _BEFORE_WRAP:
        return chain
    cut = max(range(1, len(chain)), key=lambda k: counted[k][0] - counted[k - 1][0])
    low, high = chain[:cut], chain[cut:]
    return high + low if median_low(own[i] for i in high) < median_low(own[i] for i in low) else chain


def _falls(chain: Sequence[int], own: Sequence[int], least: int) -> int:
    """How often the clock falls back by more than `least` seconds while numbers rise."""
    return sum(own[i] - own[j] > least for i, j in pairwise(chain))
