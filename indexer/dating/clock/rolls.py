"""All photos of one camera, as the questions about its clock need them. Pure."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from indexer.dating.clock.lived import lived_order
from indexer.dating.clock.seconds import seconds_of
from indexer.dating.clock.spans import Span, lies_in
from indexer.dating.values import Correction, Shot
from indexer.facts.records import NO_CAMERA, Camera

_TO_THE_MINUTE = 16


@dataclass(frozen=True, slots=True)
class Roll:
    """One camera's photos in the order they were taken, as far as can be told.

    `own`: what its clock said, `chains`: places in the order that file numbers prove, `corrected`: the spans of own
    time for which corrections hold already, `shifts`: what they add to each photo.
    """

    camera: Camera
    shots: tuple[Shot, ...]
    own: tuple[int, ...]
    chains: tuple[tuple[int, ...], ...]
    corrected: tuple[Span, ...]
    shifts: tuple[int | None, ...]

    @property
    def name(self) -> str:
        """As a person reads it."""
        make, model = self.camera.make, self.camera.model
        name = model if model.lower().startswith(make.lower()) else f"{make} {model}"
        return name.strip() or self.camera.serial

    @property
    def uncorrected(self) -> set[int]:
        """Places for which no correction holds."""
        return {place for place, shift in enumerate(self.shifts) if shift is None}


def rolls_of(shots: Iterable[Shot], corrections: Iterable[Correction]) -> list[Roll]:
    """The cameras in the order of their names; photos that name none, or have no clock time, are left out."""
    by_camera: defaultdict[Camera, list[Shot]] = defaultdict(list)
    for shot in shots:
        if shot.camera != NO_CAMERA and len(shot.own) >= _TO_THE_MINUTE:
            by_camera[shot.camera].append(shot)
    told: defaultdict[Camera, list[Correction]] = defaultdict(list)
    for correction in corrections:
        told[correction.camera].append(correction)
    return [_roll(camera, by_camera[camera], told[camera]) for camera in sorted(by_camera, key=_order)]


def _order(camera: Camera) -> tuple[str, str, str]:
    return camera.make, camera.model, camera.serial


def _roll(camera: Camera, shots: list[Shot], corrections: Sequence[Correction]) -> Roll:
    shots = sorted(shots, key=lambda shot: (shot.own, shot.key))
    own = [seconds_of(shot.own) for shot in shots]
    order = lived_order(own, [shot.number for shot in shots])
    places = {i: place for place, i in enumerate(order.all)}
    spans = [(_span(correction), correction.shift_seconds) for correction in corrections]
    return Roll(
        camera,
        tuple(shots[i] for i in order.all),
        tuple(own[i] for i in order.all),
        tuple(tuple(places[i] for i in chain) for chain in order.chains),
        tuple(span for span, _ in spans),
        tuple(_shift(own[i], spans) for i in order.all),
    )


def _span(correction: Correction) -> Span:
    since, until = correction.since, correction.until
    return seconds_of(since) if since else None, seconds_of(until) if until else None


def _shift(own: int, spans: Sequence[tuple[Span, int]]) -> int | None:
    return next((shift for span, shift in spans if lies_in(own, span)), None)
