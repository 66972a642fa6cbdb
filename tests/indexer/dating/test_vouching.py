"""Photos whose clock something else vouches for."""

import pytest

from indexer.dating.judging import judge_alone
from indexer.dating.offsets import Offsets
from indexer.dating.values import Archive, PhotoSaid, SameScene
from indexer.dating.vouching import vouched_for
from indexer.facts.records import Claim
from tests.indexer.dating.said import COMPACT, PHONE, claim, photo, world

OWN = claim("exif original", "2026-03-30T09:15:20")


def vouched(*photos: PhotoSaid, scenes: tuple[SameScene, ...] = ()) -> frozenset[str]:
    verdicts = judge_alone(photos, Archive(photos), Offsets(), world())
    return vouched_for({item.key: item for item in photos}, verdicts, scenes, world())


@pytest.mark.parametrize(
    ("claims", "is_vouched"),
    [
        ((OWN,), False),
        ((claim("exif original", "2026-03-30T09:15:20", 120),), False),
        ((OWN, claim("gps", "2026-03-30T07:15:18", utc=True)), True),
        ((OWN, claim("gps", "2026-03-30T07:25:18", utc=True)), False),
        ((OWN, claim("file name", "2026-03-30T07:15:21", utc=True)), True),
        ((OWN, claim("file name", "2026-04-30T07:15:21", utc=True)), False),
        ((OWN, claim("file name", "2026-03-30T09:15:21")), False),
        ((OWN, claim("file name", "2026-03-30", arrival=True)), False),
        ((claim("file name", "2026-03-30T09:15:21"),), False),
    ],
)
def test_what_is_independent_of_the_clock_vouches_for_it(claims: tuple[Claim, ...], is_vouched: bool) -> None:
    """The satellites, a name in universal time; not an arrival, not the date itself, the zone beside it, or a name made
    from it."""
    assert bool(vouched(photo("a", *claims))) is is_vouched


def test_a_zone_vouches_for_the_clock_of_a_device_that_was_borne_out_elsewhere() -> None:
    """A phone, which has both from the network; a camera writes the zone that it was set to, or left the factory
    with."""
    zoned = claim("exif original", "2026-04-07T09:15:20", 120)
    fixed = photo("b", OWN, claim("gps", "2026-03-30T07:15:18", utc=True), camera=PHONE)
    assert vouched(photo("a", zoned, camera=PHONE), fixed) == {"a", "b"}
    assert vouched(photo("a", zoned, camera=COMPACT), fixed) == {"b"}
    unnamed = photo("b", OWN, claim("gps", "2026-03-30T07:15:18", utc=True))
    assert vouched(photo("a", zoned), unnamed) == {"b"}


def test_another_cameras_view_vouches_for_both() -> None:
    """Where both clocks say the same week, hours apart at most."""
    one = photo("a", OWN, camera=COMPACT)
    other = photo("b", claim("exif original", "2026-03-30T09:20:00"), camera=PHONE)
    assert vouched(one, other, scenes=(SameScene("a", "b", 2.0),)) == {"a", "b"}
    later = photo("b", claim("exif original", "2026-04-02T09:20:00"), camera=PHONE)
    assert vouched(one, later, scenes=(SameScene("a", "b", 2.0),)) == frozenset()
