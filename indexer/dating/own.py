"""The verdict on one photo by what its own files say: which claim is believed, how exact it is, and why. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from indexer.dating.agreement import Local, contradiction
from indexer.dating.corrected import CLOCK_SOURCES, Corrections, corrected, correction_of
from indexer.dating.moments import has_clock, has_day, span
from indexer.dating.offsets import Offsets, devices_of, own_offset, told_offset
from indexer.dating.order import GOOD_REASON, OF_DIGITIZING, SPAN_WORDS, may_be_chosen, rank, weak_reason
from indexer.dating.values import NOTHING_KNOWN, CaptureTime, Correction, PhotoSaid, Said, World
from indexer.dating.words import day_words
from indexer.facts.records import Claim

EARLIEST = date(1990, 1, 1)
#: A scan follows the picture by more than this.
_LATER = timedelta(days=1)
#: The zones in use: UTC-12 to UTC+14 (IANA time zone database).
_WEST, _EAST = timedelta(hours=-12), timedelta(hours=14)


@dataclass(frozen=True, slots=True)
class _Placed:
    """A usable claim at its place among the photo's, on the wall clock; `offset_minutes` is that of its moment."""

    place: int
    said: Said
    local: Local
    offset_minutes: int | None
    correction: Correction | None
    zone_is_guessed: bool = False


def own_time(photo: PhotoSaid, corrections: Corrections, offsets: Offsets, world: World) -> CaptureTime:
    """Choose among the claims of one photo; the earlier one wins among equals."""
    placed = [item for place in range(len(photo.said)) if (item := _placed(photo, place, corrections, offsets, world))]
    if not placed:
        return NOTHING_KNOWN
    chosen = _choose(placed)
    taken = chosen.local.when
    doubt = _doubt(chosen, placed, world)
    return CaptureTime(
        taken=taken,
        fraction=chosen.said.claim.fraction,
        precision=chosen.said.claim.precision,
        offset_minutes=chosen.offset_minutes,
        source=chosen.said.claim.source,
        doubtful=doubt is not None,
        reason=doubt or _good_reason(chosen, placed),
        chosen=chosen.place,
        placed=taken,
        is_arrival=chosen.said.claim.is_arrival,
        is_scan=chosen.said.claim.source in OF_DIGITIZING and doubt is not None,
    )


def _placed(photo: PhotoSaid, place: int, corrections: Corrections, offsets: Offsets, world: World) -> _Placed | None:
    """A claim on the wall clock with its camera's correction; None where it cannot be used."""
    said = photo.said[place]
    claim = said.claim
    if not may_be_chosen(claim) or claim.when is None:
        return None
    if claim.is_utc:
        return _from_utc(photo, place, offsets, world)
    correction = None
    if claim.source in CLOCK_SOURCES:
        correction = correction_of(claim.when, said.file.camera, corrections)
    elif claim.source == "file name" and not claim.is_arrival:
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


def _from_utc(photo: PhotoSaid, place: int, offsets: Offsets, world: World) -> _Placed | None:
    """Universal time by the photo's own zone, else by its neighbours', else by that of home."""
    said = photo.said[place]
    claim = said.claim
    utc = span(claim.when or "")[0]
    offset = own_offset(photo.said)
    if offset is None and not claim.is_arrival:
        offset = offsets.near(devices_of(said.file), utc)
    is_guessed = offset is None and not world.zone_is_told
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
    return _Placed(place, said, Local(claim, when, when), offset, None, is_guessed)


def _choose(placed: Sequence[_Placed]) -> _Placed:
    """The most believed claim, with two departures that the reason tells of."""
    best = min(placed, key=lambda item: (rank(item.said.claim), item.place))
    return _older_than_scan(best, placed) or _finer(best, placed) or best


def _older_than_scan(best: _Placed, placed: Sequence[_Placed]) -> _Placed | None:
    """A name that dates a picture before it was digitized: the print is older than its scan."""
    if best.said.claim.source not in OF_DIGITIZING:
        return None
    scanned = span(best.local.when)[0]
    names = [item for item in placed if item.said.claim.source in ("file name", "folder name")]
    older = [item for item in names if not item.said.claim.is_arrival and span(item.local.when)[1] + _LATER < scanned]
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
    if claim.precision in SPAN_WORDS:
        return f"only the {SPAN_WORDS[claim.precision]} is known"
    if not EARLIEST.isoformat() <= when[:10] <= world.last_day.isoformat():
        return f"a date before {EARLIEST.year} or in the future: was the clock set?"
    if chosen.zone_is_guessed and not _is_any_zone_the_same(claim, world):
        return "the time is universal time and home.timezone is not set: this computer's zone was taken"
    return contradiction(chosen.local, [item.local for item in placed], world)


def _is_borne_out(chosen: _Placed, placed: Sequence[_Placed], world: World) -> bool:
    """Whether a date of digitizing is that of a camera: it is named with it, or something else tells the same week."""
    if chosen.said.claim.source == "exif digitized" and chosen.said.claim.offset_minutes is not None:
        return True
    return any(
        has_day(item.local.when) and world.weeks.may_be_same(item.local.when, chosen.local.when)
        for item in placed
        if item.said.claim.source in ("file name", "folder name", "gps")
    )


def _is_any_zone_the_same(claim: Claim, world: World) -> bool:
    """Whether universal time falls into one album week wherever on earth it was."""
    try:
        utc = datetime.fromisoformat(claim.when or "")
        return world.weeks.is_within_one(utc + _WEST, utc + _EAST)
    except (OverflowError, ValueError):
        return False


def _good_reason(chosen: _Placed, placed: Sequence[_Placed]) -> str:
    reason = GOOD_REASON.get(chosen.said.claim.source, "it is the best that is known")
    best = min(placed, key=lambda item: (rank(item.said.claim), item.place))
    if best is not chosen and best.said.claim.source in OF_DIGITIZING:
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
