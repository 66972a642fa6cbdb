"""Evidence in, capture time out: which claim is believed, how exact it is, and why.

Pure: no disk, no database, no clock.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from indexer.facts.records import Claim, Precision

EARLIEST = date(1990, 1, 1)

#: The order of belief. A modified date and a GPS fix are kept as evidence and never chosen: the one is the time of an
#: edit, the other may be hours old.
ORDER = ("exif original", "exif digitized", "xmp original", "file name", "xmp digitized", "file time")

_GOOD_REASON = {
    "exif original": "the camera wrote it when the picture was taken",
    "exif digitized": "the camera or scanner wrote it when the picture was digitized; no original date is there",
    "xmp original": "the XMP in the file says so; no Exif date is there",
    "file name": "no usable date inside the file; its name carries one",
}

#: Takes a naive universal time; gives the aware wall clock at home.
ToLocal = Callable[[datetime], datetime]


@dataclass(frozen=True, slots=True)
class CaptureTime:
    """The verdict on one photo.

    `taken` is ISO 8601 of reduced precision (local wall clock) or None; `chosen` is the place of the believed claim in
    the sequence given, or None.
    """

    taken: str | None
    fraction: str
    precision: Precision
    offset_minutes: int | None
    source: str
    doubtful: bool
    reason: str
    chosen: int | None


NOTHING_KNOWN = CaptureTime(None, "", "unknown", None, "none", True, "nothing tells when it was taken", None)


def decide(claims: Sequence[Claim], to_local: ToLocal, zone_is_told: bool, tomorrow: date) -> CaptureTime:
    """Choose among the claims about one photo; the earlier one wins among equals.

    `zone_is_told` says whether the home zone was set by the person (a guess makes a time turned from UTC doubtful).
    """
    usable = [place for place, claim in enumerate(claims) if claim.when and claim.source in ORDER]
    if not usable:
        return NOTHING_KNOWN
    chosen = min(usable, key=lambda place: (ORDER.index(claims[place].source), claims[place].is_arrival, place))
    verdict = _verdict(claims[chosen], chosen, to_local, zone_is_told, tomorrow)
    if not verdict.doubtful and _days_of_source(claims, claims[chosen]) > 1:
        return replace(verdict, doubtful=True, reason="its files give different days; the first was taken")
    return verdict


def _days_of_source(claims: Sequence[Claim], chosen: Claim) -> int:
    """How many days the claims of one source name, where a photo has several files."""
    alike = [claim for claim in claims if claim.source == chosen.source and claim.is_arrival == chosen.is_arrival]
    return len({claim.when[:10] for claim in alike if claim.when})


def _verdict(claim: Claim, place: int, to_local: ToLocal, zone_is_told: bool, tomorrow: date) -> CaptureTime:
    when, offset = claim.when or "", claim.offset_minutes
    if claim.is_utc:
        try:
            local = to_local(datetime.fromisoformat(when))
        except (OverflowError, OSError):
            return NOTHING_KNOWN
        offset_is = local.utcoffset()
        offset = int(offset_is.total_seconds() // 60) if offset_is is not None else None
        when = local.replace(tzinfo=None).isoformat(timespec="minutes" if claim.precision == "minute" else "seconds")
    doubt = _doubt(claim, when, zone_is_told, tomorrow)
    return CaptureTime(
        taken=when,
        fraction=claim.fraction,
        precision=claim.precision,
        offset_minutes=offset,
        source=claim.source,
        doubtful=doubt is not None,
        reason=doubt or _GOOD_REASON[claim.source],
        chosen=place,
    )


def _doubt(claim: Claim, when: str, zone_is_told: bool, tomorrow: date) -> str | None:
    """Why a chosen claim should be looked at, or None where it stands."""
    if claim.source == "file time":
        return "only the file's own time is known, which copying changes"
    if claim.source == "xmp digitized":
        return "only the day it was digitized or exported is known"
    if claim.is_arrival:
        return "the name tells the day it arrived, not the day it was taken"
    if claim.precision in ("month", "year"):
        return f"only the {claim.precision} is known"
    if not EARLIEST.isoformat() <= when[:10] <= tomorrow.isoformat():
        return f"a date before {EARLIEST.year} or in the future: was the clock set?"
    if claim.is_utc and not zone_is_told:
        return "the time is universal time and home.timezone is not set: this computer's zone was taken"
    return None
