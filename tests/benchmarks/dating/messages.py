"""Photos that lost what was written in them: sent by message, saved by programs that keep nothing, cut for printing.
Pure.

Where the original is in the library, the copy is settled by it. Where it is not, all that is known is the day on which
the message came, which decides nothing: open, also where that day happens to lie in the right week.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from tests.benchmarks.dating.household import HOME, monday_of, universal, wall
from tests.benchmarks.dating.ledger import Ledger, at_home, by_phone
from tests.benchmarks.dating.plain import copied, exif_of, path_of, phone_name
from tests.benchmarks.dating.values import Exif, Mark, Photo, View
from tests.benchmarks.dating.world import Frame


def sent_from_here(ledger: Ledger, count: int) -> list[Photo]:
    """Sent on the same day or the next, within the week."""
    frames = ledger.lend(count, lambda frame: by_phone(frame) and frame.local.weekday() < 5)
    return [_sent(frame, _later(ledger, frame, 30 * 3600), "message, original here") for frame in frames]


def sent_of_wrong_clocks(ledger: Ledger, count: int) -> list[Photo]:
    """The original is here and its camera's clock is wrong: the copy is right when that is."""
    frames = ledger.lend(count, lambda frame: not ledger.is_right(frame))
    fault = "message, original here by a wrong clock"
    return [replace(_sent(frame, _later(ledger, frame, 30 * 3600), fault), mark="clock") for frame in frames]


def sent_of_a_view_seen_often(ledger: Ledger, count: int) -> list[Photo]:
    """The original is here, and others that show the same view in other weeks."""
    frames = ledger.lend(count, ledger.is_right, again=True)
    fault = "message of a view seen often, original here"
    return [_sent(frame, _later(ledger, frame, 30 * 3600), fault) for frame in frames]


def sent_the_next_week(ledger: Ledger, count: int) -> list[Photo]:
    """Taken at the end of a week, come with the next one: some minutes after midnight, some days later."""
    late = ledger.lend(count // 2, lambda frame: by_phone(frame) and _is_sunday_night(frame))
    frames = late + ledger.lend(count - len(late), lambda frame: by_phone(frame) and frame.local.weekday() >= 5)
    fault = "message over the week's edge, original here"
    return [_sent(frame, _in_next_week(ledger, frame.local), fault) for frame in frames]


def received(ledger: Ledger, count: int) -> list[Photo]:
    """What others sent: nobody here has the original."""
    return [_received(ledger, timedelta(hours=ledger.random.uniform(0, 30)), "message alone") for _ in range(count)]


def received_near_midnight(ledger: Ledger, count: int) -> list[Photo]:
    """Taken late on a Sunday, come early on the Monday after."""
    photos = []
    for _ in range(count):
        monday = _some_day(ledger) + timedelta(days=7)
        taken = datetime.combine(monday_of(monday.date()), datetime.min.time()) - timedelta(
            minutes=ledger.random.randint(5, 70)
        )
        photos.append(_message(ledger.new_view("other", "messaged"), taken, _in_next_week(ledger, taken),
                               "message alone over the week's edge", "open"))  # fmt: skip
    return photos


def numbered(photos: Sequence[Photo]) -> Iterator[Photo]:
    """The same photos, the messages of each day with their numbers in the order in which they came."""
    came: Counter[str] = Counter()
    for photo in sorted(photos, key=lambda photo: (photo.file_time, photo.path, photo.view.scene, photo.view.tag)):
        if photo.path.endswith("-WA"):
            came[photo.path] += 1
            photo = replace(photo, path=f"{photo.path}{came[photo.path] - 1:04}.jpg")
        yield photo


def stripped_original_here(ledger: Ledger, count: int) -> list[Photo]:
    """Saved again by a program that keeps no metadata, under a name that says nothing."""
    frames = ledger.lend(count, ledger.is_right)
    return [_nameless(frame, View(*_shown(frame), "saved again"), "stripped, original here", "settled")
            for frame in frames]  # fmt: skip


def cut_for_printing(ledger: Ledger, count: int) -> list[Photo]:
    """Cut to the form of a print and saved without metadata; the original is here."""
    frames = ledger.lend(count, ledger.is_right)
    return [_nameless(frame, View(*_shown(frame), "print"), "cut for printing, original here", "settled")
            for frame in frames]  # fmt: skip


def stripped_alone(ledger: Ledger, count: int) -> list[Photo]:
    """The same where the original is gone, and nothing else shows the scene."""
    frames = ledger.take(count, ledger.is_alone)
    return [_nameless(frame, View(*_shown(frame), "saved again"), "stripped alone", "open") for frame in frames]


def only_file_time(ledger: Ledger, count: int) -> list[Photo]:
    """No metadata, and a file time that was not changed: nobody can tell that it was not. Open."""
    frames = ledger.take(count, lambda frame: at_home(frame) and ledger.is_alone(frame))
    return [replace(_nameless(frame, frame.view, "file time only", "open"), file_time=frame.utc) for frame in frames]


def utc_name_at_home(ledger: Ledger, count: int) -> list[Photo]:
    """One phone's names are universal time; all else was stripped. Half of them near midnight."""
    late = ledger.take(count // 2, lambda frame: _is_bens(frame) and at_home(frame) and frame.local.hour in (23, 0))
    rest = ledger.take(count - len(late), lambda frame: _is_bens(frame) and at_home(frame))
    return [_renamed(frame, f"exported/{phone_name(frame)}", "UTC name at home") for frame in late + rest]


def epoch_name(ledger: Ledger, count: int) -> list[Photo]:
    """Named by the milliseconds since 1970, universal time; all else was stripped."""
    photos = []
    for frame in ledger.take(count, lambda frame: frame.device.name == "ada" and at_home(frame)):
        milliseconds = round((frame.utc - datetime(1970, 1, 1)).total_seconds()) * 1000 + 318  # noqa: DTZ001
        photos.append(_renamed(frame, f"exported/{milliseconds}.jpg", "epoch name"))
    return photos


def utc_name_abroad(ledger: Ledger, count: int) -> list[Photo]:
    """Abroad a program threw the dates away and kept the camera; others of that phone and day have their offset."""
    taken: list[Frame] = []
    for _ in range(count):
        for frame in ledger.take(1, lambda frame: not at_home(frame) and bool(_telling(frame, ledger))):
            ledger.keep(_telling(frame, ledger))
            taken.append(frame)
    return [replace(_renamed(frame, path_of(frame), "UTC name abroad"),
                    exif=Exif(frame.device.make, frame.device.model)) for frame in taken]  # fmt: skip


def _telling(frame: Frame, ledger: Ledger) -> list[Frame]:
    """The other photos that this phone, if it is one with such names, took on that day, universal and local, and that
    keep their offset."""
    if not _is_bens(frame):
        return []
    return [
        other
        for other in ledger.left()
        if other.device == frame.device and other != frame and exif_of(other, ledger).offset
        and other.local.date() == frame.local.date() and other.utc.date() == frame.utc.date()
    ]  # fmt: skip


def _shown(frame: Frame) -> tuple[int, str, int]:
    return frame.view.scene, frame.view.eye, frame.view.frame


def _is_bens(frame: Frame) -> bool:
    return frame.device.name == "ben"


def _is_sunday_night(frame: Frame) -> bool:
    return frame.local.weekday() == 6 and frame.local.hour >= 22 and at_home(frame)


def _renamed(frame: Frame, path: str, fault: str) -> Photo:
    return Photo(path, frame.view, fault, "settled", frame.local, copied(frame.view.scene))


def _nameless(frame: Frame, view: View, fault: str, mark: Mark) -> Photo:
    words = ("picture", "for the wall", "nice one", "untitled")
    path = f"from old laptop/{words[view.scene % 4]} ({view.tag}).jpg"
    return Photo(path, view, fault, mark, frame.local, copied(view.scene))


def _sent(frame: Frame, arrival: datetime, fault: str) -> Photo:
    return _message(View(*_shown(frame), "messaged"), frame.local, arrival, fault, "settled")


def _received(ledger: Ledger, delay: timedelta, fault: str) -> Photo:
    taken = _some_day(ledger)
    return _message(ledger.new_view("other", "messaged"), taken, taken + delay, fault, "open")


def _message(view: View, taken: datetime, arrival: datetime, fault: str, mark: Mark) -> Photo:
    """Named by the day on which it came (`numbered` adds the number); its file time is its arrival."""
    path = f"messages/IMG-{arrival:%Y%m%d}-WA"
    return Photo(path, view, fault, mark, taken, universal(arrival, HOME))


def _later(ledger: Ledger, frame: Frame, seconds: int) -> datetime:
    """The wall clock at home when it came."""
    return wall(frame.utc + timedelta(seconds=ledger.random.randint(60, seconds)))


def _in_next_week(ledger: Ledger, taken: datetime) -> datetime:
    """A little or up to two days after the next week began."""
    monday = datetime.combine(monday_of(taken.date()) + timedelta(days=7), datetime.min.time())
    return monday + timedelta(minutes=ledger.random.choice((4, 11, 35, 480, 1_500, 2_800)))


def _some_day(ledger: Ledger) -> datetime:
    """A time of the day on a day on which something happened at home."""
    frame = ledger.random.choice([frame for frame in ledger.world.frames if at_home(frame)])
    return frame.local.replace(hour=ledger.random.randint(8, 22), minute=ledger.random.randint(0, 59))
