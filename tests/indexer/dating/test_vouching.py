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
        ((claim("exif original", "2026-03-30T09:15:20", 120),), True),
        ((OWN, claim("gps", "2026-03-30T07:15:18", utc=True)), True),
        ((OWN, claim("gps", "2026-03-30T07:25:18", utc=True)), False),
        ((OWN, claim("file name", "2026-03-30T09:15:21")), True),
        ((OWN, claim("file name", "2026-04-30T09:15:21")), False),
        ((OWN, claim("file name", "2026-03-30", arrival=True)), False),
        ((claim("file name", "2026-03-30T09:15:21"),), False),
    ],
)
def test_what_is_independent_of_the_clock_vouches_for_it(claims: tuple[Claim, ...], is_vouched: bool) -> None:
    """A zone, the satellites, a dated name; not an arrival, and not the date itself."""
    assert bool(vouched(photo("a", *claims))) is is_vouched


def test_another_cameras_view_vouches_for_both() -> None:
    """Where both clocks say the same week, hours apart at most."""
    one = photo("a", OWN, camera=COMPACT)
    other = photo("b", claim("exif original", "2026-03-30T09:20:00"), camera=PHONE)
    assert vouched(one, other, scenes=(SameScene("a", "b", 2.0),)) == {"a", "b"}
    later = photo("b", claim("exif original", "2026-04-02T09:20:00"), camera=PHONE)
    assert vouched(one, later, scenes=(SameScene("a", "b", 2.0),)) == frozenset()
