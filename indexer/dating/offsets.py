"""The zone that a device was in: from its own offsets, and from its photos of the same day. Pure."""

import re
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from indexer.dating.moments import has_clock
from indexer.dating.order import OF_CHANGE
from indexer.dating.values import FilePlace, PhotoSaid, Said
from indexer.facts.records import Claim

#: A neighbour's zone holds for so long before and after its photo: "that day".
NEAR = timedelta(hours=18)
#: The widest zones in use (IANA time zone database), and the steps in which zones lie.
_WIDEST, _STEP = timedelta(hours=14), timedelta(minutes=15)
#: How far a phone's two ways of writing one moment lie apart: names are made when the file is saved.
_SAVING = timedelta(minutes=2)

_LETTERS = re.compile(r"\D*")

#: A device: a camera by its name, or files that are named alike in one folder.
Device = tuple[str, ...]
#: Stands for all of them.
ANY: Device = ()


@dataclass(slots=True)
class Offsets:
    """Known zones by device: (universal time, minutes east), sorted."""

    known: dict[Device, list[tuple[datetime, int]]] = field(default_factory=dict)

    def near(self, devices: Iterable[Device], utc: datetime) -> int | None:
        """The zone, in minutes east, of the device's photo nearest in time, that day; None where there is none."""
        for device in devices:
            if (found := self._nearest(device, utc)) is not None:
                return found
        return None

    def _nearest(self, device: Device, utc: datetime) -> int | None:
        rows = self.known.get(device, [])
        place = bisect_left(rows, (utc, -10_000))
        close = [(abs(moment - utc), offset) for moment, offset in rows[max(place - 1, 0) : place + 1]]
        distance, offset = min(close, default=(timedelta.max, 0))
        return offset if distance <= NEAR else None


def known_offsets(photos: Iterable[PhotoSaid]) -> Offsets:
    """The zones that an archive tells of."""
    known: defaultdict[Device, list[tuple[datetime, int]]] = defaultdict(list)
    for photo in photos:
        for utc, offset, file in _told(photo):
            for device in (ANY, *devices_of(file)):
                known[device].append((utc, offset))
    for rows in known.values():
        rows.sort()
    return Offsets(dict(known))


def devices_of(file: FilePlace) -> Iterator[Device]:
    """The devices that a file may come from, the surest first."""
    if file.camera.make or file.camera.model:
        yield (file.camera.make, file.camera.model, file.camera.serial)
    letters = _LETTERS.match(file.name)
    if letters and letters[0]:
        yield (file.folder, letters[0])


def own_offset(said: Iterable[Said]) -> int | None:
    """The zone that a photo tells of itself: written beside a date, or the step from universal time.

    The zone of a later change is that of the one who changed it.
    """
    claims = [item.claim for item in said if item.claim.when]
    moments = {claim.when for claim in claims if claim.source not in OF_CHANGE}
    written = (
        told_offset(claim)
        for claim in claims
        if not claim.is_utc and (claim.source not in OF_CHANGE or claim.when in moments)
    )
    offset = next((minutes for minutes in written if minutes is not None), None)
    if offset is not None:
        return offset
    local = next(
        (claim.when for claim in claims if claim.source == "exif original" and claim.precision == "second"), None
    )
    utc = next(
        (claim.when for claim in claims if claim.source == "file name" and _is_moment(claim.is_utc, claim.precision)),
        None,
    )
    return step_between(utc, local) if local and utc else None


def told_offset(claim: Claim) -> int | None:
    """The zone written with a date. IPTC's +0000 is none: many writers put it for want of a zone (common practice)."""
    return None if claim.source.startswith("iptc") and claim.offset_minutes == 0 else claim.offset_minutes


def step_between(utc: str, local: str) -> int | None:
    """Minutes east, where a wall clock and a universal time can be of one moment; None where they cannot, or where one
    of them has no clock time."""
    if not (has_clock(utc) and has_clock(local)):
        return None
    difference = datetime.fromisoformat(local) - datetime.fromisoformat(utc)
    rounded = round(difference / _STEP) * _STEP
    if abs(rounded) > _WIDEST or abs(difference - rounded) > _SAVING:
        return None
    return int(rounded.total_seconds() // 60)


def _is_moment(is_utc: bool, precision: str) -> bool:
    return is_utc and precision == "second"


def _told(photo: PhotoSaid) -> Iterator[tuple[datetime, int, FilePlace]]:
    """(universal time, minutes east, file) of a photo whose own date tells the zone."""
    offset = own_offset(photo.said)
    if offset is None:
        return
    for item in photo.said:
        claim = item.claim
        if claim.when and claim.source == "exif original" and claim.precision == "second":
            try:
                yield datetime.fromisoformat(claim.when) - timedelta(minutes=offset), offset, item.file
            except OverflowError:
                continue
