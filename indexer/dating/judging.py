"""The story of judging: what files say, what other photos add, what the person said -> when each was taken. Pure."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from indexer.dating.bounds import with_bounds
from indexer.dating.clock.suggestions import suggestions
from indexer.dating.corrected import by_camera, correction_of
from indexer.dating.moments import has_clock, has_day, moved
from indexer.dating.numbers import runs, with_contradictions
from indexer.dating.offsets import Offsets, known_offsets
from indexer.dating.own import own_time, with_doubt
from indexer.dating.shots import shots_of
from indexer.dating.twins import STRONG, Verdicts, with_twins
from indexer.dating.unset_clock import with_unset_clocks
from indexer.dating.values import Archive, ByHand, CaptureTime, CopyPair, PhotoSaid, SameScene, Suggestion, World
from indexer.dating.vouching import vouched_for
from indexer.facts.records import Precision

#: The precision of a time told by hand, by its letters.
_BY_LETTERS: Mapping[int, Precision] = {4: "year", 7: "month", 10: "day", 16: "minute", 19: "second"}


@dataclass(frozen=True, slots=True)
class Judged:
    """The verdicts by key, and the clock corrections that the evidence speaks for."""

    verdicts: Mapping[str, CaptureTime]
    suggestions: tuple[Suggestion, ...]


def judge_archive(archive: Archive, world: World) -> Judged:
    """Judge every photo by all that is known."""
    photos = {photo.key: photo for photo in archive.photos}
    scenes = [scene for scene in archive.scenes if _are_two_cameras(scene, photos)]
    shots = shots_of(archive.photos)
    likely = suggestions(shots, scenes, archive.corrections, world.home_offset, world.today, world.weeks)
    numbered = runs(archive.photos)
    verdicts = _alone(archive.photos, archive, known_offsets(archive.photos), world)
    vouched = vouched_for(photos, verdicts, scenes, world)
    verdicts = with_unset_clocks(verdicts, photos, vouched)
    verdicts = _with_suggestions(verdicts, likely, world)
    if archive.corrections:
        unheeded = suggestions(shots, scenes, (), world.home_offset, world.today, world.weeks)
        verdicts = _against_what_was_told(verdicts, unheeded, photos, archive, world)
    verdicts = with_contradictions(verdicts, numbered, photos, vouched, world)
    verdicts = with_twins(verdicts, photos, archive.copies, world)
    verdicts = with_bounds(verdicts, numbered, photos, world)
    verdicts = _with_weeks_told(verdicts, archive.by_hand, archive.copies)
    return Judged(verdicts, tuple(likely))


def judge_alone(photos: Iterable[PhotoSaid], archive: Archive, offsets: Offsets, world: World) -> Verdicts:
    """The verdicts by each photo's own files and what was told of it; of others, the zones alone."""
    weeks = archive.by_hand.weeks
    found = _alone(photos, archive, offsets, world)
    return {key: _in_week(verdict, weeks[key]) if key in weeks else verdict for key, verdict in found.items()}


def _alone(photos: Iterable[PhotoSaid], archive: Archive, offsets: Offsets, world: World) -> Verdicts:
    """The same, without the weeks told by hand: those come after all else."""
    corrections = by_camera(archive.corrections)
    told = archive.by_hand.taken
    found = {photo.key: own_time(photo, corrections, offsets, world) for photo in photos}
    return {key: _told(verdict, told[key]) if key in told else verdict for key, verdict in found.items()}


def _are_two_cameras(scene: SameScene, photos: Mapping[str, PhotoSaid]) -> bool:
    """Whether both photos name a camera, and not the same: a file that names none may be from either."""
    cameras = {photos[key].camera for key in (scene.one, scene.other) if key in photos}
    return len(cameras) == 2 and all(camera.make or camera.model for camera in cameras)


def _told(verdict: CaptureTime, taken: str) -> CaptureTime:
    """The time that the person gave; it outranks clocks and claims."""
    return replace(
        verdict,
        taken=taken,
        placed=taken,
        fraction="",
        precision=_BY_LETTERS[len(taken)],
        offset_minutes=None,
        source="by hand",
        doubtful=not has_day(taken),
        reason="you said when it was taken" if has_day(taken) else f"you told the {_BY_LETTERS[len(taken)]} alone",
        is_arrival=False,
        is_scan=False,
    )


def _in_week(verdict: CaptureTime, first_day: str) -> CaptureTime:
    """The verdict, in the week that the person put the photo into: by that week's fourth day, as all told weeks are."""
    fourth = (date.fromisoformat(first_day) + timedelta(days=3)).isoformat()
    reason = f"you put it into this week; as for its time, {verdict.reason}"
    return replace(verdict, placed=fourth, doubtful=False, reason=reason)


def _with_suggestions(verdicts: Verdicts, likely: Iterable[Suggestion], world: World) -> Verdicts:
    """The verdicts, those flagged that a likely correction would move to another week."""
    found = dict(verdicts)
    for number, suggestion in enumerate(likely, start=1):
        for key in suggestion.photos:
            verdict = found[key]
            if not has_clock(verdict.taken) or verdict.source == "by hand":
                continue
            there = moved(verdict.taken or "", suggestion.shift_seconds)
            if world.weeks.week_of(there) != world.weeks.week_of(verdict.taken):
                doubt = f"its camera's clock was probably wrong (suggestion {number} of weeksheaf clock suggest)"
                found[key] = with_doubt(verdict, doubt)
    return found


def _against_what_was_told(
    verdicts: Verdicts, unheeded: Iterable[Suggestion], photos: Mapping[str, PhotoSaid], archive: Archive, world: World
) -> Verdicts:
    """The verdicts, those flagged whose camera the person corrected otherwise than the evidence would have it, where
    the week hangs on it. What was told holds all the same; a correction by nothing says that the clock goes right."""
    found, told = dict(verdicts), by_camera(archive.corrections)
    for suggestion in unheeded:
        for key in suggestion.photos:
            verdict = found[key]
            own = photos[key].said[verdict.chosen].claim.when if verdict.chosen is not None else None
            held = correction_of(own, suggestion.camera, told)
            if own is None or held is None or not held.shift_seconds or verdict.source == "by hand":
                continue
            if world.weeks.week_of(moved(own, suggestion.shift_seconds)) != world.weeks.week_of(verdict.taken):
                found[key] = with_doubt(verdict, f"you corrected its camera otherwise, but {suggestion.grounds}")
    return found


def _with_weeks_told(verdicts: Verdicts, told: ByHand, copies: Iterable[CopyPair]) -> Verdicts:
    """The verdicts, the weeks that the person told for photos and, with them, for copies of which nothing was told."""
    found = {key: _in_week(item, told.weeks[key]) if key in told.weeks else item for key, item in verdicts.items()}
    for pair in sorted(copies, key=lambda item: (item.score, item.one, item.other)):
        if pair.score >= STRONG and pair.one in found and pair.other in found:
            for one, other in ((pair.one, pair.other), (pair.other, pair.one)):
                if one in told.weeks and other not in told.weeks and other not in told.taken:
                    found[other] = replace(
                        _in_week(verdicts[other], told.weeks[one]), reason="you put its copy into this week"
                    )
    return found
