"""Scenes that a camera and a better clock both saw. Pure."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import pairwise

from indexer.dating.clock.factory import Run, fall_text
from indexer.dating.clock.findings import Finding
from indexer.dating.clock.parts import Part, parts
from indexer.dating.clock.rolls import Roll
from indexer.dating.clock.seconds import DAY
from indexer.dating.clock.shifts import round_shift
from indexer.dating.clock.spans import lies_in
from indexer.dating.clock.voting import WINDOW, Stretch, Vote, agrees, occasions_of, one_stretch, stretches
from indexer.dating.clock.wording import counted, day_text, duration, listed
from indexer.dating.clock.zone import HomeZone

_OCCASIONS = 3
#: What a step of exactly an hour at a daylight-saving date needs, if nothing speaks against it.
_DAYLIGHT_OCCASIONS = 2
#: The share of all occasions that must speak for a shift: the others show scenes seen twice.
_SHARE = 0.25
#: Nobody sets a clock wrong oftener: these are two devices that call themselves alike.
_MOST_STRETCHES = 8
#: A clock known to have fallen back, and by how much within so many seconds, needs one occasion only.
_BOUNDED = 60 * DAY


def scene_findings(roll: Roll, votes: Collection[Vote], places: Sequence[int], zone: HomeZone) -> Iterator[Finding]:
    """The stretches of `places` (rising) over which scenes agree that the clock is off."""
    inside = set(places)
    mine = [vote for vote in votes if vote.place in inside]
    found = parts(roll, places, stretches(mine, zone.daylight), zone)
    sure = _sure_parts(found)
    at_home = [part for part in sure if not _is_abroad(part.stretch)]
    is_one_clock = sum(not part.is_daylight for part in at_home) <= _MOST_STRETCHES
    for part in at_home:
        if part.places and (part.is_daylight or is_one_clock):
            yield _finding(part)
    taken = {place for part in at_home for place in part.places}
    for part in sure:
        if part not in at_home and not _was_set_abroad(part.stretch, mine):
            yield _journey_finding(roll, part.stretch, [place for place in places if place not in taken])


def _finding(part: Part) -> Finding:
    if part.is_daylight:
        grounds = _daylight_grounds(part, part.hour)
        return Finding(frozenset(part.places), part.hour, "daylight saving", grounds, part.marks)
    shift = round_shift([vote.shift for vote in part.stretch.speaking])
    return Finding(frozenset(part.places), shift, "scenes", _grounds(part.stretch, shift), part.marks)


def _journey_finding(roll: Roll, stretch: Stretch, places: Sequence[int]) -> Finding:
    """A camera on home time, for as long as the witnesses were abroad."""
    journeys = {vote.journey for vote in stretch.speaking if vote.journey}
    spans = [(journey.since, journey.until) for journey in journeys]
    inside = frozenset(place for place in places if any(lies_in(roll.own[place], span) for span in spans))
    shift = round_shift([vote.shift for vote in stretch.speaking])
    grounds = f"{_grounds(stretch, shift)}, as on a journey: it stayed on home time"
    return Finding(inside, shift, "scenes", grounds, tuple(sorted({end for span in spans for end in span})))


def run_finding(roll: Roll, run: Run, votes: Collection[Vote]) -> Finding | None:
    """The exact shift of a run after a battery change, if scenes tell it."""
    allowed = [
        vote for vote in votes if vote.place in run.places and run.low - WINDOW <= vote.shift <= run.high + WINDOW
    ]
    stretch = one_stretch(allowed)
    needed = 1 if run.width <= _BOUNDED else _DAYLIGHT_OCCASIONS
    if stretch is None or stretch.occasions < max(needed, 2 * stretch.other):
        return None
    shift = round_shift([vote.shift for vote in stretch.speaking])
    grounds = f"{fall_text(roll, run)}; {_grounds(stretch, shift)}"
    return Finding(run.places & roll.uncorrected, shift, "factory date", grounds, is_tight=True)


def _sure_parts(found: Sequence[Part]) -> list[Part]:
    """Those whose clock is surely off, with those beside them that differ by an hour since clocks changed: what is an
    hour off a sure shift needs no more than one occasion."""
    sure = [_is_sure(part) for part in found]
    for k, (one, other) in enumerate(pairwise(found)):
        if one.until:
            sure[k] = sure[k] or (sure[k + 1] and _is_uncontradicted(one.stretch))
            sure[k + 1] = sure[k + 1] or (sure[k] and _is_uncontradicted(other.stretch))
    return [part for part, is_sure in zip(found, sure, strict=True) if is_sure]


def _is_sure(part: Part) -> bool:
    stretch = part.stretch
    if not stretch.shift or _is_abroad(stretch):
        return _is_uncontradicted(stretch)
    if part.is_daylight and part.right_beside >= _DAYLIGHT_OCCASIONS and not stretch.other:
        return stretch.occasions >= _DAYLIGHT_OCCASIONS and stretch.days >= _DAYLIGHT_OCCASIONS
    everything = len(occasions_of(stretch.votes))
    return stretch.occasions >= max(_OCCASIONS, 2 * stretch.other, _SHARE * everything)


def _is_abroad(stretch: Stretch) -> bool:
    """Whether a camera on home time would be off by this, as the witnesses' zones say."""
    return bool(stretch.shift) and all(vote.is_abroad for vote in stretch.speaking)


def _was_set_abroad(stretch: Stretch, votes: Iterable[Vote]) -> bool:
    """Whether half as many occasions of the same journeys say that the camera had been set to the zone there."""
    journeys = {vote.journey for vote in stretch.speaking}
    there = [vote for vote in votes if vote.journey in journeys and agrees(vote, 0)]
    return 2 * len(occasions_of(there)) >= stretch.occasions


def _is_uncontradicted(stretch: Stretch) -> bool:
    return bool(stretch.shift) and stretch.occasions > stretch.other


def _grounds(stretch: Stretch, shift: int) -> str:
    scenes = len({vote.place for vote in stretch.speaking})
    witnesses = Counter(vote.witness for vote in stretch.speaking)
    names = sorted(witnesses, key=lambda name: (-witnesses[name], name))
    show = "shows" if len(names) == 1 else "show"
    way = "earlier" if shift > 0 else "later"
    return (
        f"{counted(scenes, 'scene')} that {listed(names)} also {show}, on {counted(stretch.days, 'day')},"
        f" {'is' if scenes == 1 else 'are'} {duration(shift)} {way} by this camera's clock"
    )


def _daylight_grounds(part: Part, shift: int) -> str:
    season = f", from {day_text(part.since.at)} on" if part.since else ""
    season += f", until {day_text(part.until.at)}" if part.until and not part.since else ""
    beside = f", while {counted(part.right_beside, 'occasion')} before or after agree" if part.right_beside else ""
    return f"{_grounds(part.stretch, shift)}{season}{beside}: it did not follow daylight saving"
