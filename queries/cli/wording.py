"""Results in words: all that a person reads on the terminal is worded here."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from itertools import groupby
from pathlib import Path

from queries.cli.output import ROOMY, columns, plural, width
from queries.cli.visible import visible
from queries.devices import Device
from queries.photos import Photo
from queries.progress import Gap, WeekRow, WeekTable
from queries.settings import Settings
from queries.week_log import Word
from queries.weeks import date_words, day_words, short_week_words, week_words

_NONE = "."

#: The steps that can fail on a file.
_STEP_WORDS = {
    "open": "cannot be opened",
    "header": "no photo in it",
    "metadata": "camera and date unread",
    "pixels": "picture damaged",
    "reader": "given up",
}


def wait_words(waiting_for: Sequence[str]) -> str:
    """ "supplies (slate-blue cards), prints, photos from Aunt"."""
    parts = (visible(wait).partition(":") for wait in waiting_for)
    return ", ".join(_wait(kind, what) for kind, _, what in parts)


def _wait(kind: str, what: str) -> str:
    if not what:
        return kind
    return f"photos from {what}" if kind == "photos" else f"{kind} ({what})"


def state_words(word: Word) -> str:
    """ "waiting for supplies (slate-blue cards)"."""
    return f"waiting for {wait_words(word.waiting_for)}" if word.waiting_for else word.state


# ---------------------------------------------------------------------------------------------------------- weeks


def week_table(table: WeekTable) -> Iterator[str]:
    """The weeks at a glance, days first, newest last."""
    if not table.lines:
        yield "No weeks to list."
    else:
        heads = (
            ("week", "state", "photos", "keepers", "portrait", "landscape", "square", "doubtful", "late")
            if width() >= ROOMY
            else ("week", "state", "photos", "keep", "port", "land", "sq", "doubt", "late")
        )
        set_rows = columns([heads, *(_week_cells(row) for row in table.rows)], numbers=range(2, 9))
        yield set_rows[0]
        rows = iter(set_rows[1:])
        for line in table.lines:
            yield from [_gap(line)] if isinstance(line, Gap) else _week_lines(next(rows), line)
    inside = sum(row.doubtful for row in table.rows)
    where = [f"{count:,} {says}" for count, says in ((inside, "in these weeks"), (table.outside, "outside")) if count]
    if where:
        yield ""
        yield f"Photos with a doubtful date: {', '.join(where)}: weeksheaf undated"


def _week_lines(cells: str, row: WeekRow) -> Iterator[str]:
    yield cells
    if row.word.waiting_for:
        yield f"    waits for {wait_words(row.word.waiting_for)}"


def _week_cells(row: WeekRow) -> tuple[str, ...]:
    counts = (row.photos, row.keepers, row.portrait, row.landscape, row.square, row.doubtful, row.late)
    week = week_words(row.week) if width() >= ROOMY else short_week_words(row.week)
    return (week, row.word.state, *(f"{count:,}" if count else _NONE for count in counts))


def _gap(gap: Gap) -> str:
    first, last = gap.first.first_day, gap.last.last_day
    return f"    {gap.weeks:,} weeks without photos, {date_words(first)} - {date_words(last)}"


# -------------------------------------------------------------------------------------------------------- a photo


def clock_words(photo: Photo) -> str:
    """ "09:15", "day only", or "about then" where it lies between two others."""
    taken = photo.taken or ""
    if len(taken) > 10:
        return taken[11:16]
    return {"between": "about then", "day": "day only"}.get(photo.precision, "no day")


def taken_words(photo: Photo) -> str:
    """When a photo was taken as far as is known: "Mon 30 Mar 2026 09:15:20", "Mon 30 Mar 2026", "1996-08", "unknown",
    or "about Mon 30 Mar 2026" where it lies between two others."""
    if photo.taken is None:
        return "unknown"
    if len(photo.taken) < 10:
        return photo.taken
    day = datetime.fromisoformat(photo.taken).date()
    about = "about " if photo.precision == "between" else ""
    return f"{about}{day_words(day)} {day.year} {photo.taken[11:]}".strip()


# ------------------------------------------------------------------------------------------------ single questions


def undated(photos: Sequence[Photo], settings: Settings, suggestions: int) -> Iterator[str]:
    """The photos to be looked at, each with its reason, then the ways to settle them. `suggestions` counts the likely
    corrections of cameras' clocks."""
    if not photos:
        yield "Every photo has a time that nothing speaks against."
        return
    yield f"{plural(len(photos), 'photo')} to look at; weeksheaf why CODE shows what is known of one"
    for reason, group in groupby(sorted(photos, key=lambda photo: photo.reason), lambda photo: photo.reason):
        yield ""
        yield reason if reason.endswith("?") else f"{reason}:"
        yield from columns([_undated_cells(photo, settings) for photo in group])
    yield ""
    if suggestions:
        yield suggestions_line(suggestions, " and may settle some of these")
    yield "To settle one: weeksheaf assign CODE WEEK, or weeksheaf assign CODE --taken TIME"


def suggestions_line(count: int, more: str = "") -> str:
    """That corrections are likely, and what shows them."""
    return f"{plural(count, 'clock correction is', 'clock corrections are')} likely{more}: weeksheaf clock suggest"


def _undated_cells(photo: Photo, settings: Settings) -> tuple[str, ...]:
    day = photo.album_day(settings.day_starts_at)
    week = settings.week_rule.whole_week_of(day) if day else None
    return (f"  {photo.code}", taken_words(photo), week.name if week else "no week", visible(Path(photo.path).name))


def devices(found: Sequence[Device], uncopied: Sequence[Device]) -> Iterator[str]:
    """Cameras and phones with their first and last photo."""
    if not found:
        yield "No photos yet."
        return
    rows = [("camera or phone", "serial", "photos", "first", "last")]
    rows += [
        (
            visible(device.camera or "(no camera named)"),
            visible(device.serial or ""),
            f"{device.photos:,}",
            _day_of(device.first),
            _day_of(device.last),
        )
        for device in found
    ]
    yield from columns(rows, numbers=[2])
    yield from uncopied_lines(uncopied, found)


def uncopied_lines(uncopied: Sequence[Device], found: Sequence[Device]) -> Iterator[str]:
    """A sentence for each device that ends weeks before the others."""
    newest = max((device.last for device in found if device.last), default="")
    for device in uncopied:
        last = device.last or ""
        weeks = (datetime.fromisoformat(newest[:10]) - datetime.fromisoformat(last[:10])).days // 7
        yield (
            f"The {visible(device.camera or '')} ends on {_day_of(last)}, {plural(weeks, 'week')} before the newest"
            " photo: it has probably not been copied yet."
        )


def _day_of(taken: str | None) -> str:
    return date_words(datetime.fromisoformat(taken[:10]).date()) if taken else "-"


def unreadable(rows: Sequence[tuple[str, str, str]]) -> Iterator[str]:
    """Files with the step that failed and the reason."""
    if not rows:
        yield "Every file could be read."
    for path, step, reason in rows:
        yield visible(path)
        yield f"    {_STEP_WORDS[step]}: {visible(reason)}"
