"""Photos whose clock something else vouches for. Pure."""

from collections.abc import Iterable, Iterator, Mapping

from indexer.dating.moments import has_clock, span
from indexer.dating.offsets import step_between
from indexer.dating.order import may_be_chosen
from indexer.dating.values import CaptureTime, PhotoSaid, SameScene, World
from indexer.facts.records import NO_CAMERA, Claim


def vouched_for(
    photos: Mapping[str, PhotoSaid], verdicts: Mapping[str, CaptureTime], scenes: Iterable[SameScene], world: World
) -> frozenset[str]:
    """The keys of photos whose camera time something independent of that camera's clock bears out: a zone written with
    it by a device that the network sets; the satellites' time; a name in universal time; another camera's view."""
    by_itself = {key for key, photo in photos.items() if _is_borne_out(photo)}
    networked = {photos[key].camera for key in by_itself} - {NO_CAMERA}
    by_zone = (key for key, photo in photos.items() if photo.camera in networked and _tells_zone(photo))
    return frozenset((*by_itself, *by_zone, *_by_scenes(verdicts, scenes, world)))


def _is_borne_out(photo: PhotoSaid) -> bool:
    own = _own(photo)
    return own is not None and any(_bears_out(item.claim, own) for item in photo.said if may_be_chosen(item.claim))


def _tells_zone(photo: PhotoSaid) -> bool:
    """Whether a zone stands beside the camera's date. Cameras without a network write one too: what they were set to,
    or left the factory with (common practice); so it vouches only for devices that something else has borne out."""
    own = _own(photo)
    return own is not None and own.offset_minutes is not None


def _own(photo: PhotoSaid) -> Claim | None:
    claims = (item.claim for item in photo.said if item.claim.source == "exif original")
    return next((claim for claim in claims if has_clock(claim.when)), None)


def _bears_out(claim: Claim, own: Claim) -> bool:
    """Whether a claim in universal time is of the same moment. A name in local time is made from the camera's own date,
    by the camera or by whoever renamed the file."""
    is_other_clock = claim.source == "gps" or (claim.source == "file name" and claim.is_utc and not claim.is_arrival)
    return is_other_clock and step_between(claim.when or "", own.when or "") is not None


def _by_scenes(verdicts: Mapping[str, CaptureTime], scenes: Iterable[SameScene], world: World) -> Iterator[str]:
    for scene in scenes:
        one, other = verdicts.get(scene.one), verdicts.get(scene.other)
        if one and other and one.taken and other.taken and has_clock(one.taken) and has_clock(other.taken):
            distance = abs((span(one.taken)[0] - span(other.taken)[0]).total_seconds())
            if distance < 26 * 3600 and world.weeks.may_be_same(one.taken, other.taken):
                yield scene.one
                yield scene.other
