"""Scans, edits, sidecars, and dates written by other standards. Pure.

A scan whose folder names a month or a year is of a known month and of no known week: open. Where a sidecar and the
photo itself name different weeks, one of them is wrong and nothing says which: open, and true is now the one and now
the other.
"""

from dataclasses import replace
from datetime import datetime, timedelta

from tests.benchmarks.dating.household import HOME, SCANNER, universal
from tests.benchmarks.dating.ledger import Ledger, at_home, by_phone
from tests.benchmarks.dating.plain import copied, exif_of, offset, path_of, written
from tests.benchmarks.dating.values import Exif, Iptc, Mark, Photo, Xmp
from tests.benchmarks.dating.world import Frame

_EDITOR = "Pier Darkroom 3"


def scans_of_a_day(ledger: Ledger, count: int) -> list[Photo]:
    """The day was written on the back of the print, and somebody named the file by it: settled."""
    return [_scan(ledger, f"{day:%Y-%m-%d} at the quay", day, "scan, day in its name", "settled")
            for day in _days_of_old(ledger, count)]  # fmt: skip


def scans_of_a_month(ledger: Ledger, count: int) -> list[Photo]:
    """The month stands in the name of the folder."""
    return [_scan(ledger, f"{day:%Y-%m}/scan{number:04}", day, "scan, month known", "open")
            for number, day in enumerate(_days_of_old(ledger, count), start=1)]  # fmt: skip


def scans_of_a_year(ledger: Ledger, count: int) -> list[Photo]:
    """The year stands in the name of the folder."""
    return [_scan(ledger, f"{day:%Y}/scan{number:04}", day, "scan, year known", "open")
            for number, day in enumerate(_days_of_old(ledger, count), start=301)]  # fmt: skip


def scans_of_no_day(ledger: Ledger, count: int) -> list[Photo]:
    """All that is written is the day of the scan."""
    return [_scan(ledger, f"album/scan{number:04}", day, "scan, nothing known", "open")
            for number, day in enumerate(_days_of_old(ledger, count), start=601)]  # fmt: skip


def edits_dated(ledger: Ledger, count: int) -> list[Photo]:
    """An edit beside its original keeps the original date and has a modified one of weeks later."""
    photos = []
    for frame in ledger.lend(count, lambda frame: by_phone(frame) and at_home(frame)):
        later = _weeks_later(ledger, frame)
        exif = replace(exif_of(frame, ledger), modified=written(later), software=_EDITOR)
        photos.append(_edit(frame, later, "edit, original date kept", "settled", exif))
    return photos


def edits_of_what_is_here(ledger: Ledger, count: int) -> list[Photo]:
    """The editor kept the day of editing alone; the original is here."""
    frames = ledger.lend(count, ledger.is_right)
    return [_undated_edit(ledger, frame, "edit, date lost, original here", "settled") for frame in frames]


def edits_alone(ledger: Ledger, count: int) -> list[Photo]:
    """The same, and the original is gone."""
    frames = ledger.take(count, ledger.is_alone)
    return [_undated_edit(ledger, frame, "edit, date lost, alone", "open") for frame in frames]


def sidecar_alone(ledger: Ledger, count: int) -> list[Photo]:
    """The date stands in the sidecar and nowhere else."""
    photos = []
    for number, frame in enumerate(ledger.take(count, lambda frame: by_phone(frame) and at_home(frame))):
        sidecar = (".jpg.xmp" if number % 2 else ".xmp", _xmp(frame.local, frame.offset_minutes))
        photos.append(_developed(frame, frame.local, "sidecar alone", "settled", sidecar=sidecar))
    return photos


def sidecar_agrees(ledger: Ledger, count: int) -> list[Photo]:
    """Photo and sidecar say the same; the sidecar names the day alone, or no zone."""
    photos = []
    for number, frame in enumerate(ledger.take(count, lambda frame: by_phone(frame) and at_home(frame))):
        text = f"{frame.local:%Y-%m-%d}" if number % 2 else frame.local.isoformat()
        photos.append(_developed(frame, frame.local, "sidecar agrees", "settled", exif_of(frame, ledger),
                                 (".xmp", (("photoshop:DateCreated", text),))))  # fmt: skip
    return photos


def sidecar_contradicts(ledger: Ledger, count: int) -> list[Photo]:
    """Photo and sidecar name weeks that are one to six apart."""
    photos = []
    for number, frame in enumerate(ledger.take(count, lambda frame: by_phone(frame) and at_home(frame))):
        other = frame.local - timedelta(weeks=ledger.random.randint(1, 6), hours=ledger.random.randint(0, 40))
        photos.append(_developed(frame, other if number % 2 else frame.local, "sidecar contradicts", "open",
                                 exif_of(frame, ledger), (".xmp", _xmp(other, frame.offset_minutes))))  # fmt: skip
    return photos


def xmp_alone(ledger: Ledger, count: int) -> list[Photo]:
    """Exported without Exif, the date in the XMP packet inside the file."""
    frames = ledger.take(count, ledger.is_right)
    return [replace(_developed(frame, frame.local, "XMP alone", "settled"),
                    xmp=_xmp(frame.local, frame.offset_minutes)) for frame in frames]  # fmt: skip


def iptc_alone(ledger: Ledger, count: int) -> list[Photo]:
    """Exported without Exif, the date in the IPTC block, with a digest that agrees or none."""
    photos = []
    for number, frame in enumerate(ledger.take(count, ledger.is_right)):
        block = _iptc(frame.local, frame.offset_minutes)
        digest = replace(block, digest="matching") if number % 2 else block
        photos.append(replace(_developed(frame, frame.local, "IPTC alone", "settled"), iptc=digest))
    return photos


def iptc_newer(ledger: Ledger, count: int) -> list[Photo]:
    """The IPTC date was put right by a program that does not know XMP, so the digest is stale: then IPTC holds
    (Metadata Working Group, Guidelines for Handling Image Metadata 2.0, 2010)."""
    photos = []
    for frame in ledger.take(count, ledger.is_right):
        old = frame.local - timedelta(days=ledger.random.randint(8, 40))
        block = replace(_iptc(frame.local, frame.offset_minutes), digest="stale")
        photo = _developed(frame, frame.local, "IPTC newer than XMP", "settled")
        photos.append(replace(photo, xmp=_xmp(old, frame.offset_minutes), iptc=block))
    return photos


def _days_of_old(ledger: Ledger, count: int) -> list[datetime]:
    return [datetime(1991 + ledger.random.randrange(9), ledger.random.randint(1, 12), ledger.random.randint(1, 28), 12)  # noqa: DTZ001
            for _ in range(count)]  # fmt: skip


def _scan(ledger: Ledger, name: str, taken: datetime, fault: str, mark: Mark) -> Photo:
    """Exif names the scanner and the day of scanning as the day it was digitized, and no other."""
    day = datetime(2026, 2, ledger.random.choice((7, 8, 21)), 14)  # noqa: DTZ001
    scanned = day + timedelta(seconds=ledger.random.randrange(9_000))
    exif = Exif(SCANNER.make, SCANNER.model, digitized=written(scanned), modified=written(scanned))
    return Photo(f"scans/{name}.jpg", ledger.new_view("", "scan"), fault, mark, taken, universal(scanned, HOME), exif)


def _undated_edit(ledger: Ledger, frame: Frame, fault: str, mark: Mark) -> Photo:
    later = _weeks_later(ledger, frame)
    return _edit(frame, later, fault, mark, Exif(modified=written(later), software=_EDITOR))


def _edit(frame: Frame, later: datetime, fault: str, mark: Mark, exif: Exif) -> Photo:
    stem = path_of(frame).rpartition("/")[2].rpartition(".")[0]
    dated = stem if exif.original else f"quay {frame.view.tag}"
    view = replace(frame.view, change="saved again")
    xmp = (("xmp:ModifyDate", later.isoformat()), ("xmp:CreatorTool", _EDITOR))
    return Photo(f"edited/{dated}_edit.jpg", view, fault, mark, frame.local, universal(later, HOME), exif, xmp)


def _weeks_later(ledger: Ledger, frame: Frame) -> datetime:
    return frame.local + timedelta(days=ledger.random.randint(8, 60), minutes=ledger.random.randint(0, 900))


def _developed(
    frame: Frame,
    taken: datetime,
    fault: str,
    mark: Mark,
    exif: Exif | None = None,
    sidecar: tuple[str, Xmp] | None = None,
) -> Photo:
    """In a folder of developed photos, under a name without a date."""
    path = f"developed/view {frame.view.tag}.jpg"
    return Photo(path, frame.view, fault, mark, taken, copied(frame.view.scene), exif, sidecar=sidecar)


def _xmp(local: datetime, minutes: int) -> Xmp:
    """Capture time with its zone, and a later day on which the packet was written."""
    return (("exif:DateTimeOriginal", local.isoformat() + offset(minutes)),
            ("xmp:ModifyDate", (local + timedelta(days=30)).isoformat()))  # fmt: skip


def _iptc(local: datetime, minutes: int) -> Iptc:
    return Iptc(f"{local:%Y%m%d}", f"{local:%H%M%S}{offset(minutes).replace(':', '')}")
