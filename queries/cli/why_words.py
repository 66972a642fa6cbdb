"""What speaks for a photo's time, as JSON and in words: the claims as a small table, the verdict in one sentence."""

import textwrap
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby
from pathlib import Path
from typing import Any, NamedTuple

from queries.behind import Behind
from queries.cli.clock_words import held_fields
from queries.cli.documents import photo_fields
from queries.cli.output import columns, width
from queries.cli.visible import visible
from queries.cli.wording import taken_words
from queries.evidence import EvidenceRow
from queries.photos import Photo
from queries.settings import Settings
from queries.shifts import shift_words
from queries.weeks import week_words

#: The fewest letters of what is written that the table shows.
_LEAST = 16


class _Line(NamedTuple):
    """One row of the table; `path` is the file it stands in, '' for what stands in none; `problem` goes below it."""

    mark: str
    source: str
    says: str
    written: str
    path: str = ""
    problem: str = ""


def document(photo: Photo, rows: Sequence[EvidenceRow], found: Behind, settings: Settings) -> dict[str, Any]:
    return {
        **photo_fields(photo, settings),
        "missing": not photo.is_there,
        "evidence": [
            {
                "source": row.source,
                "text": row.text,
                "claimed": row.claimed,
                "precision": row.precision,
                "zone": row.zone,
                "arrival": row.is_arrival,
                "problem": row.problem,
                "path": row.path,
                "chosen": row.is_chosen,
            }
            for row in rows
        ],
        "correction": found.correction and {**held_fields(found.correction), "corrected": found.corrected},
        "twin": found.twin and {"path": found.twin.path, "code": found.twin.code, "key": found.twin.key},
        "by_hand": {"first_day": found.week, "taken": found.taken},
    }


def lines(photo: Photo, rows: Sequence[EvidenceRow], found: Behind, settings: Settings) -> Iterator[str]:
    """The verdict in one sentence, then every claim, the believed one marked, then what else stands behind it."""
    day = photo.album_day(settings.day_starts_at)
    week = settings.week_rule.whole_week_of(day) if day else None
    zone = f" ({photo.zone})" if photo.zone else ""
    hand = ", put there by hand" if photo.assigned else ""
    yield f"{photo.code}  {visible(photo.path)}{'' if photo.is_there else ', which is no longer there'}"
    yield f"taken {taken_words(photo)}{zone}, {'in ' + week_words(week) + hand if week else 'in no week'}"
    end = "" if photo.reason.endswith("?") else "."
    yield from _wrapped(f"{'Doubtful' if photo.doubtful else 'Settled'}: {visible(photo.reason)}{end}")
    yield ""
    yield from _table([*_evidence_lines(rows, found), *_other_lines(photo, found, settings)])
    if photo.doubtful:
        yield ""
        yield f"To settle it: weeksheaf assign {photo.code} WEEK, or --taken TIME"


def _table(shown: Sequence[_Line]) -> Iterator[str]:
    head = ("", "source", "says", "as written")
    room = width() - sum(2 + max(len(cells[place]) for cells in (head, *shown)) for place in (0, 1, 2))
    cut = [(line.mark, line.source, line.says, _cut(line.written, max(room, _LEAST))) for line in shown]
    first, *cells = columns([head, *cut])
    yield first
    is_one_file = len({line.path for line in shown if line.path}) <= 1
    for path, group in groupby(zip(shown, cells, strict=True), lambda pair: pair[0].path):
        if path and not is_one_file:
            yield f"in {visible(path)}"
        for line, text in group:
            yield text
            if line.problem:
                yield from _wrapped(f"      {visible(line.problem)}", 6)


def _evidence_lines(rows: Sequence[EvidenceRow], found: Behind) -> Iterator[_Line]:
    """A row a claim; below the one that a clock correction applies to, what it comes to."""
    for row in rows:
        says = " ".join(part for part in (_clock(row.claimed), row.zone, _arrived(row)) if part)
        mark = "->" if row.is_chosen and not found.taken else ""
        problem = row.problem if row.claimed or not row.problem else f"not used: {row.problem}"
        yield _Line(mark, row.source, says or "-", visible(row.text), row.path, problem or "")
        if found.correction and row.is_chosen and row.claimed == found.own and found.corrected:
            shift = shift_words(found.correction.correction.shift_seconds)
            by = f"correction {found.correction.number}"
            yield _Line("", "  clock corrected", _clock(found.corrected), f"{shift}, {by}", row.path)


def _arrived(row: EvidenceRow) -> str:
    """That a name tells when a file came; a file's own time never tells more."""
    return "arrived" if row.is_arrival and row.source != "file time" else ""


def _other_lines(photo: Photo, found: Behind, settings: Settings) -> Iterator[_Line]:
    """What stands in no file: the copy whose time it has, its number among others, and what the person said."""
    if found.twin:
        mark = "" if found.taken else "->"
        name = f"{found.twin.code} {visible(Path(found.twin.path).name)}"
        yield _Line(mark, "its copy", _clock(found.twin.taken), name)
    if photo.source == "file numbers":
        yield _Line("->", "its number", f"about {photo.taken}", visible(Path(photo.path).name))
    if found.taken:
        yield _Line("->", "you", _clock(found.taken), "weeksheaf assign --taken")
    if found.week:
        week = settings.week_rule.whole_week_of(date.fromisoformat(found.week) + timedelta(days=3))
        yield _Line("", "you", f"week {week.name if week else found.week}", "weeksheaf assign WEEK")
    elif photo.assigned:
        yield _Line("", "you", "the week of its copy", "weeksheaf assign WEEK")


def _clock(time: str | None) -> str:
    return (time or "").replace("T", " ")


def _cut(text: str, room: int) -> str:
    """The text with its middle left out where it is too long for the table; --json has it whole."""
    if len(text) <= room:
        return text
    half = (room - 3) // 2
    return f"{text[: room - 3 - half]}...{text[len(text) - half :]}"


def _wrapped(text: str, indent: int = 0) -> list[str]:
    return textwrap.wrap(text, width(), subsequent_indent=" " * indent, break_long_words=False, break_on_hyphens=False)
