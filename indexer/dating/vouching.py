"""Photos whose clock something else vouches for. Pure."""

from collections.abc import Iterable, Iterator, Mapping

from indexer.dating.moments import has_clock, has_day, span
from indexer.dating.offsets import step_between
from indexer.dating.order import may_be_chosen
from indexer.dating.values import CaptureTime, PhotoSaid, SameScene, World
from indexer.facts.records import Claim


def vouched_for(
    photos: Mapping[str, PhotoSaid], verdicts: Mapping[str, CaptureTime], scenes: Iterable[SameScene], world: World
) -> frozenset[str]:
    """The keys of photos whose camera time something independent of that camera's clock bears out: a zone written with
    it, which only clocks set by a network know; the satellites' time; a name that agrees; another camera's view."""
    by_itself = (key for key, photo in photos.items() if _vouches(photo))
    return frozenset((*by_itself, *_by_scenes(verdicts, scenes, world)))


def _vouches(photo: PhotoSaid) -> bool:
    claims = [item.claim for item in photo.said if may_be_chosen(item.claim)]
    own = next((claim for claim in claims if claim.source == "exif original" and has_clock(claim.when)), None)
    if own is None:
        return False
    return own.offset_minutes is not None or any(_bears_out(claim, own) for claim in claims)


def _bears_out(claim: Claim, own: Claim) -> bool:
    if claim.is_arrival or not claim.when or not own.when:
        return False
    if claim.source == "gps":
        return step_between(claim.when, own.when) is not None
    return claim.source == "file name" and has_day(claim.when) and claim.when[:10] == own.when[:10]


def _by_scenes(verdicts: Mapping[str, CaptureTime], scenes: Iterable[SameScene], world: World) -> Iterator[str]:
    for scene in scenes:
        one, other = verdicts.get(scene.one), verdicts.get(scene.other)
        if one and other and one.taken and other.taken and has_clock(one.taken) and has_clock(other.taken):
            distance = abs((span(one.taken)[0] - span(other.taken)[0]).total_seconds())
            if distance < 26 * 3600 and world.weeks.may_be_same(one.taken, other.taken):
                yield scene.one
                yield scene.other
