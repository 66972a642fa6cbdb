"""Frames as their devices write them: names, folders, Exif and file times. Pure."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from random import Random

from tests.benchmarks.dating.clocks import fault_of, shown
from tests.benchmarks.dating.household import COPIED, HOME, universal
from tests.benchmarks.dating.ledger import Ledger
from tests.benchmarks.dating.values import Exif, Photo
from tests.benchmarks.dating.world import Frame

#: Shares of phone photos with a place, of phone photos that one of the phones writes without its offset, and of
#: folders whose files were copied without their times.
_WITH_PLACE, _WITHOUT_OFFSET, _COPIED = 0.5, 0.15, 0.4


def plain(frame: Frame, ledger: Ledger) -> Photo:
    """The photo as its device wrote it, in the folder where it came to lie."""
    fault = fault_of(frame, ledger.clocks)
    healthy = "healthy phone" if frame.device.is_phone else "healthy camera"
    return Photo(
        path=path_of(frame),
        view=frame.view,
        fault=fault or (f"{healthy} abroad" if frame.zone != HOME else healthy),
        mark="clock" if fault else "settled",
        taken=frame.local,
        file_time=file_time(frame, ledger),
        exif=exif_of(frame, ledger),
    )


def path_of(frame: Frame) -> str:
    """Where the device or its owner put the file; one phone's photos lie in folders by year and month."""
    if frame.device.is_phone:
        folder = f"{frame.local:%Y/%m}" if frame.device.name == "ada" else "camera"
        return f"phone {frame.device.name}/{folder}/{phone_name(frame)}"
    folder = f"{100 + frame.number // 1000}{frame.device.model.upper().replace(' ', '')[:5]:_<5}"
    return f"cameras/{frame.device.name}/{folder}/{frame.device.prefix}{frame.number:04}.JPG"


def phone_name(frame: Frame) -> str:
    """One phone names its files by the wall clock, the other by universal time with thousandths of a second."""
    if frame.device.name == "ben":
        return f"PXL_{frame.utc:%Y%m%d_%H%M%S}{frame.view.scene % 1000:03}.jpg"
    return f"IMG_{frame.local:%Y%m%d_%H%M%S}.jpg"


def exif_of(frame: Frame, ledger: Ledger) -> Exif:
    """Phones write the offset, most photos of theirs a place and the satellites' time; cameras know no zones."""
    own, random = shown(frame, ledger.clocks), Random(f"exif {frame.view}")
    device, date = frame.device, written(own)
    exif = Exif(device.make, device.model, device.serial, date, date, date)
    if device.is_phone:
        has_offset = device.name != "ben" or random.random() >= _WITHOUT_OFFSET
        exif = replace(exif, offset=offset(frame.offset_minutes) if has_offset else "", fraction="417")
    if (device.is_phone and random.random() < _WITH_PLACE) or (device.name == "wrackline" and random.random() < 0.8):
        stale = timedelta(seconds=random.choice((0, 0, 1, 1, 2, 4, 40, 900)))
        exif = replace(exif, gps=frame.utc - stale)
    return exif


def file_time(frame: Frame, ledger: Ledger) -> datetime:
    """When the device wrote the file, or when it was copied, which goes by folders."""
    if Random(f"copied {frame.device.name} {frame.local:%Y%m}").random() < _COPIED:
        return copied(frame.view.scene)
    return frame.utc if frame.device.is_phone else universal(shown(frame, ledger.clocks), HOME)


def copied(number: int) -> datetime:
    """A moment of the afternoon on which everything was copied, universal time."""
    return universal(COPIED, HOME) + timedelta(seconds=number % 3000)


def written(local: datetime) -> str:
    """As Exif writes a date (Exif 2.32, CIPA DC-008)."""
    return f"{local:%Y:%m:%d %H:%M:%S}"


def offset(minutes: int) -> str:
    """ "+01:00", as Exif and XMP write it."""
    return f"{'-' if minutes < 0 else '+'}{abs(minutes) // 60:02}:{abs(minutes) % 60:02}"


#: What makes photos with one fault: takes the ledger and how many photos there should be.
Maker = Callable[[Ledger, int], list[Photo]]
