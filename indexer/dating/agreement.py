"""Whether the claims about one photo that ought to agree do so. Pure."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta

from indexer.dating.moments import apart, span
from indexer.dating.offsets import step_between
from indexer.dating.order import CALLED, EARLIEST, OF_CHANGE, OF_DIGITIZING, may_be_chosen
from indexer.dating.values import PhotoSaid, World
from indexer.dating.words import day_words
from indexer.facts.records import Claim

#: Zones differ by so much, and a file is saved somewhat later: nothing closer contradicts.
_ZONES = timedelta(hours=26)
#: How old a fix of the satellites may be.
STALE = timedelta(days=3)
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


def is_there_before(photo: PhotoSaid, when: str) -> bool:
    """Whether a file of the photo had arrived, or been changed or digitized, before that time, whatever the zones."""
    return any(
        item.claim.when is not None and _comes_later(item.claim) and _is_before(item.claim.when, when)
        for item in photo.said
        if may_be_chosen(item.claim) and not _is_never_set(item.claim)
    )


def _comes_later(claim: Claim) -> bool:
    """Whether a claim tells what can only follow the taking of the picture."""
    return claim.is_arrival or claim.source in OF_CHANGE or claim.source in OF_DIGITIZING


def _is_never_set(claim: Claim) -> bool:
    """Whether a file time is the day zero of its format, which archives and devices without a clock give to all they
    hold."""
    return claim.source == "file time" and (claim.when or "") < EARLIEST.isoformat()


def _against(chosen: Local, others: Sequence[Local], world: World) -> Iterator[str]:
    is_fixed = any(item.claim.source == "gps" and apart(item.when, chosen.when) <= _ZONES for item in others)
    for other in others:
        if other is chosen or (is_fixed and _is_later_folder(chosen, other)):
            continue
        if _contradicts(chosen, other, world):
            yield _sentence(chosen, other)


def _is_later_folder(chosen: Local, other: Local) -> bool:
    """Whether a folder is of a later time: one that photos were gathered in for a calendar or an album, where the
    satellites agree with the camera."""
    return other.claim.source == "folder name" and span(chosen.when)[1] <= span(other.when)[0]


def _contradicts(chosen: Local, other: Local, world: World) -> bool:
    if _is_never_set(other.claim):
        return False
    if chosen.claim.source == "iptc newer" and other.claim.source.startswith("xmp"):
        return False  # what was changed later is expected to differ
    return all(_is_against(chosen, other, *pair, world) for pair in _comparable(chosen, other))


def _is_against(chosen: Local, other: Local, mine: str, its: str, world: World) -> bool:
    claim = other.claim
    if mine[:10] == its[:10] or world.weeks.may_be_same(mine, its):  # the former is quick, and nearly always so
        return False
    if claim.source == "gps":
        return _is_out_of_zones(mine, its)
    if claim.source == "folder name":
        return apart(mine, its) > _FOLDER
    if _comes_later(claim):
        return _is_before(its, mine)
    return not _is_one_moment(chosen, other)


def _comparable(chosen: Local, other: Local) -> set[tuple[str, str]]:
    """The pairs of which one should agree: as it really was, or, where the other may come from the same clock (names,
    folders, sidecars and file times are made by it), as the camera wrote it, which a correction does not change."""
    is_independent = other.claim.source == "gps" or (other.claim.is_arrival and other.claim.source != "file time")
    corrected = (chosen.when, other.when)
    return {corrected} if is_independent else {corrected, (chosen.own, other.own)}


def _is_before(earlier: str, later: str) -> bool:
    """Whether a time that ought to be the later one is the earlier, whatever the zones."""
    return span(later)[0] - span(earlier)[1] > _ZONES


def _is_out_of_zones(local: str, fix: str) -> bool:
    """Whether no zone and no stale fix explains the distance of a wall clock from the satellites' time."""
    distance = span(local)[0] - span(fix)[0]
    return not -_ZONES < distance < STALE


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
