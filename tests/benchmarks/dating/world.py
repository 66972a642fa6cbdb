"""What happened: occasions, the scenes seen there, and who photographed them when. Pure, and the same for a seed.

Frames are the truth: nothing has been done to any of them yet.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from random import Random

from tests.benchmarks.dating import household
from tests.benchmarks.dating.household import HOME, Device, monday_of, universal, zone_on
from tests.benchmarks.dating.values import View


@dataclass(frozen=True, slots=True)
class Extent:
    """How much happens: occasions of an ordinary week, moments of an occasion (the least and the most of each), and the
    share of the full number of photos of every fault."""

    occasions: tuple[int, int]
    moments: tuple[int, int]
    faults: float


FULL, SHORT = Extent((2, 4), (1, 3), 1.0), Extent((2, 3), (1, 1), 0.4)

#: The share of what one device sees alone at home that is one of few views seen again and again: the garden, the quay.
_SEEN_AGAIN = 0.05


@dataclass(frozen=True, slots=True)
class Occasion:
    """Something worth photographing: when it begins (wall clock), where, and which devices are there."""

    start: datetime
    zone: str
    devices: tuple[Device, ...]


@dataclass(frozen=True, slots=True)
class Frame:
    """One photo as it was taken: by what, when (wall clock where the household was), and what it shows. `occasion`
    counts them; `number` is the camera's own counter, 0 for phones; `is_shared`: another device saw the scene too;
    `is_again`: the scene is one that is seen week after week."""

    device: Device
    local: datetime
    zone: str
    view: View
    occasion: int
    number: int = 0
    is_shared: bool = False
    is_again: bool = False

    @property
    def utc(self) -> datetime:
        return universal(self.local, self.zone)

    @property
    def offset_minutes(self) -> int:
        return round((self.local - self.utc).total_seconds() / 60)

    @property
    def week(self) -> date:
        return monday_of(self.local.date())


@dataclass(frozen=True, slots=True)
class World:
    """All frames in the order of time, and the weeks of one camera's second empty battery."""

    frames: tuple[Frame, ...]
    devices: tuple[Device, ...]
    battery_week: date


def happen(seed: int, extent: Extent) -> World:
    """The world of a seed."""
    random = Random(f"world {seed}")
    pellick = random.choice((household.PELLICK, household.PELLICK_IN_AUTUMN))
    devices = (household.ADA, household.BEN, household.TARN, household.HARBOUR, household.COMPACT, household.DUNMERE,
               pellick, household.WRACKLINE)  # fmt: skip
    battery_week = household.FIRST + timedelta(weeks=random.randint(27, 33))
    taking = _Taking(random, devices, extent, iter(range(seed * 100_000, (seed + 1) * 100_000)))
    occasions = [*taking.ordinary(), *taking.abroad(), *taking.special(battery_week)]
    occasions.sort(key=lambda occasion: occasion.start)
    frames = [frame for place, occasion in enumerate(occasions) for frame in taking.frames(occasion, place)]
    frames.sort(key=lambda frame: (frame.utc, frame.device.name, frame.view.frame))
    return World(tuple(_numbered(random, frames)), devices, battery_week)


class _Taking:
    """The chances of one world. What has a share (a device's presence, scenes that two devices see) comes in turn, so
    that every stretch of weeks has its part."""

    def __init__(self, random: Random, devices: Sequence[Device], extent: Extent, scenes: Iterator[int]) -> None:
        self._random, self._devices, self._extent, self._scenes = random, devices, extent, scenes
        self._turns: dict[str, float] = {device.name: random.random() for device in devices}
        self._seen: dict[str, int] = {}
        self._often = [next(scenes) for _ in range(3)]

    def ordinary(self) -> Iterator[Occasion]:
        """Some days of every week, and every third week a late evening: some of its photos are of the next week."""
        random = self._random
        for place, monday in enumerate(household.mondays()):
            there = [device for device in self._devices if device.weeks[0] <= place < device.weeks[1]]
            days = set(random.choices(range(7), (2, 2, 2, 2, 3, 6, 6), k=random.randint(*self._extent.occasions)))
            starts = [(day, time(random.randint(8, 20), random.randint(0, 59))) for day in sorted(days)]
            if place % 3 == 1:
                starts.append((6, time(23, random.randint(5, 30))))
            for day, start in starts:
                if zone_on(monday + timedelta(days=day)) == HOME:
                    begin = datetime.combine(monday + timedelta(days=day), start)
                    yield Occasion(begin, HOME, self._present(there, with_cameras=start.hour == 23))

    def abroad(self) -> Iterator[Occasion]:
        """Two occasions a day, among them those at which the week at home is another one than there."""
        for trip in household.TRIPS:
            for number in range(1, (trip.last - trip.first).days):
                day = trip.first + timedelta(days=number)
                hours = [self._random.randint(9, 12), self._random.randint(14, 18)]
                if day.weekday() == 0 and trip.zone.startswith("Asia"):
                    hours[0] = 6
                if day.weekday() == 6 and trip.zone.startswith("America"):
                    hours[1] = 20
                for place, hour in enumerate(hours):
                    start = datetime.combine(day, time(hour, self._random.randint(0, 59)))
                    yield Occasion(
                        start,
                        trip.zone,
                        self._present(household.TRAVELLERS, with_cameras=hour in (6, 20) or place == number % 2),
                    )

    def special(self, battery_week: date) -> Iterator[Occasion]:
        """New Year's Eve, and the three days around an empty battery."""
        yield Occasion(datetime.combine(date(2025, 12, 31), time(23, 30)), HOME, household.TRAVELLERS)
        for day in (1, 3, 5):
            start = time(15, self._random.randint(0, 59))
            yield Occasion(datetime.combine(battery_week + timedelta(days=day), start), HOME, (household.HARBOUR,))

    def frames(self, occasion: Occasion, place: int) -> Iterator[Frame]:
        """Moments some minutes apart: some of a camera and a phone both, most of one device."""
        groups = [*self._pairs(occasion)]
        for device in occasion.devices:
            groups += [[device]] * self._moments(device, is_late=occasion.start.hour == 23)
        self._random.shuffle(groups)
        at = occasion.start
        for group in groups:
            is_shared = len(group) > 1
            is_again = not is_shared and occasion.zone == HOME and self._random.random() < _SEEN_AGAIN
            scene = self._random.choice(self._often) if is_again else next(self._scenes)
            for device in group:
                wait = timedelta(seconds=self._random.randint(0, 70) if is_shared else 0)
                views = [View(scene, f"{device.name} {at:%m%d%H%M}")] if is_again else self._burst(scene, device)
                for view in views:
                    moment = _clear_of_midnight(at + wait + timedelta(seconds=view.frame))
                    yield Frame(device, moment, occasion.zone, view, place, 0, is_shared, is_again)
            at += timedelta(seconds=self._random.randint(95, 900))

    def _present(self, there: Sequence[Device], with_cameras: bool = False) -> tuple[Device, ...]:
        """Whose turn it is, and one phone at least; or every camera there is, besides."""
        present = [device for device in there if self._has_turn(device) or (with_cameras and not device.is_phone)]
        if not any(device.is_phone for device in present):
            present.append(household.ADA)
        return tuple(present)

    def _has_turn(self, device: Device) -> bool:
        self._turns[device.name] += device.presence
        if self._turns[device.name] < 1:
            return False
        self._turns[device.name] -= 1
        return True

    def _pairs(self, occasion: Occasion) -> Iterator[list[Device]]:
        """At two of three occasions a camera sees one scene together with a phone."""
        phones = [device for device in occasion.devices if device.is_phone]
        for camera in occasion.devices:
            if phones and not camera.is_phone:
                self._seen[camera.name] = self._seen.get(camera.name, 0) + 1
                if self._seen[camera.name] % 3:
                    yield [camera, self._random.choice(phones)]

    def _moments(self, device: Device, is_late: bool) -> int:
        """How many moments a device photographs alone; a camera makes fewer, but for late evenings."""
        least, most = self._extent.moments
        if device.is_phone or is_late:
            return self._random.randint(least, most) + is_late
        return self._random.randint(1, max(1, most // 2))

    def _burst(self, scene: int, device: Device) -> list[View]:
        frames = self._random.choice((2, 3)) if device.is_phone and self._random.random() < 0.08 else 1
        return [View(scene, device.name, frame) for frame in range(frames)]


def _clear_of_midnight(moment: datetime) -> datetime:
    """Nothing happens within three minutes of midnight: the clocks of honest cameras are a little off."""
    near = moment + timedelta(minutes=3)
    return (
        moment
        if near.date() == moment.date() and (moment - timedelta(minutes=3)).date() == moment.date()
        else (moment + timedelta(minutes=6))
    )


def _numbered(random: Random, frames: Sequence[Frame]) -> Iterator[Frame]:
    """Cameras count what they take; some was deleted since."""
    counters: dict[str, int] = {}
    for frame in frames:
        if frame.device.is_phone:
            yield frame
            continue
        step = 1 if random.random() < 0.92 else random.randint(2, 4)
        counters[frame.device.name] = counters.get(frame.device.name, random.randint(1, 300)) + step
        yield replace(frame, number=counters[frame.device.name])
