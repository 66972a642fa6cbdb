"""Which photos of a week go on the shortlist. Pure.

Greedy: photo by photo the one that adds most to the score. What was kept by hand stands first; no two of a set of
photos alike are chosen, nor two that show one scene, but where a day would be left without a photo. As the score does
not depend on how many are wanted, a longer shortlist holds every shorter one.
"""

from collections.abc import Collection, Hashable, Sequence
from dataclasses import replace
from datetime import datetime
from heapq import heapify, heappop, heapreplace

from queries.shortlist.occasions import occasions_of
from queries.shortlist.reasons import reasons_of
from queries.shortlist.score import Growing, Score
from queries.shortlist.terms import score_of
from queries.shortlist.values import SAME_SCENE, Candidate, Chosen, SetAside, Shortlist
from queries.shortlist.weights import Weights


def shortlist(
    candidates: Sequence[Candidate],
    wanted: int,
    *,
    wanted_portrait_share: float | None = None,
    by: Weights | None = None,
) -> Shortlist:
    """The `wanted` photos of a week that tell it; all that were kept by hand are among them, even when they are more.

    The candidates are all photos of the week; those taken at the same time come in the order to be kept. Shapes are
    chosen in the proportion of the candidates, or with the wanted share of portraits (0..1). Raises ValueError when
    fewer than no photos are wanted.
    """
    if wanted < 0:
        raise ValueError(f"a shortlist cannot have {wanted} photos")
    week = _with_days_told(sorted(candidates, key=_when))
    standing = [candidate for candidate in week if _may_be_chosen(candidate)]
    occasions = occasions_of(standing)
    score = score_of(standing, occasions, by or Weights(), wanted_portrait_share)
    kept = [place for place, candidate in enumerate(standing) if candidate.is_kept]
    order = choose(score, wanted, kept, [_shown_once(candidate) for candidate in standing])
    reasons = reasons_of(order, standing, occasions)
    return Shortlist(
        asked=wanted,
        chosen=tuple(
            Chosen(standing[place], occasions[place], rank, reason)
            for place, rank, reason in sorted(zip(order, range(len(order)), reasons, strict=True))
        ),
        set_aside=_set_aside(week, [standing[place] for place in order]),
        candidates=len(standing),
        days=len({occasion.day for occasion in occasions}),
        occasions=len(set(occasions)),
    )


def choose(
    score: Score, wanted: int, kept: Sequence[int] = (), sets: Sequence[Collection[Hashable]] | None = None
) -> list[int]:
    """The places of those chosen, in the order of choice: `kept` first, then what adds most, the earliest of equals.

    `sets` has, for each place, what marks the sets of which it may be the only one chosen. What a photo adds only
    falls as others are chosen, so that it is reckoned anew only when it comes to the top of the heap.
    """
    growing, order, shown = Growing(score), list[int](), set[Hashable]()
    sets = sets or [()] * len(score.own)

    def take(place: int) -> None:
        growing.take(place)
        order.append(place)
        shown.update(sets[place])

    for place in kept:
        take(place)
    heap = [(-growing.gain(place), place) for place in set(range(len(score.own))) - set(kept)]
    heapify(heap)
    while heap and len(order) < wanted:
        known, place = heap[0]
        if not shown.isdisjoint(sets[place]):
            heappop(heap)
        elif (now := -growing.gain(place)) > known:
            heapreplace(heap, (now, place))
        else:
            heappop(heap)
            take(place)
    return order


def _with_days_told(week: Sequence[Candidate]) -> list[Candidate]:
    """Of a day on which all photos show what others do, the first stands for the day, whatever it shows."""
    standing = [candidate for candidate in week if _may_be_chosen(candidate)]
    told = {candidate.day for candidate in standing if not candidate.scenes}
    firsts = {candidate.day: candidate for candidate in reversed(standing) if candidate.day not in told}
    return [
        replace(candidate, scenes=frozenset()) if firsts.get(candidate.day) is candidate else candidate
        for candidate in week
    ]


def _shown_once(candidate: Candidate) -> frozenset[tuple[str, int]]:
    """What it shows and no other may be chosen for."""
    return frozenset([("set", number) for number in candidate.sets] + [("scene", n) for n in candidate.scenes])


def _set_aside(week: Sequence[Candidate], chosen: Sequence[Candidate]) -> tuple[SetAside, ...]:
    """Those that could not be chosen: for what they are pictures of, or since one chosen shows the same."""
    reasons = ((each, each.set_aside or _seen_already(each, chosen)) for each in week if _would_stand(each))
    return tuple(SetAside(each, reason) for each, reason in reasons if reason)


def _seen_already(candidate: Candidate, chosen: Sequence[Candidate]) -> str | None:
    if candidate in chosen:
        return None
    twin = next((other for other in chosen if not candidate.scenes.isdisjoint(other.scenes)), None)
    return f"{SAME_SCENE} {twin.code}" if twin else None


def _when(candidate: Candidate) -> tuple[object, ...]:
    return candidate.day, candidate.taken is None, candidate.taken or datetime.min  # noqa: DTZ901


def _may_be_chosen(candidate: Candidate) -> bool:
    return candidate.is_kept or (candidate.keeper and candidate.choice != "leave" and not candidate.set_aside)


def _would_stand(candidate: Candidate) -> bool:
    """Whether nothing but being set aside keeps it from being chosen."""
    return candidate.keeper and candidate.choice is None
