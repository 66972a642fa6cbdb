"""Honest clocks: whatever lies about, nothing is suggested."""

import random
from datetime import datetime, timedelta

import pytest

from indexer.dating.values import SameScene
from indexer.facts.records import Camera
from tests.indexer.dating.clock.households import (
    COMPACT,
    OLDER,
    OTHER_PHONE,
    PHONE,
    Household,
    at,
    behind,
    home_offset,
)

CAMERAS = (COMPACT, OLDER, PHONE, OTHER_PHONE)


def a_year(random_: random.Random) -> Household:
    """A year of two phones and two cameras, whose clocks are right to within two minutes and are set on a journey."""
    home = Household()
    clocks = {camera: behind(seconds=random_.uniform(-120, 120)) for camera in (COMPACT, OLDER)}
    start = at("2025-10-01")
    has_gps, is_numbered = random_.random() < 0.5, random_.random() < 0.7
    home.counts[COMPACT] = random_.choice([0, 9_900])
    leaving, zone = random_.randrange(400), random_.choice([-480, -300, 60, 330, 540])
    for day in sorted(random_.sample(range(400), random_.randint(10, 120))):
        moment = start + timedelta(days=day, hours=random_.uniform(8, 18))
        offset = zone if leaving <= day < leaving + 14 else home_offset(moment)
        for _ in range(random_.randint(1, 5)):
            moment += timedelta(minutes=random_.expovariate(1 / 20))
            camera, phone = random_.choice((COMPACT, OLDER)), random_.choice((PHONE, OTHER_PHONE))
            said = {} if is_numbered else {"number": None}
            if has_gps and random_.random() < 0.5:
                said["gps"] = old_fix(random_, moment, offset)
            key = home.shoot(camera, moment, clocks[camera], **said)
            if random_.random() < 0.4:
                later = moment + timedelta(seconds=random_.uniform(-120, 120))
                there = home.shoot(phone, later, offset_minutes=offset)
                home.scenes.append(SameScene(key, there, random_.uniform(1, 9)))
    midnight = at("2026-01-01")
    for k in range(random_.randint(0, 6)):
        home.shoot(random_.choice((COMPACT, PHONE)), midnight + timedelta(seconds=40 * k + 1), number=None)
    return home


def old_fix(random_: random.Random, moment: datetime, offset: int) -> str:
    """The satellites' time of a fix that is fresh, or up to three hours old."""
    age = timedelta(seconds=random_.choice([random_.uniform(0, 60), random_.uniform(0, 10_800)]))
    return (moment - timedelta(minutes=offset) - age).isoformat(timespec="seconds")


def add_chance(home: Household, random_: random.Random) -> None:
    """Scenes that were seen by two cameras, but on different days, at about the same time of day."""
    cameras = {camera: [shot.key for shot in home.shots if shot.camera == camera] for camera in CAMERAS}
    for _ in range(random_.randint(0, 20)):
        one, other = random_.sample([camera for camera in CAMERAS if cameras[camera]], 2)
        home.scenes.append(
            SameScene(random_.choice(cameras[one]), random_.choice(cameras[other]), random_.uniform(1, 5))
        )


@pytest.mark.parametrize("seed", range(150))
def test_honest_clocks_are_left_alone(seed: int) -> None:
    """A year of honest clocks, with scenes seen twice, old fixes and New Year's photos, brings no suggestion."""
    random_ = random.Random(seed)
    home = a_year(random_)
    add_chance(home, random_)
    assert home.ask() == []


@pytest.mark.parametrize("seed", range(40))
def test_chance_alone_is_no_ground(seed: int) -> None:
    """Cameras that share no scene but by chance are not corrected, even at one time of day."""
    random_ = random.Random(seed)
    home = Household()
    for day in range(60):
        for camera in CAMERAS:
            home.shoot(camera, at("2026-03-01T09:00") + timedelta(days=day, minutes=random_.uniform(0, 240)))
    for _ in range(4):
        add_chance(home, random_)
    assert home.ask() == []


def test_a_breakfast_table_every_day_is_no_ground() -> None:
    """One scene at one time every morning agrees with itself a day later, but more so on the same day."""
    home = Household()
    keys = []
    for day in range(20):
        moment = at("2026-03-01T08:00") + timedelta(days=day)
        keys.append((home.shoot(COMPACT, moment), home.shoot(PHONE, moment + timedelta(seconds=40))))
    home.scenes = [SameScene(one, other, 3.0) for one, _ in keys for _, other in keys]
    assert home.ask() == []


@pytest.mark.parametrize("hours", [-5, 1, 8])
def test_a_travelling_phone_vouches_for_a_camera_that_is_set_too(hours: int) -> None:
    """A phone that writes another zone, and a camera that was set to it, are both right."""
    home = Household()
    for day in range(20):
        moment = at("2026-02-01T10:00") + timedelta(days=day)
        offset = 0 if day < 8 else 60 * hours
        key = home.shoot(COMPACT, moment)
        utc = (moment - timedelta(minutes=offset)).isoformat()
        home.scenes.append(SameScene(key, home.shoot(PHONE, moment, offset_minutes=offset, gps=utc), 5.0))
    assert home.ask() == []


def test_two_devices_of_one_name_are_not_torn_apart() -> None:
    """Two cameras that call themselves alike, one of them wrong, give votes by turns: nothing is suggested."""
    home, random_ = Household(), random.Random(4)
    for day in range(200):
        clock = behind(hours=5) if day // 4 % 2 else behind()
        home.both(COMPACT, at("2026-01-10T12:00") + timedelta(days=day), clock, lag=random_.uniform(0, 90))
    assert home.ask() == []


def test_no_camera_no_clock() -> None:
    """Photos that name no camera cannot be corrected by one."""
    home = Household()
    for day in range(20):
        home.both(Camera(), at("2026-03-01T08:00") + timedelta(days=day), behind(hours=7))
    assert home.ask() == []
