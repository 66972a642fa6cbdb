"""Likely clock corrections: the story, with invented households."""

import random
from datetime import datetime, timedelta

import pytest

from indexer.dating.values import Correction, SameScene
from indexer.facts.records import Camera
from tests.indexer.dating.clock.households import (
    COMPACT,
    OLDER,
    OTHER_PHONE,
    PHONE,
    Household,
    at,
    behind,
    days,
    home_offset,
    right,
)

WRONG = behind(days=3, hours=7, minutes=12)
FACTORY = at("2015-01-01")


def winter_time(true: datetime) -> datetime:
    """A clock that never follows daylight saving in Lisbon."""
    return true - timedelta(minutes=home_offset(true))


def since_battery(change: datetime) -> object:
    """A clock that began again at the factory date when the battery was changed."""
    return lambda true: FACTORY + (true - change)


def test_a_camera_that_is_off_by_a_constant() -> None:
    """A camera whose scenes a phone saw days later is moved as a whole, photos without a scene included."""
    home = Household()
    for number, moment in enumerate(days("2026-03-01", 4)):
        home.both(COMPACT, moment, WRONG, lag=7 * number)
        home.shoot(COMPACT, moment + timedelta(hours=3), WRONG)
    (found,) = home.ask()
    assert (found.camera, found.shift_seconds, found.since, found.until) == (COMPACT, 285_120, None, None)
    assert found.ground == "scenes"
    assert found.grounds == (
        "4 scenes that the Quay 3 also shows, on 4 days, are 3 d 7 h 12 min earlier by this camera's clock"
    )
    assert not home.still_wrong([found])


def test_two_occasions_are_too_few() -> None:
    """Two occasions, however many pairs they give, are no ground for moving a camera."""
    home = Household()
    for moment in days("2026-03-01", 2):
        for second in range(10):
            home.both(COMPACT, moment + timedelta(seconds=second), WRONG)
    assert home.ask() == []


def test_one_burst_is_one_occasion() -> None:
    """Forty pairs of one burst are one occasion."""
    home = Household()
    for second in range(40):
        home.both(COMPACT, at("2026-03-01T10:00") + timedelta(seconds=second), WRONG)
    assert home.ask() == []


def test_two_cameras_wrong_at_once() -> None:
    """Each of two wrong cameras is compared with the phone, though they also share scenes with each other."""
    home = Household()
    for moment in days("2026-03-01", 6):
        one = home.both(COMPACT, moment, WRONG)
        other = home.both(OLDER, moment + timedelta(minutes=1), behind(hours=-30))
        home.scenes.append(SameScene(one, other, 4.0))
    found = home.ask()
    assert {(item.camera, item.shift_seconds) for item in found} == {(COMPACT, 285_120), (OLDER, -108_000)}
    assert not home.still_wrong(found)


def test_a_corrected_camera_is_a_witness() -> None:
    """A camera that never met the phone is put right by one that did and agrees with others."""
    home = Household()
    for moment in days("2026-03-01", 4):
        home.both(OLDER, moment, behind(hours=9))
    for moment in days("2026-03-10", 4):
        key = home.shoot(OLDER, moment, behind(hours=9))
        home.scenes.append(SameScene(key, home.shoot(COMPACT, moment, right), 4.0))
        home.scenes.append(SameScene(home.shots[-1].key, home.shoot(OTHER_PHONE, moment), 4.0))
    assert [(item.camera, item.shift_seconds) for item in home.ask()] == [(OLDER, 32_400)]


def test_the_majority_is_right_among_equals() -> None:
    """Of three cameras that nothing vouches for, the one that two others contradict is wrong."""
    home, third = Household(), Camera("Harbour", "Pocket 8", "P3")
    for moment in days("2026-03-01", 5):
        keys = [home.shoot(COMPACT, moment), home.shoot(OLDER, moment), home.shoot(third, moment, WRONG)]
        home.scenes += [SameScene(one, other, 4.0) for one in keys for other in keys if one < other]
    assert [(item.camera, item.shift_seconds) for item in home.ask()] == [(third, 285_120)]


def test_of_two_equals_none_is_blamed() -> None:
    """Two cameras that disagree, with nothing to vouch for either, bring no suggestion."""
    home = Household()
    for moment in days("2026-03-01", 5):
        key = home.shoot(COMPACT, moment, WRONG)
        home.scenes.append(SameScene(key, home.shoot(OLDER, moment), 4.0))
    assert home.ask() == []


def test_right_until_some_day() -> None:
    """A clock that went wrong during a pause is moved from the first photo after it."""
    home = Household()
    for moment in days("2026-03-01", 20, every=2):
        clock = right if moment < at("2026-03-20") else behind(hours=2, minutes=7)
        home.both(COMPACT, moment, clock)
        home.shoot(COMPACT, moment + timedelta(hours=3), clock)
    (found,) = home.ask()
    assert (found.shift_seconds, found.until) == (7_620, None)
    assert found.since is not None
    assert found.since > "2026-03-19"
    assert not home.still_wrong([found])


def test_ahead_and_then_set_right() -> None:
    """Where own times overlap since the clock was set back, spans are cut so finely that every photo is right."""
    home = Household()
    for moment in days("2026-03-01", 20):
        clock = behind(days=-3) if moment < at("2026-03-11") else right
        home.both(COMPACT, moment, clock)
        home.shoot(COMPACT, moment + timedelta(hours=3), clock)
    assert not home.still_wrong(home.ask())


def test_daylight_saving_not_followed() -> None:
    """A camera that stays on winter time is moved by an hour from one clock change to the next."""
    home = Household()
    for moment in days("2025-11-01", 100, every=4):
        home.both(COMPACT, moment, winter_time, lag=20)
    (found,) = home.ask()
    assert (found.shift_seconds, found.ground) == (3_600, "daylight saving")
    assert (found.since, found.until) == ("2026-03-29T01:00:00", "2026-10-25T01:00:00")
    assert "1 h earlier by this camera's clock, from 29 Mar 2026 on" in found.grounds
    assert "did not follow daylight saving" in found.grounds
    assert not home.still_wrong([found])


def test_daylight_saving_until_somebody_set_the_clock() -> None:
    """The hour ends where the clock was set: in the pause before the first scene that agrees again."""
    home = Household()
    for moment in days("2026-02-01", 40, every=3):
        home.both(COMPACT, moment, winter_time if moment < at("2026-05-01") else right)
    (found,) = home.ask()
    assert (found.since, found.ground) == ("2026-03-29T01:00:00", "daylight saving")
    assert not home.still_wrong([found])


def test_few_scenes_are_enough_for_daylight_saving() -> None:
    """Two scenes that agree before the change and two that are an hour off after it are enough."""
    home = Household()
    for moment in days("2026-03-10", 2, every=5) + days("2026-04-10", 2, every=5):
        home.both(COMPACT, moment, winter_time)
    (found,) = home.ask()
    assert (found.since, found.until) == ("2026-03-29T01:00:00", "2026-10-25T01:00:00")


def test_an_hour_off_away_from_the_change_is_no_daylight_saving() -> None:
    """A clock that loses an hour in May is off, but not by daylight saving."""
    home = Household()
    for moment in days("2026-04-10", 30, every=2):
        home.both(COMPACT, moment, right if moment < at("2026-05-10") else behind(hours=1))
    assert [item.ground for item in home.ask()] == ["scenes"]


def reset_household(until: str = "2026-03-13") -> Household:
    """A numbered camera that falls back to 2015 for two days, and is set again."""
    home = Household()
    for moment in days("2026-03-01", 9):
        home.shoot(COMPACT, moment)
    for moment in days("2026-03-10", 2):
        home.shoot(COMPACT, moment, since_battery(at("2026-03-10T09:00")))  # type: ignore[arg-type]
    for moment in days(until, 4):
        home.shoot(COMPACT, moment)
    return home


def test_a_factory_date_between_neighbours_of_one_week() -> None:
    """A run after a battery change whose neighbours leave no doubt of the week is moved between them."""
    home = reset_household()
    (found,) = home.ask()
    assert (found.ground, len(found.photos)) == ("factory date", 2)
    assert (found.since, found.until) == ("2015-01-01T01:00:00", "2015-01-03T00:00:00")
    assert (
        "file numbers run on from HRBR0009 to HRBR0010 while the clock falls back to 1 Jan 2015, 01:00" in found.grounds
    )
    assert "their week is certain and their hour is a guess" in found.grounds
    assert not home.still_wrong([found], slack=timedelta(days=2))


def test_a_factory_date_between_weeks_is_left_to_the_person() -> None:
    """Neighbours that leave two weeks open are no ground."""
    assert reset_household(until="2026-03-17").ask() == []


def test_one_scene_tells_a_factory_date_exactly() -> None:
    """Where a clock is known to have fallen back, one scene within the bounds gives the shift to the minute."""
    home = reset_household(until="2026-03-17")
    home.scenes.append(SameScene(home.shots[9].key, home.shoot(PHONE, home.truth[home.shots[9].key]), 4.0))
    (found,) = home.ask()
    assert not home.still_wrong([found])
    assert "1 scene that the Quay 3 also shows" in found.grounds


def test_a_factory_date_twice() -> None:
    """Two battery changes to one factory date give corrections that do not overlap."""
    home = reset_household()
    for moment in days("2026-04-07", 1) + days("2026-04-08", 1):
        home.shoot(COMPACT, moment, since_battery(at("2026-04-07T08:30")))  # type: ignore[arg-type]
    for moment in days("2026-04-09", 2):
        home.shoot(COMPACT, moment)
    home.shots.sort(key=lambda shot: home.truth[shot.key])
    for key in [shot.key for shot in home.shots if shot.own.startswith("2015")]:
        home.scenes.append(SameScene(key, home.shoot(PHONE, home.truth[key]), 4.0))
    found = home.ask()
    assert {item.shift_seconds for item in found} == {
        int((at("2026-03-10T09:00") - FACTORY).total_seconds()),
        int((at("2026-04-07T08:30") - FACTORY).total_seconds()),
    }
    assert not home.still_wrong(found)


def test_new_year_is_no_factory_date() -> None:
    """Photos of a real New Year's night stay, though the camera has no zone."""
    home = Household()
    for moment in (
        days("2025-12-20", 11) + [at("2026-01-01") + timedelta(minutes=k) for k in range(5)] + days("2026-01-03", 5)
    ):
        home.shoot(COMPACT, moment)
    assert home.ask() == []


def test_a_corrected_camera_gives_no_suggestion_again() -> None:
    """What is suggested, once told, is not suggested again."""
    home = reset_household()
    for moment in days("2026-05-01", 30, every=2):
        home.both(OLDER, moment, WRONG if moment < at("2026-06-01") else right)
    found = home.ask()
    assert len(found) >= 2
    told = [
        Correction(f"u{k}", "", item.camera, item.shift_seconds, item.since, item.until) for k, item in enumerate(found)
    ]
    assert home.ask(*told) == []


def test_a_suggestion_spares_what_is_corrected() -> None:
    """A correction of a few days holds; the rest of the camera is moved around it."""
    home = Household()
    for moment in days("2026-03-10", 20):
        home.both(COMPACT, moment, WRONG)
    held = Correction("u", "", COMPACT, 285_120, "2026-03-10T00:00:00", "2026-03-12T00:00:00")
    found = home.ask(held)
    assert [(item.since, item.until) for item in found] == [
        (None, "2026-03-10T00:00:00"),
        ("2026-03-12T00:00:00", None),
    ]
    assert sum(len(item.photos) for item in found) == 18


def test_a_camera_on_home_time_abroad_is_moved_for_the_journey() -> None:
    """A camera that stays on home time while the phone travels is moved by the zones between, for the journey."""
    home = Household()
    for moment in days("2026-01-05", 30):
        abroad = at("2026-01-15") < moment < at("2026-01-25")
        key = home.shoot(COMPACT, moment, behind(hours=3) if abroad else right)
        offset = 180 if abroad else 0
        home.scenes.append(SameScene(key, home.shoot(PHONE, moment, offset_minutes=offset), 4.0))
    (found,) = home.ask()
    assert found.shift_seconds == 10_800
    assert not home.still_wrong([found])


@pytest.mark.parametrize("seed", range(60))
def test_wrong_clocks_are_found(seed: int) -> None:
    """Any clock that goes wrong by any amount on any day, among scenes seen twice, is put right for every photo."""
    random_ = random.Random(seed)
    shift = random_.choice([-1, 1]) * random_.choice([random_.uniform(0.2, 14), random_.uniform(24, 40_000)])
    begin, count = random_.choice([0, random_.randint(4, 20)]), random_.randint(24, 60)
    home, keys = Household(), []
    for day in range(count):
        moment = at("2026-01-05T11:00") + timedelta(days=day, minutes=random_.uniform(0, 300))
        clock = behind(hours=shift) if day >= begin else right
        keys.append(home.both(COMPACT, moment, clock, random_.choice((PHONE, OTHER_PHONE)), random_.uniform(-60, 60)))
        home.shoot(COMPACT, moment + timedelta(minutes=20), clock)
    phones = [shot.key for shot in home.shots if shot.camera != COMPACT]
    home.scenes += [SameScene(random_.choice(keys), random_.choice(phones), 2.0) for _ in range(5)]
    assert not home.still_wrong(home.ask())


def test_the_order_of_the_input_does_not_matter() -> None:
    """Suggestions come in one order, whatever the order of photos and scenes."""
    home = reset_household()
    for moment in days("2026-05-01", 8):
        home.both(OLDER, moment, WRONG)
    first = home.ask()
    random.Random(1).shuffle(home.shots)
    home.scenes = [SameScene(scene.other, scene.one, scene.score) for scene in reversed(home.scenes)]
    assert home.ask() == first


def test_nothing_to_ask() -> None:
    """No photos, no suggestions."""
    assert Household().ask() == []
