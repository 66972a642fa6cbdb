"""A lost time lies between those of the photos with the file numbers before and after. Pure."""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import timedelta

from indexer.dating.agreement import STALE, is_there_before
from indexer.dating.corrected import CLOCK_SOURCES
from indexer.dating.moments import span
from indexer.dating.numbers import FURTHEST, Numbered, Photos, Run, at
from indexer.dating.order import OF_CAPTURE
from indexer.dating.twins import Verdicts, is_own
from indexer.dating.values import CaptureTime, PhotoSaid, World
from indexer.dating.words import moment_words
from indexer.facts.records import Camera


def with_bounds(verdicts: Verdicts, numbered: Sequence[Run], photos: Photos, world: World) -> Verdicts:
    """The verdicts, lost times put between those of the photos with the numbers before and after."""
    found = dict(verdicts)
    for run in numbered:
        found.update(_bounded(run, verdicts, photos, world))
    return found


def _bounded(run: Run, verdicts: Verdicts, photos: Photos, world: World) -> Iterator[tuple[str, CaptureTime]]:
    """(key, verdict) of each photo whose lost time lies between those of its neighbours."""
    dated: defaultdict[Camera, list[Numbered]] = defaultdict(list)
    for item in run:
        if _is_sure(verdicts[item.key]):
            dated[photos[item.key].camera].append(item)
    for item in run:
        verdict = verdicts[item.key]
        if is_own(verdict) or verdict.source == "copy":
            continue
        near = _neighbours(item, photos[item.key].camera, dated)
        if near and not _is_spoken_against(photos[item.key], verdict, *near, verdicts, photos):
            yield item.key, _between(verdict, *near, verdicts, world)


def _is_sure(verdict: CaptureTime) -> bool:
    return is_own(verdict) and not verdict.doubtful


def _neighbours(
    item: Numbered, camera: Camera, dated: Mapping[Camera, Sequence[Numbered]]
) -> tuple[Numbered, Numbered] | None:
    """The photos with the numbers before and after, both near and of its own camera; where it names none, of the only
    one whose numbers lie around it."""
    cameras = [camera] if camera.make or camera.model else list(dated)
    found = [near for one in cameras if (near := _around(item, dated.get(one, ())))]
    return found[0] if len(found) == 1 else None


def _around(item: Numbered, dated: Sequence[Numbered]) -> tuple[Numbered, Numbered] | None:
    before = bisect_left(dated, item.number, key=_number) - 1
    after = bisect_right(dated, item.number, key=_number)
    if before < 0 or after == len(dated):
        return None
    near = dated[before], dated[after]
    return near if max(item.number - near[0].number, near[1].number - item.number) <= FURTHEST else None


def _number(item: Numbered) -> int:
    return item.number


def _is_spoken_against(
    photo: PhotoSaid, verdict: CaptureTime, before: Numbered, after: Numbered, verdicts: Verdicts, photos: Photos
) -> bool:
    """Whether the neighbours are in no order, or the photo itself cannot be of their time: numbers begin anew on
    another camera."""
    first, last = at(before, verdicts)[0], at(after, verdicts)[1]
    if first > last or is_there_before(photo, _earliest(before, verdicts, photos)):
        return True
    if verdict.taken is None or verdict.is_arrival or verdict.source not in (*OF_CAPTURE, "gps"):
        return False
    slack = STALE if verdict.source == "gps" else timedelta()
    return first - span(verdict.taken)[1] > slack or span(verdict.taken)[0] - last > slack


def _earliest(item: Numbered, verdicts: Verdicts, photos: Photos) -> str:
    """The time of a dated photo, or what its camera wrote where that is earlier: the files of the photos around it were
    written by that uncorrected clock too."""
    said = (each.claim for each in photos[item.key].said if each.claim.source in CLOCK_SOURCES)
    return min([verdicts[item.key].taken or "", *(claim.when for claim in said if claim.when)])


def _between(verdict: CaptureTime, before: Numbered, after: Numbered, verdicts: Verdicts, world: World) -> CaptureTime:
    """The verdict "between", on the album day of the earlier neighbour."""
    first, last = verdicts[before.key].taken or "", verdicts[after.key].taken or ""
    is_one_week = world.weeks.week_of(first) == world.weeks.week_of(last)
    where = f"between {before.name} ({moment_words(first)}) and {after.name} ({moment_words(last)})"
    doubt = "" if is_one_week else ", which are of different weeks"
    day = world.weeks.day_of(first)
    return replace(
        verdict,
        taken=day,
        placed=day,
        fraction="",
        precision="between",
        offset_minutes=None,
        source="file numbers",
        doubtful=not is_one_week,
        reason=f"its number lies {where}{doubt}",
        chosen=None,
        is_arrival=False,
        is_scan=False,
    )
