"""Photos alike, as JSON and in words."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from queries.alike import AlikeReport, AlikeSet
from queries.cli.documents import photo_fields, week_fields
from queries.cli.output import columns, plural
from queries.cli.visible import visible
from queries.cli.wording import taken_words
from queries.photos import Photo
from queries.settings import Settings
from queries.weeks import Week, week_words

_HEADS = {
    "copy": ("copy", "copies", "one picture, saved more than once"),
    "burst": ("burst", "bursts", "one scene, taken several times"),
}


def document(report: AlikeReport, week: Week | None, settings: Settings) -> dict[str, Any]:
    return {
        "week": week_fields(week) if week else None,
        "sets": [_set_fields(found, settings) for found in report.sets],
        "not_compared": [{**_names(photo), "reason": reason} for photo, reason in report.not_compared],
        "several_pictures": [{**_names(photo), "pictures": count} for photo, count in report.several],
        "not_looked_at": report.not_looked_at,
    }


def _set_fields(found: AlikeSet, settings: Settings) -> dict[str, Any]:
    """`keeper` and `others` are all of the set; `keepers` are several where the person kept several."""
    keeper = found.keepers[0] if found.keepers else None
    return {
        "kind": found.kind,
        "keeper": keeper and keeper.path,
        "keepers": [photo.path for photo in found.keepers],
        "others": [photo.path for photo in found.photos if photo is not keeper],
        "reason": found.reason,
        "photos": [photo_fields(photo, settings) | {"keeper": photo in found.keepers} for photo in found.photos],
    }


def _names(photo: Photo) -> dict[str, str]:
    return {"path": photo.path, "code": photo.code, "key": photo.key}


def lines(report: AlikeReport, week: Week | None) -> Iterator[str]:
    """The copies, the bursts, then what could not be compared and what counts once."""
    where = f" in {week_words(week)}" if week else ""
    if not report.sets:
        yield f"No photos alike{where}."
    for kind, (one, many, says) in _HEADS.items():
        sets = [found for found in report.sets if found.kind == kind]
        if sets:
            yield f"{_counted(len(sets), one, many)}{where}: {says}"
            for found in sets:
                yield ""
                yield from _set_lines(found)
            yield ""
    yield from _beside(report)


def _counted(count: int, one: str, many: str) -> str:
    return f"{plural(count, 'set')} of {many}" if count > 1 else f"1 {one}"


def _set_lines(found: AlikeSet) -> Iterator[str]:
    photos = found.photos
    first = min(photos, key=lambda photo: photo.taken or "~")
    kept = found.reason if found.keepers else "all of them left out by you"
    yield f"{_day_words(first)}: {plural(len(photos), 'photo')}, {kept}"
    is_one_day = len({(photo.taken or "")[:10] for photo in photos}) == 1
    yield from columns(
        [_cells(photo, is_kept=photo in found.keepers, starts=11 if is_one_day else 0) for photo in photos]
    )


def _day_words(photo: Photo) -> str:
    """ "Wed 18 Mar 2026", or as much as is known."""
    return taken_words(replace(photo, taken=photo.taken and photo.taken[:10]))


def _cells(photo: Photo, *, is_kept: bool, starts: int) -> tuple[str, ...]:
    """One row of a set; its time from letter `starts` on."""
    return (
        "  keep" if is_kept else "",
        photo.code,
        (photo.taken or "unknown").replace("T", " ")[starts:] or "day only",
        f"{photo.width} x {photo.height}",
        visible(photo.camera or "-"),
        visible(Path(photo.path).name),
        "left out of its burst" if is_kept and not photo.keeper else "",
    )


def _beside(report: AlikeReport) -> Iterator[str]:
    if report.not_compared:
        yield f"{plural(len(report.not_compared), 'photo')} not compared, because the pixels cannot be read:"
        for photo, reason in report.not_compared:
            yield f"  {photo.code}  {visible(Path(photo.path).name)}: {visible(reason)}"
    for photo, count in report.several:
        yield f"{photo.code}  {visible(Path(photo.path).name)} holds {count:,} pictures, counts once"
    if report.not_looked_at:
        yield f"{plural(report.not_looked_at, 'photo')} not looked at yet: weeksheaf index"


def standing(photo: Photo, sets: Sequence[AlikeSet], done: Week | None) -> str:
    """What stands now of a photo that something was told of, in one line."""
    parts = [f"{photo.code} is {'kept' if photo.keeper else 'left out'}"]
    if photo.choice is None:
        parts[0] += " by the tool's own choice"
    own = [found for found in sets if any(member.key == photo.key for member in found.photos)]
    parts += [_shown_now(found, photo) for found in own]
    if done:
        parts.append(f"the done page of {week_words(done)} keeps what it holds")
    return "; ".join(parts)


def _shown_now(found: AlikeSet, photo: Photo) -> str:
    name = f"its set of {len(found.photos)}{' copies' if found.kind == 'copy' else ''}"
    if not found.keepers:
        return f"all of {name} are left out"
    others = [keeper.code for keeper in found.keepers if keeper.key != photo.key]
    if len(others) == len(found.keepers):
        return f"{name} now shows {', '.join(others)} ({found.reason})"
    return f"{name} now shows it" + (f" and {', '.join(others)}" if others else "")
