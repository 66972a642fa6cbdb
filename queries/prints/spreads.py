"""The spreads of an order's weeks as pictures, to lay beside the work: each drawn whole in one process of a pool."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass

from PIL import Image

from indexer.errors import PrintError
from indexer.facts.pictures import PictureError, open_picture
from indexer.facts.workers import Lost, process_count, run_all
from queries.prints.gathering import PlannedWeek
from queries.spread.gathering import file_of
from queries.spread.picture import DPI, Source, draw_spread
from queries.spread.picture_file import picture_bytes
from queries.spread.values import KeptPlan
from queries.weeks import week_words

#: A spread takes as long as its pictures take to be opened, about a second.
_SECONDS_PER_SPREAD = 300.0
_SPREADS_PER_PROCESS = 1


@dataclass(frozen=True, slots=True)
class SpreadJob:
    """What is needed to draw a week's spread; `sources` by photo key."""

    kept: KeptPlan
    sources: Mapping[str, Source]
    heading: str


def spread_file(week: PlannedWeek) -> str:
    return f"{week.week.name}.png"


def spread_pictures(weeks: Sequence[PlannedWeek]) -> Iterator[tuple[str, bytes]]:
    """Each week's file name and PNG, in no set order. Raises PrintError where one cannot be drawn."""
    jobs = [_job(week) for week in weeks]
    processes = process_count(len(jobs), _SPREADS_PER_PROCESS)
    results = run_all(_drawn, jobs, seconds_per_job=_SECONDS_PER_SPREAD, processes=processes, at_once=1)
    with closing(results):
        for place, drawn in results:
            if isinstance(drawn, Lost):
                raise PrintError(f"the spread of {weeks[place].week.name} cannot be drawn: {drawn.reason}")
            yield spread_file(weeks[place]), drawn


def _job(week: PlannedWeek) -> SpreadJob:
    sources = {key: Source(photo.code, file_of(photo)) for key, photo in week.photos.items()}
    return SpreadJob(week.kept, sources, week_words(week.week))


def _drawn(job: SpreadJob) -> bytes:
    return picture_bytes(draw_spread(job.kept, job.sources, job.heading, opening=_opened_here), "PNG", DPI)


def _opened_here(paths: Sequence[str], within: int) -> dict[str, Image.Image]:
    """In this process, which is one of a pool already."""
    opened = {}
    for path in paths:
        try:
            opened[path] = open_picture(path, within).image
        except PictureError:
            continue
    return opened
