"""What copies tell of each other: one that has no capture time of its own takes that of its twin. Pure."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from indexer.dating.agreement import is_there_before
from indexer.dating.moments import has_clock, has_day, span
from indexer.dating.order import OF_CAPTURE
from indexer.dating.own import with_doubt
from indexer.dating.values import CaptureTime, CopyPair, PhotoSaid, World
from indexer.dating.words import day_words

#: A copy found with less is a copy for choosing prints, but too weak to date a photo by.
STRONG = 0.92
#: A twin that is surer by so much than another copy decides between them: the other is the same view on another day.
MARGIN = 0.04
_OF_A_DOUBTFUL_ONE = "it is a copy of {}, whose own time is doubtful"
#: How often times are handed on: a copy of a copy takes the time too.
_ROUNDS = 3


@dataclass(frozen=True, slots=True)
class _Twin:
    key: str
    score: float


Twins = Mapping[str, Sequence[_Twin]]
Verdicts = dict[str, CaptureTime]


def with_twins(
    verdicts: Verdicts, photos: Mapping[str, PhotoSaid], copies: Iterable[CopyPair], world: World
) -> Verdicts:
    """The verdicts once copies were asked: lost times found again, and weeks in which copies disagree flagged."""
    twins = _twins(copies, photos)
    found = _handed_on(verdicts, twins, photos, world)
    for key, others in twins.items():
        if is_own(found[key]) and (odd := _disagreeing(found, key, others, world)):
            found[key] = with_doubt(found[key], f"its copy {_name(photos[odd])} is of {day_words(_taken(found[odd]))}")
    doubtful = {key: odd for key in twins if (odd := _doubtful_twin(found[key], found))}
    for key, odd in doubtful.items():
        found[key] = with_doubt(found[key], _OF_A_DOUBTFUL_ONE.format(_name(photos[odd])))
    return found


def _handed_on(verdicts: Verdicts, twins: Twins, photos: Mapping[str, PhotoSaid], world: World) -> Verdicts:
    """The verdicts, lost times taken over from copies; first by those with a time of their own that is not that of the
    picture, so that they do not hand it on."""
    found = dict(verdicts)
    for turn in range(1 + _ROUNDS):
        taking = [key for key in twins if is_own(found[key]) or turn]
        news = {key: new for key in taking if (new := _inherited(key, found, twins, photos, world))}
        if turn and not news:
            break
        found.update(news)
    return found


def _doubtful_twin(verdict: CaptureTime, verdicts: Verdicts) -> str | None:
    """The first of the photos from which a time was handed on to this one that is doubtful itself."""
    twin = verdict.twin
    while twin and not verdicts[twin].doubtful:
        twin = verdicts[twin].twin
    return twin


def is_own(verdict: CaptureTime) -> bool:
    """Whether a photo's own claims, or the person, tell the day on which it was taken."""
    if verdict.source == "by hand":
        return True
    return verdict.source in OF_CAPTURE and has_day(verdict.taken) and not verdict.is_arrival and not verdict.is_scan


def _twins(copies: Iterable[CopyPair], photos: Mapping[str, PhotoSaid]) -> Twins:
    found: defaultdict[str, list[_Twin]] = defaultdict(list)
    for pair in copies:
        if pair.score >= STRONG and pair.one in photos and pair.other in photos:
            found[pair.one].append(_Twin(pair.other, pair.score))
            found[pair.other].append(_Twin(pair.one, pair.score))
    return {key: sorted(others, key=lambda twin: (-twin.score, twin.key)) for key, others in found.items()}


def _inherited(
    key: str, verdicts: Verdicts, twins: Twins, photos: Mapping[str, PhotoSaid], world: World
) -> CaptureTime | None:
    """The verdict that a photo takes over; None where it has one of its own, or no copy that could give one."""
    mine = verdicts[key]
    candidates = [
        twin
        for twin in twins[key]
        if _can_give(verdicts[twin.key], mine) or _is_uncorrected(mine, verdicts[twin.key], photos[twin.key])
    ]
    if mine.source in ("by hand", "copy") or not candidates:
        return None
    least = candidates[0].score - MARGIN  # the surest comes first
    candidates = [twin for twin in candidates if twin.score >= least or verdicts[twin.key].source == "by hand"]
    best = min(candidates, key=lambda twin: _preference(twin, verdicts[twin.key]))
    given = verdicts[best.key]
    name = _name(photos[best.key])
    others = {world.weeks.week_of(verdicts[twin.key].taken) for twin in candidates}
    taken_over = replace(
        given, source="copy", chosen=None, twin=best.key, placed=given.taken, reason=f"it is a copy of {name}"
    )
    if len(others) > 1 and given.source != "by hand":
        return replace(taken_over, doubtful=True, reason=f"its copies, {name} among them, are of different weeks")
    if given.doubtful:
        return replace(taken_over, reason=_OF_A_DOUBTFUL_ONE.format(name))
    if is_there_before(photos[key], _earliest(given, photos[best.key])):
        return replace(
            taken_over, doubtful=True, reason=f"it is a copy of {name}, but it arrived before that was taken"
        )
    return taken_over


def _earliest(given: CaptureTime, photo: PhotoSaid) -> str:
    """The time that is handed on, or what the camera wrote where a correction made it later."""
    return min(_taken(given), _as_written(given, photo) or _taken(given))


def _as_written(verdict: CaptureTime, photo: PhotoSaid) -> str | None:
    """The believed claim as it stands in the file, which a correction does not change."""
    return None if verdict.chosen is None or verdict.source == "by hand" else photo.said[verdict.chosen].claim.when


def _is_uncorrected(mine: CaptureTime, given: CaptureTime, photo: PhotoSaid) -> bool:
    """Whether a copy that lost the name of its camera still has the time that was corrected there."""
    is_same = has_clock(mine.taken) and mine.taken == _as_written(given, photo)
    return is_same and mine.source == given.source == "exif original" and mine.taken != given.taken


def _can_give(given: CaptureTime, mine: CaptureTime) -> bool:
    """Whether one copy may hand its time to another."""
    if given.source == "by hand":
        return True
    if not (is_own(given) or given.source == "copy") or not has_day(given.taken):
        return False
    return not is_own(mine) or _is_name_of_saving(mine, given)


def _is_name_of_saving(mine: CaptureTime, given: CaptureTime) -> bool:
    """A dated name alone, later than the camera's own date in the copy, tells when that copy was saved."""
    if mine.source != "file name" or given.source != "exif original" or not mine.taken or not given.taken:
        return False
    return span(given.taken)[1] < span(mine.taken)[0]


def _preference(twin: _Twin, verdict: CaptureTime) -> tuple[bool, bool, bool, float, str]:
    """What was told by hand first, then what is not doubtful, exact, and surely a copy."""
    return (verdict.source != "by hand", verdict.doubtful, not has_clock(verdict.taken), -twin.score, twin.key)


def _disagreeing(verdicts: Verdicts, key: str, others: Sequence[_Twin], world: World) -> str | None:
    """The first copy with a time of its own in another week."""
    mine = verdicts[key]
    for twin in others:
        other = verdicts[twin.key]
        if is_own(other) and not world.weeks.may_be_same(_taken(mine), _taken(other)) and mine.source != "by hand":
            return twin.key
    return None


def _taken(verdict: CaptureTime) -> str:
    return verdict.taken or ""


def _name(photo: PhotoSaid) -> str:
    return photo.files[0].name
