"""Invented households for the questions about clocks: devices that take photos of the same scenes, seeded."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from indexer.dating.clock.suggestions import suggestions
from indexer.dating.values import Correction, SameScene, Shot, Suggestion
from indexer.facts.records import Camera

HOME = ZoneInfo("Europe/Lisbon")
TODAY = date(2026, 12, 31)
PHONE = Camera("Quay", "Quay 3", "")
OTHER_PHONE = Camera("Mole", "Mole 2", "")
COMPACT = Camera("Harbour", "Compact 5", "C1")
OLDER = Camera("Harbour", "Field 1", "F7")


def home_offset(local: datetime) -> int:
    """Minutes east of Greenwich in Lisbon."""
    offset = local.replace(tzinfo=HOME).utcoffset()
    assert offset is not None
    return int(offset.total_seconds() // 60)


def at(moment: str) -> datetime:
    """A wall clock: "2026-03-30", "2026-03-30T09:15"."""
    return datetime.fromisoformat(moment)


Clock = Callable[[datetime], datetime]


def right(true: datetime) -> datetime:
    """A clock that is right."""
    return true


def behind(**by: float) -> Clock:
    """A clock that is behind by a constant."""
    return lambda true: true - timedelta(**by)


@dataclass
class Household:
    """Photos and scenes as they are taken; `truth` is when each really was."""

    shots: list[Shot] = field(default_factory=list)
    scenes: list[SameScene] = field(default_factory=list)
    truth: dict[str, datetime] = field(default_factory=dict)
    counts: dict[Camera, int] = field(default_factory=dict)

    def shoot(self, camera: Camera, true: datetime, clock: Clock = right, **said: object) -> str:
        """One photo; phones write their zone and name the file by the time, cameras number their files."""
        key = f"{camera.model}-{len(self.shots):06}"
        own = clock(true).replace(microsecond=0)
        count = self.counts[camera] = self.counts.get(camera, 0) + 1
        if camera in (PHONE, OTHER_PHONE):
            said = {"offset_minutes": home_offset(own), "names_time": own.isoformat()} | said
        else:
            said = {"number": ("100HARBR", "HRBR", count)} | said
        self.shots.append(Shot(key, camera, own.isoformat(), **said))  # type: ignore[arg-type]
        self.truth[key] = true
        return key

    def both(self, camera: Camera, true: datetime, clock: Clock = right, phone: Camera = PHONE, lag: float = 0) -> str:
        """One scene that a phone saw too, `lag` seconds later."""
        key = self.shoot(camera, true, clock)
        self.scenes.append(SameScene(key, self.shoot(phone, true + timedelta(seconds=lag)), 5.0))
        return key

    def ask(self, *corrections: Correction, scenes: bool = True) -> list[Suggestion]:
        """What is suggested."""
        return suggestions(self.shots, self.scenes if scenes else [], corrections, home_offset, TODAY)

    def still_wrong(self, found: list[Suggestion], slack: timedelta = timedelta(minutes=6)) -> set[str]:
        """Keys of the photos whose time is wrong after the suggestions, which are applied by their spans."""
        return {shot.key for shot in self.shots if abs(corrected(shot, found) - self.truth[shot.key]) > slack}


def corrected(shot: Shot, found: list[Suggestion]) -> datetime:
    """The time of a photo after the suggestions; at most one may hold for it."""
    own = datetime.fromisoformat(shot.own)
    holding = [one for one in found if one.camera == shot.camera and holds(one, shot.own)]
    assert len(holding) <= 1
    assert {one for one in found if shot.key in one.photos} == set(holding)
    return own + timedelta(seconds=holding[0].shift_seconds) if holding else own


def holds(one: Suggestion, own: str) -> bool:
    return (one.since is None or one.since <= own) and (one.until is None or own < one.until)


def days(first: str, count: int, every: int = 1, hour: int = 10) -> list[datetime]:
    """So many mornings."""
    start = datetime.fromisoformat(first) + timedelta(hours=hour)
    return [start + timedelta(days=every * k, minutes=11 * k % 60) for k in range(count)]
