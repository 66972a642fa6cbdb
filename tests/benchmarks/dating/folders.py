"""Photos dated by their folders or names, photos of screens, guests' photos, and files that lie twice. Pure."""

from dataclasses import replace
from datetime import datetime, timedelta

from tests.benchmarks.dating.household import GUEST, HOME, universal
from tests.benchmarks.dating.ledger import Ledger, at_home, by_phone
from tests.benchmarks.dating.plain import copied, offset, plain, written
from tests.benchmarks.dating.values import Exif, Photo
from tests.benchmarks.dating.world import Frame

_DAYS = ("kite day", "at the quay", "garden", "market")


def dated_folder(ledger: Ledger, count: int) -> list[Photo]:
    """Without metadata, in a folder that is named by the day: settled."""
    return [
        Photo(f"days/{_folder(frame.local)}/photo ({frame.view.tag}).jpg", frame.view, "dated folder",
              "settled", frame.local, copied(frame.view.scene))
        for frame in ledger.take(count, lambda frame: at_home(frame) and ledger.is_right(frame))
    ]  # fmt: skip


def folder_of_the_first_day(ledger: Ledger, count: int) -> list[Photo]:
    """A folder named by the first day of some, with photos of a later day whose Exif is whole: settled."""
    photos = []
    for frame in ledger.take(
        count, lambda frame: by_phone(frame) and at_home(frame) and frame.local.weekday() in (0, 6)
    ):
        first = frame.local - timedelta(days=ledger.random.randint(1, 2))
        name = plain(frame, ledger).path.rpartition("/")[2]
        photos.append(replace(plain(frame, ledger), path=f"days/{_folder(first)}/{name}", fault="folder of days"))
    return photos


def month_folder(ledger: Ledger, count: int) -> list[Photo]:
    """Without metadata, in a folder of a month: open."""
    return [
        Photo(f"saved/{frame.local:%Y/%m}/saved {frame.view.tag}.jpg", frame.view, "month in its folder",
              "open", frame.local, copied(frame.view.scene))
        for frame in ledger.take(count, ledger.is_alone)
    ]  # fmt: skip


def copied_today(ledger: Ledger, count: int) -> list[Photo]:
    """Renamed and copied long after; Exif is whole."""
    photos = []
    for frame in ledger.take(count, by_phone):
        path = f"from old laptop/harbour {frame.view.tag}.jpg"
        photo = replace(plain(frame, ledger), path=path, fault="copied today", file_time=copied(frame.view.scene))
        photos.append(photo)
    return photos


def lies_twice(ledger: Ledger, count: int) -> list[Photo]:
    """The same bytes in a second place, under a name without a date, copied long after: one photo."""
    return [replace(plain(frame, ledger), fault="lies twice",
                    also_at=(f"from old laptop/copy {frame.view.tag}.jpg",))
            for frame in ledger.take(count, lambda frame: by_phone(frame))]  # fmt: skip


def screenshots(ledger: Ledger, count: int) -> list[Photo]:
    """Named by the wall clock in one of two ways, without metadata."""
    photos = []
    for number in range(count):
        taken = _moment(ledger)
        hour = taken.hour % 12 or 12
        name = (
            f"Screenshot_{taken:%Y%m%d-%H%M%S}.png"
            if number % 2
            else (f"Screenshot {taken:%Y-%m-%d} at {hour}.{taken:%M.%S}\u202f{'PM' if taken.hour >= 12 else 'AM'}.png")
        )
        view = ledger.new_view("", "screen")
        photos.append(Photo(f"screenshots/{name}", view, "screenshot", "settled", taken, copied(view.scene)))
    return photos


def guests(ledger: Ledger, count: int) -> list[Photo]:
    """Sent whole by a guest, with the metadata of the guest's phone."""
    photos = []
    for _ in range(count):
        taken, view = _moment(ledger), ledger.new_view("guest")
        ahead = round((taken - universal(taken, HOME)).total_seconds() / 60)
        exif = Exif(GUEST.make, GUEST.model, "", *(written(taken),) * 3, offset=offset(ahead))
        photos.append(Photo(f"received/IMG_{taken:%Y%m%d_%H%M%S}.jpg", view, "guest's photo, whole", "settled", taken,
                            copied(view.scene), exif))  # fmt: skip
    return photos


def _folder(day: datetime) -> str:
    return f"{day:%Y-%m-%d} {_DAYS[day.day % len(_DAYS)]}"


def _moment(ledger: Ledger) -> datetime:
    """Within the hours after one of the household's photos at home."""
    frames: list[Frame] = [frame for frame in ledger.world.frames if at_home(frame) and frame.local.hour < 21]
    return ledger.random.choice(frames).local + timedelta(seconds=ledger.random.randint(600, 9_000))
