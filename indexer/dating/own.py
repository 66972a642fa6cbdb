"""The verdict on one photo by what its own files say: which claim is believed, how exact it is, and why. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from indexer.dating.agreement import Local, contradiction
from indexer.dating.corrected import CLOCK_SOURCES, Corrections, corrected, correction_of
from indexer.dating.moments import has_clock, has_day, moved, span
from indexer.dating.offsets import ANY, Offsets, devices_of, own_offset, told_offset
from indexer.dating.order import CALLED, EARLIEST, GOOD_REASON, OF_DIGITIZING, may_be_chosen, rank, weak_reason
from indexer.dating.values import NOTHING_KNOWN, CaptureTime, Correction, PhotoSaid, Said, World
from indexer.dating.words import day_words
from indexer.facts.records import Claim

#: A scan follows the picture by more than this.
_LATER = timedelta(days=1)
_FIRST_MOMENT = datetime(EARLIEST.year, EARLIEST.month, EARLIEST.day)  # noqa: DTZ001 - a wall clock
#: The zones in use: UTC-12 to UTC+14 (IANA time zone database).
_WEST, _EAST = timedelta(hours=-12), timedelta(hours=14)


@dataclass(frozen=True, slots=True)
class _Placed:
    """A usable claim at its place among the photo's, on the wall clock; `offset_minutes` is that of its moment.

    `zone_elsewhere`, minutes east: where some other device was that day, if the zone of home was taken for want of a
    better one.
    """

    place: int
    said: Said
    local: Local
    offset_minutes: int | None
    correction: Correction | None
    zone_is_guessed: bool = False
    zone_elsewhere: int | None = None


def own_time(photo: PhotoSaid, corrections: Corrections, offsets: Offsets, world: World) -> CaptureTime:
    """Choose among the claims of one photo; the earlier one wins among equals."""
    zone = own_offset(photo.said)
    places = range(len(photo.said))
    placed = [item for place in places if (item := _placed(photo, place, zone, corrections, offsets, world))]
    if not placed:
        return NOTHING_KNOWN
    chosen = _choose(placed, world)
    taken = chosen.local.when
    doubt = _doubt(chosen, placed, world)
    return CaptureTime(
        taken=taken,
        fraction=chosen.said.claim.fraction,
        precision=chosen.said.claim.precision,
        offset_minutes=chosen.offset_minutes,
        source=chosen.said.claim.source,
        doubtful=doubt is not None,
        reason=doubt or _good_reason(chosen, placed, world),
        chosen=chosen.place,
        placed=taken,
        is_arrival=chosen.said.claim.is_arrival,
        is_scan=chosen.said.claim.source in OF_DIGITIZING and doubt is not None,
    )


def _placed(
    photo: PhotoSaid, place: int, zone: int | None, corrections: Corrections, offsets: Offsets, world: World
) -> _Placed | None:
    """A claim on the wall clock with its camera's correction; None where it cannot be used. `zone`: the photo's own."""
    said = photo.said[place]
    claim = said.claim
    if not may_be_chosen(claim) or claim.when is None:
        return None
    if claim.is_utc:
        return _from_utc(said, place, zone, offsets, world)
    correction = None
    if claim.source in CLOCK_SOURCES:
        correction = correction_of(claim.when, said.file.camera, corrections)
    elif claim.source == "file name" and not claim.is_arrival and said.file.camera in corrections:
        correction = correction_of(_own_clock(photo, said), said.file.camera, corrections)
    when = corrected(claim.when, correction)
    if when is None:
        return None
    return _Placed(place, said, Local(claim, claim.when, when), told_offset(claim), correction)


def _own_clock(photo: PhotoSaid, named: Said) -> str | None:
    """What the camera wrote on its clock into the same file: a name of the same day carries that clock too."""
    for item in photo.said:
        own, name = item.claim.when, named.claim.when
        if item.file.id == named.file.id and item.claim.source == "exif original" and own and name:
            return own if own[:10] == name[:10] else None
    return None


def _from_utc(said: Said, place: int, zone: int | None, offsets: Offsets, world: World) -> _Placed | None:
    """Universal time by the photo's own zone, else by its neighbours', else by that of home."""
    claim, offset = said.claim, zone
    utc = span(claim.when or "")[0]
    if offset is None and not claim.is_arrival:
        offset = offsets.near(devices_of(said.file), utc)
    is_guessed = offset is None and not world.zone_is_told
    elsewhere = offsets.near([ANY], utc) if offset is None else None
    try:
        if offset is None:
            local = world.to_local(utc)
            east = local.utcoffset()
            offset = int(east.total_seconds() // 60) if east is not None else None
            moment = local.replace(tzinfo=None)
        else:
            moment = utc + timedelta(minutes=offset)
    except (OverflowError, OSError):
        return None
    when = moment.isoformat(timespec="minutes" if claim.precision == "minute" else "seconds")
    if not has_clock(claim.when):
        when = claim.when or ""
    return _Placed(place, said, Local(claim, when, when), offset, None, is_guessed, elsewhere)


def _choose(placed: Sequence[_Placed], world: World) -> _Placed:
    """The most believed claim, with three departures that the reason tells of."""
    best = min(placed, key=lambda item: (_is_out_of_the_question(item, world), rank(item.said.claim), item.place))
    return _older_than_scan(best, placed) or _finer(best, placed) or best


def _is_out_of_the_question(item: _Placed, world: World) -> int:
    """1 for what cannot be when it was taken: any other claim of capture comes before it; 2 for last resorts."""
    return 2 if weak_reason(item.said.claim) else int(not _is_possible(item.local.when, world))


def _is_possible(when: str, world: World) -> bool:
    """Whether a photo can have been taken then: no file is from before 1990, and none from after tomorrow."""
    first, end = span(when)
    return end > _FIRST_MOMENT and first.date() <= world.last_day


def _older_than_scan(best: _Placed, placed: Sequence[_Placed]) -> _Placed | None:
    """A name that dates a picture before it was digitized: the print is older than its scan."""
    if best.said.claim.source not in OF_DIGITIZING:
        return None
    scanned = span(best.local.when)[0]
    names = [item for item in placed if item.said.claim.source in ("file name", "folder name")]
    older = [item for item in names if not item.said.claim.is_arrival and scanned - span(item.local.when)[1] > _LATER]
    return min(older, key=lambda item: (rank(item.said.claim), item.place), default=None)


def _finer(best: _Placed, placed: Sequence[_Placed]) -> _Placed | None:
    """A less believed claim that agrees with the best one and names the day, or the minute, where that one does not."""
    if has_clock(best.local.when):
        return None
    first, end = span(best.local.when)
    knows = has_clock if has_day(best.local.when) else has_day
    finer = [
        item
        for item in placed
        if not weak_reason(item.said.claim) and item.said.claim.source not in OF_DIGITIZING
        if knows(item.local.when) and first <= span(item.local.when)[0] and span(item.local.when)[1] <= end
    ]
    return min(finer, key=lambda item: (rank(item.said.claim), item.place), default=None)


def _doubt(chosen: _Placed, placed: Sequence[_Placed], world: World) -> str | None:
    """Why a chosen claim should be looked at, or None where it stands."""
    claim, when = chosen.said.claim, chosen.local.when
    if weak := weak_reason(claim):
        return weak
    if claim.source in OF_DIGITIZING and not _is_borne_out(chosen, placed, world):
        return "only the day it was digitized is known: that of a scan, where it was taken on paper"
    if claim.precision in ("month", "year"):
        return f"only the {claim.precision} is known"
    if not _is_possible(when, world):
        if claim.source in ("file name", "folder name") and when < EARLIEST.isoformat():
            return f"a day before {EARLIEST.year}, told by a name alone"
        return f"a date before {EARLIEST.year} or in the future: was the clock set?"
    if chosen.zone_is_guessed and not _is_any_zone_the_same(claim, world):
        return "the time is universal time and home.timezone is not set: this computer's zone was taken"
    if chosen.zone_elsewhere is not None:
        there = moved(claim.when or "", chosen.zone_elsewhere * 60)
        if world.weeks.week_of(there) != world.weeks.week_of(when):
            return "the time is universal time, and another device was in another zone that day: the week hangs on it"
    return contradiction(chosen.local, [item.local for item in placed if _may_contradict(item, world)], world)


def _may_contradict(item: _Placed, world: World) -> bool:
    """A clock that says what cannot be contradicts nothing; a name, which a person may have given, does."""
    is_name = item.said.claim.source in ("file name", "folder name")
    return is_name or bool(weak_reason(item.said.claim)) or _is_possible(item.local.when, world)


def _is_borne_out(chosen: _Placed, placed: Sequence[_Placed], world: World) -> bool:
    """Whether a date of digitizing is that of a camera: a zone stands beside it, or its name or the satellites tell the
    same week. A folder does not: scans are filed by the day they were made as photos are."""
    if chosen.said.claim.source == "exif digitized" and chosen.said.claim.offset_minutes is not None:
        return True
    return any(
        has_day(item.local.when) and world.weeks.may_be_same(item.local.when, chosen.local.when)
        for item in placed
        if item.said.claim.source in ("file name", "gps") and not item.said.claim.is_arrival
    )


def _is_any_zone_the_same(claim: Claim, world: World) -> bool:
    """Whether universal time falls into one album week wherever on earth it was."""
    try:
        utc = datetime.fromisoformat(claim.when or "")
        return world.weeks.is_within_one(utc + _WEST, utc + _EAST)
    except (OverflowError, ValueError):
        return False


def _good_reason(chosen: _Placed, placed: Sequence[_Placed], world: World) -> str:
    reason = GOOD_REASON.get(chosen.said.claim.source, "it is the best that is known")
    best = min(placed, key=lambda item: (rank(item.said.claim), item.place))
    if best is not chosen and not _is_possible(best.local.when, world):
        called = CALLED[best.said.claim.source]
        reason = f"{called} says {day_words(best.local.when)}, which cannot be; {CALLED[chosen.said.claim.source]} can"
    elif best is not chosen and best.said.claim.source in OF_DIGITIZING:
        reason = f"its name dates it before it was digitized ({day_words(best.local.when)})"
    elif best is not chosen:
        reason = "the most exact of the dates that agree"
    if chosen.correction:
        reason += ", corrected by what you told of its clock"
    elif chosen.said.claim.is_utc and not chosen.zone_is_guessed:
        reason += ", in universal time, turned to the clock of the place"
    return reason


def with_doubt(verdict: CaptureTime, reason: str) -> CaptureTime:
    """The verdict, to be looked at; a doubt that it has already stays the first."""
    return verdict if verdict.doubtful else replace(verdict, doubtful=True, reason=reason)
