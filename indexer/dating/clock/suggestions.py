"""The likely clock corrections of an archive: the story. Pure.

First the satellites, who need no second camera. Then scenes: the cameras in the order of how well they are vouched for,
each compared with the better ones, whose own corrections are taken as right. Last the clocks that fell back to their
factory date where no scene tells by how much. Of two devices that disagree and are vouched for equally, none is blamed.
"""

from collections.abc import Iterable, Sequence
from datetime import date

from indexer.dating.album_weeks import AlbumWeeks
from indexer.dating.clock.factory import factory_finding
from indexer.dating.clock.findings import suggestions_from
from indexer.dating.clock.inquiry import Case, Inquiry, inquiry
from indexer.dating.clock.rolls import rolls_of
from indexer.dating.clock.satellites import satellite_findings, satellite_votes
from indexer.dating.clock.scenes import run_finding, scene_findings
from indexer.dating.clock.seconds import DAY, seconds_of_day
from indexer.dating.clock.trust import agreeing, vouchers
from indexer.dating.clock.zone import OffsetOf, home_zone
from indexer.dating.values import Correction, SameScene, Shot, Suggestion

ISO_WEEKS = AlbumWeeks()


def suggestions(
    shots: Iterable[Shot],
    scenes: Iterable[SameScene],
    corrections: Iterable[Correction],
    offset_of: OffsetOf,
    today: date,
    weeks: AlbumWeeks = ISO_WEEKS,
) -> list[Suggestion]:
    """The corrections that the evidence speaks for, by camera and in the order of their spans; they overlap neither
    each other nor those that hold.

    `shots`: photos with a camera's own time, `scenes`: pairs of photos of two devices that show one scene, bursts of
    two devices among them. `offset_of`: minutes east of Greenwich of the home zone at a naive local time. `weeks`: what
    a week is, to tell whether a bounded time settles it.
    """
    rolls = rolls_of(shots, corrections)
    zone = home_zone(offset_of, [own for roll in rolls for own in roll.own], today)
    latest = seconds_of_day(today) + 2 * DAY  # somewhere it is tomorrow already
    asked = inquiry(rolls, scenes, zone, latest)
    _ask_satellites(asked)
    for number in _best_first(asked.cases):
        _ask_scenes(asked, number)
    for case in asked.cases:
        found = (factory_finding(case.roll, run, weeks) for run in case.runs())
        case.add([finding for finding in found if finding])
    return [suggestion for case in asked.cases for suggestion in _in_order(case)]


def _ask_satellites(asked: Inquiry) -> None:
    """Correct what the satellites contradict, set aside what is after a battery change, and rank the cameras."""
    points = []
    for case in asked.cases:
        fixes = satellite_votes(case.roll, asked.zone, asked.latest)
        case.add(satellite_findings(case.roll, fixes, asked.zone))
        points.append(0 if case.findings else vouchers(case.roll, fixes))
        case.doubt(case.runs())
    agreed = agreeing(asked.votes_by_pair())
    for number, case in enumerate(asked.cases):
        case.rank = (points[number], agreed[number])


def _best_first(cases: Sequence[Case]) -> list[int]:
    return sorted(range(len(cases)), key=lambda number: cases[number].rank, reverse=True)


def _ask_scenes(asked: Inquiry, number: int) -> None:
    """Compare one camera with the better ones, then each of its runs after a battery change with all."""
    case = asked.cases[number]
    aside = {place for run in case.runs() for place in run.places}
    case.add(scene_findings(case.roll, asked.votes(number), sorted(case.open - aside), asked.zone))
    runs = case.runs()
    votes = asked.votes(number, from_all=True) if runs else []
    found = (run_finding(case.roll, run, votes) for run in runs)
    case.add([finding for finding in found if finding])


def _in_order(case: Case) -> list[Suggestion]:
    return sorted(suggestions_from(case.roll, case.findings), key=lambda one: (one.since or "", one.until or "~"))
