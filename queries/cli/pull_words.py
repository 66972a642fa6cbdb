"""What a pull did, as JSON and in words."""

from collections.abc import Iterator, Sequence
from typing import Any

from indexer.errors import PullError
from queries.cli.documents import week_fields
from queries.cli.output import plural
from queries.cli.visible import visible
from queries.pull import PullResult
from queries.weeks import Week


def document(week: Week, result: PullResult) -> dict[str, Any]:
    return {
        "week": week_fields(week),
        "folder": str(result.folder),
        "added": list(result.added),
        "kept": list(result.kept),
        "left": _pairs("file", result.left),
        "not_found": _pairs("path", result.not_found),
        "failed": _pairs("file", result.failed),
        "notes": _pairs("file", result.notes),
        "left_out": list(result.left_out),
        "sheets": [str(path) for path in result.sheets],
        "bytes_written": result.bytes_written,
    }


def lines(result: PullResult) -> Iterator[str]:
    folder = visible(str(result.folder))
    there = f", {plural(len(result.kept), 'photo')} there already" if result.kept else ""
    if result.added or not result.kept:
        yield f"{plural(len(result.added), 'photo')} added{there}: {folder}"
    else:
        yield f"Nothing to add, {plural(len(result.kept), 'photo')} there already: {folder}"
    for title, pairs in (
        ("left as it is", result.left),
        ("not copied", result.not_found),
        ("failed", result.failed),
        ("note", result.notes),
    ):
        for name, reason in pairs:
            yield f"  {title}: {visible(name)}: {visible(reason)}"
    if result.left_out:
        yield f"{plural(len(result.left_out), 'photo')} left out, small on the week sheet; --all takes every photo"
    for sheet in result.sheets:
        yield f"Week sheet: {visible(str(sheet))}"


def incomplete(result: PullResult) -> PullError:
    """The line for photos that could not be pulled."""
    count = len(result.failed) + len(result.not_found)
    return PullError(
        f"{plural(count, 'photo')} could not be pulled into {result.folder}, each with its reason above; pull again"
        " when that is mended"
    )


def _pairs(name: str, pairs: Sequence[tuple[str, str]]) -> list[dict[str, str]]:
    return [{name: subject, "reason": reason} for subject, reason in pairs]
