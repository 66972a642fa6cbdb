"""Which of two devices is right."""

from datetime import timedelta

from indexer.dating.clock.rolls import rolls_of
from indexer.dating.clock.seconds import HOUR
from indexer.dating.clock.trust import agreeing, vouchers
from indexer.dating.clock.voting import Vote
from indexer.dating.values import SameScene
from tests.indexer.dating.clock.households import (
    COMPACT,
    OTHER_PHONE,
    PHONE,
    Household,
    behind,
    days,
    home_offset,
)


def fixes(*shifts: int) -> list[Vote]:
    return [Vote(k, 100_000 * k, shift, "the satellites", k) for k, shift in enumerate(shifts)]


def test_what_vouches_for_a_clock() -> None:
    """The satellites vouch more than a zone and a dated name together; a camera has nothing."""
    home = Household()
    for moment in days("2026-03-01", 4):
        home.shoot(COMPACT, moment)
        home.shoot(PHONE, moment)
    compact, phone = rolls_of(home.shots, [])
    assert vouchers(compact, []) == 0
    assert vouchers(phone, []) == 2
    assert vouchers(compact, fixes(5, 20, 60)) == 3
    assert vouchers(compact, fixes(5, 20)) == 0
    assert vouchers(compact, fixes(5, 20, 60, 9_000, 9_100, 9_200, 9_300)) == 0


def test_agreement_is_counted_by_devices() -> None:
    """Two devices agree when three occasions, and half of all, say so."""
    right, wrong = fixes(0, 10, 20), fixes(HOUR, HOUR, HOUR)
    assert agreeing({(0, 1): right, (0, 2): right, (1, 2): wrong}) == {0: 2, 1: 1, 2: 1}
    assert agreeing({(0, 1): fixes(0, 10)}) == {}


def test_of_two_phones_the_satellites_know() -> None:
    """Of two phones that disagree the one is moved that the satellites do not vouch for."""
    home = Household()
    for moment in days("2026-03-01", 6):
        key = home.shoot(OTHER_PHONE, moment, behind(hours=26))
        utc = (moment - timedelta(minutes=home_offset(moment))).isoformat()
        home.scenes.append(SameScene(key, home.shoot(PHONE, moment, gps=utc), 4.0))
    assert [(item.camera, item.shift_seconds) for item in home.ask()] == [(OTHER_PHONE, 93_600)]
