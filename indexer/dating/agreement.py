"""Whether the claims about one photo that ought to agree do so. Pure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta

from indexer.dating.corrected import CLOCK_SOURCES
from indexer.dating.moments import apart, span
from indexer.dating.offsets import step_between
from indexer.dating.order import CALLED, OF_CHANGE
from indexer.dating.values import World
from indexer.dating.words import day_words
from indexer.facts.records import Claim

#: Zones differ by so much, and a file is saved somewhat later: nothing closer contradicts.
_ZONES = timedelta(hours=26)
#: How old a fix of the satellites may be.
_STALE = timedelta(days=3)
#: A folder is named for the day something began, or the month in which it was tidied away.
_FOLDER = timedelta(days=31)


@dataclass(frozen=True, slots=True)
class Local:
    """A usable claim on the wall clock: `own` as it stands (universal time turned to local), `when` with the camera's
    clock corrected."""

    claim: Claim
    own: str
    when: str


def contradiction(chosen: Local, others: Sequence[Local], world: World) -> str | None:
    """What speaks against the chosen claim, as a sentence for a person; None where nothing does.

    What lies in one album week agrees, as does what zones and stale fixes can explain.
    """
    return next(_against(chosen, others, world), None)


def _against(chosen: Local, others: Sequence[Local], world: World) -> Iterator[str]:
    for other in others:
        if other is not chosen and _contradicts(chosen, other, world):
            yield _sentence(chosen, other)


def _contradicts(chosen: Local, other: Local, world: World) -> bool:
    claim = other.claim
    if chosen.claim.source == "iptc newer" and claim.source.startswith("xmp"):
        return False  # what was changed later is expected to differ
    mine, its = _comparable(chosen, other)
    if mine[:10] == its[:10] or world.weeks.may_be_same(mine, its):  # the former is quick, and nearly always so
        return False
    if claim.source == "gps":
        return _is_out_of_zones(mine, its)
    if claim.source == "folder name":
        return apart(mine, its) > _FOLDER
    if claim.is_arrival or claim.source in OF_CHANGE or claim.source.endswith("digitized"):
        return _is_before(its, mine)
    return not _is_one_moment(chosen, other)


def _comparable(chosen: Local, other: Local) -> tuple[str, str]:
    """Both as the camera wrote them where one clock wrote both: a correction moves the two alike."""
    if _is_by_one_clock(chosen.claim) and _is_by_one_clock(other.claim):
        return chosen.own, other.own
    return chosen.when, other.when


def _is_by_one_clock(claim: Claim) -> bool:
    return (
        claim.source in CLOCK_SOURCES
        or claim.source == "exif modified"
        or (claim.source == "file name" and not claim.is_arrival)
    )


def _is_before(earlier: str, later: str) -> bool:
    """Whether a time that ought to be the later one is the earlier, whatever the zones."""
    return span(earlier)[1] + _ZONES < span(later)[0]


def _is_out_of_zones(local: str, fix: str) -> bool:
    """Whether no zone and no stale fix explains the distance of a wall clock from the satellites' time."""
    distance = span(local)[0] - span(fix)[0]
    return not -_ZONES < distance < _STALE


def _is_one_moment(chosen: Local, other: Local) -> bool:
    """Whether one of the two is universal time and a zone brings them together."""
    if chosen.claim.is_utc == other.claim.is_utc or {chosen.claim.precision, other.claim.precision} != {"second"}:
        return False
    utc, local = (chosen.claim.when, other.own) if chosen.claim.is_utc else (other.claim.when, chosen.own)
    return bool(utc) and step_between(utc or "", local) is not None


def _sentence(chosen: Local, other: Local) -> str:
    mine, its = CALLED[chosen.claim.source], CALLED[other.claim.source]
    if mine == its:
        return f"its files give different days: {day_words(chosen.when)} and {day_words(other.when)}"
    if other.claim.source == "file time":
        return f"{mine} is {day_words(chosen.when)}, but the file is older: {day_words(other.when)}"
    if other.claim.is_arrival:
        return f"{mine} is {day_words(chosen.when)}, but it arrived before that: {day_words(other.when)}"
    return f"{mine} is {day_words(chosen.when)}, but {its} says {day_words(other.when)}"
