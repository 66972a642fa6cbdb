"""What an index run found, as JSON and in words."""

import os
import sqlite3
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from indexer.errors import FolderError
from indexer.scan import Summary
from queries.cli.documents import device_fields
from queries.cli.output import plural
from queries.cli.visible import visible
from queries.cli.wording import suggestions_line, uncopied_lines
from queries.devices import Device, devices, uncopied
from queries.evidence import count_suggestions
from queries.photos import count_doubtful
from queries.progress import week_table
from queries.settings import Settings


@dataclass(frozen=True, slots=True)
class Standing:
    """How the whole index stands after a run."""

    undated: int
    late: int
    weeks: int
    clock_suggestions: int
    devices: Sequence[Device]
    uncopied: Sequence[Device]


def standing(connection: sqlite3.Connection, settings: Settings) -> Standing:
    table = week_table(connection, settings)
    found = devices(connection)
    return Standing(
        undated=count_doubtful(connection),
        late=sum(row.late for row in table.rows),
        weeks=sum(bool(row.photos) for row in table.rows),
        clock_suggestions=count_suggestions(connection),
        devices=found,
        uncopied=uncopied(found),
    )


def document(summary: Summary, now: Standing) -> dict[str, Any]:
    counts = (
        "found", "new", "changed", "moved", "unchanged", "missing", "other", "unreadable", "looked", "not_looked",
        "copies", "bursts",
    )  # fmt: skip
    return {
        **{name: getattr(summary, name) for name in counts},
        "undated": now.undated,
        "late": now.late,
        "weeks": now.weeks,
        "clock_suggestions": now.clock_suggestions,
        "not_entered": summary.skipped,
        "out_of_reach": summary.held,
        "closed": [{"path": path, "reason": reason} for path, reason in summary.closed],
        "not_copied_yet": [device_fields(device, now.uncopied) for device in now.uncopied],
        "stopped": summary.was_stopped,
    }


def lines(summary: Summary, now: Standing, folders: Sequence[Path]) -> Iterator[str]:
    where = f" in {visible(', '.join(map(os.fspath, folders)))}" if folders else " in the library"
    fates = ("new", "changed", "moved", "unchanged")
    told = ", ".join(f"{getattr(summary, fate):,} {fate}" for fate in fates if getattr(summary, fate))
    yield f"{plural(summary.found, 'photo file')} found{where}" + (f": {told}" if told else "")
    for count, words in (
        (
            summary.missing,
            f"{plural(summary.missing, 'photo is', 'photos are')} no longer there; nothing told of them is lost",
        ),
        (summary.other, f"{plural(summary.other, 'other file')}, not photos"),
        (summary.unreadable, f"{plural(summary.unreadable, 'file')} not readable in full: weeksheaf unreadable"),
    ):
        if count:
            yield f"  {words}"
    if summary.skipped:
        skipped = plural(summary.skipped, "hidden file, folder or link", "hidden files, folders or links")
        yield f"  {skipped} not entered"
    for path, reason in summary.closed:
        yield f"  not entered: {visible(path)} ({reason})"
    yield f"{plural(now.weeks, 'week')} with photos in the whole library: weeksheaf weeks --unfinished"
    if now.undated:
        yield f"  {plural(now.undated, 'photo')} with a doubtful date: weeksheaf undated"
    if now.clock_suggestions:
        yield f"  {suggestions_line(now.clock_suggestions)}"
    if sets := summary.copies + summary.bursts:
        kinds = ", ".join(
            plural(count, *words)
            for count, words in ((summary.copies, ("copy", "copies")), (summary.bursts, ("burst",)))
            if count
        )
        yield f"  {plural(sets, 'set')} of photos alike ({kinds}): weeksheaf alike"
    if now.late:
        yield f"  {plural(now.late, 'photo')} not on the pages of the done weeks they belong to: weeksheaf weeks"
    yield from uncopied_lines(now.uncopied, now.devices)


def held_error(summary: Summary) -> FolderError:
    """The line for folders that held photos and show none."""
    names = ", ".join(summary.held)
    return FolderError(
        f"{names} held photos and is empty or out of reach now; nothing was marked missing. Connect its disk and index"
        f" again, or, if the photos are gone for good: weeksheaf index {names if len(summary.held) == 1 else 'FOLDER'}"
        " --accept-missing"
    )
