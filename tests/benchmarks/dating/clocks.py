"""What the household's cameras show for the time, and where they are wrong. Pure.

A clock that is wrong is in the library only where something shows it and by how much: scenes that a phone saw too, the
satellites' time, or numbers on either side of an empty battery. A wrong clock that nothing shows would be a photo that
nobody could flag, and a tool cannot be measured by it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from random import Random

from tests.benchmarks.dating.household import universal, wall
from tests.benchmarks.dating.world import Frame, World

#: A clock further off than this is wrong; honest ones are off by a minute or so.
RIGHT_WITHIN = timedelta(minutes=3)
#: What a camera shows when its battery was empty.
FACTORY_DATE = datetime(2015, 1, 1)  # noqa: DTZ001 - a wall clock has no zone
#: How long the owner does not notice.
UNNOTICED = timedelta(weeks=6)

HOURS, YEARS, FACTORY, BATTERY = "clock hours off", "clock a year off", "factory date", "factory date within a week"
SUMMER, SATELLITES, ABROAD = "summer time not followed", "clock a day off, with GPS", "camera on home time abroad"


@dataclass(frozen=True, slots=True)
class Stretch:
    """From `since` (universal time) on a clock is universal time plus `add`; None: it is set by the wall clock at home
    and off by `skew` alone."""

    since: datetime
    add: timedelta | None
    skew: timedelta
    fault: str = ""


Clocks = Mapping[str, Sequence[Stretch]]


def shown(frame: Frame, clocks: Clocks) -> datetime:
    """What the device's clock showed when the frame was taken: phones are right everywhere."""
    if frame.device.is_phone:
        return frame.local
    stretch = _stretch(frame, clocks)
    return wall(frame.utc) + stretch.skew if stretch.add is None else frame.utc + stretch.add


def fault_of(frame: Frame, clocks: Clocks) -> str:
    """What is wrong with the clock at that frame, "" where it is right."""
    if abs(shown(frame, clocks) - frame.local) <= RIGHT_WITHIN:
        return ""
    return _stretch(frame, clocks).fault or ABROAD


def _stretch(frame: Frame, clocks: Clocks) -> Stretch:
    return next(item for item in reversed(clocks[frame.device.name]) if item.since <= frame.utc)


def clocks_of(random: Random, world: World) -> Clocks:
    """The clock of every camera in the world, in the order of time."""
    always = datetime(2000, 1, 1)  # noqa: DTZ001 - naive universal time
    honest = {device.name: Stretch(always, None, timedelta(seconds=random.randint(-75, 75)))
              for device in world.devices if not device.is_phone}  # fmt: skip
    clocks = {name: [stretch] for name, stretch in honest.items()}

    hours = random.choice((-1, 1)) * timedelta(hours=random.randint(3, 11), minutes=random.randint(0, 59))
    clocks["compact"] = [Stretch(always, hours, timedelta(), HOURS)]
    year = timedelta(days=-365, minutes=random.randint(-90, 90))
    clocks["dunmere"] = [Stretch(always, year, timedelta(), YEARS)]
    day = random.choice((-1, 1)) * timedelta(days=1, hours=3, minutes=random.randint(3, 50), seconds=40)
    clocks["wrackline"] = [Stretch(always, day, timedelta(), SATELLITES)]

    change = _change_of_clocks(world)
    before = wall(change - timedelta(hours=2)) - (change - timedelta(hours=2))
    clocks["pellick"] += [Stretch(change, before + honest["pellick"].skew, timedelta(), SUMMER),
                          _again(change + UNNOTICED, honest["pellick"])]  # fmt: skip

    empty = _empty_battery(random, world)
    clocks["harbour"] += [_factory(empty, FACTORY), _again(empty + UNNOTICED, honest["harbour"])]
    wednesday = datetime.combine(world.battery_week + timedelta(days=2), datetime.min.time())
    clocks["harbour"] += [_factory(_just_before(random, world, wednesday), BATTERY),
                          _again(wednesday + timedelta(days=3), honest["harbour"])]  # fmt: skip
    return clocks


def _again(since: datetime, honest: Stretch) -> Stretch:
    return Stretch(since, None, honest.skew)


def _factory(since: datetime, fault: str) -> Stretch:
    return Stretch(since, FACTORY_DATE - since, timedelta(), fault)


def _change_of_clocks(world: World) -> datetime:
    """The change of clocks at home, universal time, that falls into the weeks in which that camera is used."""
    pellick = next(device for device in world.devices if device.name == "pellick")
    day = date(2025, 10, 26) if pellick.weeks[0] < 8 else date(2026, 3, 29)
    return universal(datetime.combine(day, datetime.min.time()), "UTC") + timedelta(hours=1)


def _empty_battery(random: Random, world: World) -> datetime:
    """Shortly before one of that camera's frames: the battery is changed when somebody wants to take a photo."""
    first = datetime.combine(date(2025, 11, 24), datetime.min.time()) + timedelta(weeks=random.randint(0, 6))
    return _just_before(random, world, first)


def _just_before(random: Random, world: World, moment: datetime) -> datetime:
    """A little before the camera's first frame after that moment."""
    frame = next(frame for frame in world.frames if frame.device.name == "harbour" and frame.utc >= moment)
    return frame.utc - timedelta(seconds=random.randint(40, 900))
