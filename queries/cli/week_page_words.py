"""All of one week, as JSON and in words."""

from collections.abc import Iterator
from datetime import datetime
from itertools import groupby
from pathlib import Path
from typing import Any

from queries.cli.alike_remarks import alike_remark
from queries.cli.documents import photo_fields, week_fields, word_fields
from queries.cli.note_words import brief_lines, note_fields
from queries.cli.order_words import order_state_words
from queries.cli.output import ROOMY, columns, plural, width
from queries.cli.visible import visible
from queries.cli.wording import clock_words, state_words, taken_words
from queries.finished import Finished
from queries.photos import Photo, days_of_several_zones
from queries.settings import Settings
from queries.week_page import WeekPage
from queries.weeks import date_words, day_words, week_words


def document(page: WeekPage, settings: Settings) -> dict[str, Any]:
    shown = [photo_fields(photo, settings) for photo in page.photos]
    return {
        **week_fields(page.week),
        "state": page.word.state,
        "waiting_for": list(page.word.waiting_for),
        "days": [
            {"day": day.isoformat(), "photos": sum(photo["day"] == day.isoformat() for photo in shown)}
            for day in page.week.days()
        ],
        "photos": shown,
        "keepers": sum(photo.keeper for photo in page.photos),
        "late": [photo.code for photo in page.finished.late],
        "late_copies": [{"code": photo.code, "copy_of": code} for photo, code in page.finished.copies],
        "gone": list(page.finished.gone),
        "log": [word_fields(entry) for entry in page.log],
        "notes": [note_fields(note) for note in page.notes],
        "orders": [{"order": order.name, "state": order.state} for order in page.orders],
    }


def lines(page: WeekPage, settings: Settings) -> Iterator[str]:
    """One week: its state and history, then its days and photos."""
    yield from head(page)
    week, photos, starts_at = page.week, page.photos, settings.day_starts_at
    abroad = days_of_several_zones(photos, week, starts_at)
    rows = [photo_cells(photo, zoned=photo.shown_day(week, starts_at) in abroad) for photo in photos]
    cells = columns(rows) if rows else []
    for day, group in groupby(zip(photos, cells, strict=True), lambda pair: pair[0].shown_day(week, starts_at)):
        yield ""
        yield day_words(day) if day else "Put here by hand"
        for photo, line in group:
            yield "  " + line
            yield from remarks(photo)


def head(page: WeekPage) -> Iterator[str]:
    """One week: its state, history, own words and orders, without its photos."""
    week, photos, word = page.week, page.photos, page.word
    mark = ";" if word.waiting_for else ","
    keepers = sum(photo.keeper for photo in photos)
    kept = f", {plural(keepers, 'keeper')}" if keepers < len(photos) else ""
    yield f"{week_words(week)} ({week.name}): {state_words(word)}{mark} {plural(len(photos), 'photo')}{kept}"
    for entry in page.log:
        told = datetime.fromisoformat(entry.told_at).astimezone()
        note = f"  {visible(entry.note)}" if entry.note else ""
        yield f"  {date_words(told.date())} {told:%H:%M}  {state_words(entry)}{note}"
    yield from brief_lines(page.notes)
    if page.orders:
        yield f"  prints: {', '.join(f'{order.name} {order_state_words(order)}' for order in page.orders)}"
    yield from _finished(page.finished)


def _finished(finished: Finished) -> Iterator[str]:
    if finished.late:
        codes = ", ".join(_late_words(photo, finished) for photo in finished.late)
        yield f"  not on the done page: {codes}"
    for photo, code in finished.copies:
        yield f"  {photo.code} is a copy of {code}, which is on the page"
    if finished.gone:
        yield f"  {plural(len(finished.gone), 'photo')} of the done page no longer in this week or library"


def _late_words(photo: Photo, finished: Finished) -> str:
    was = finished.edits.get(photo.key)
    return f"{photo.code} (an edit of {was[:5]}, which is)" if was else photo.code


def photo_cells(photo: Photo, *, zoned: bool = False) -> tuple[str, ...]:
    """Code, time (`zoned`: with its zone), shape and, where there is room, size, camera, file name: one row a photo."""
    return (
        photo.code,
        f"{clock_words(photo)} {photo.zone}" if zoned and photo.zone else clock_words(photo),
        photo.shape,
        *([f"{photo.width} x {photo.height}"] if width() >= ROOMY else []),
        visible(photo.camera or "-"),
        visible(Path(photo.path).name),
    )


def remarks(photo: Photo) -> Iterator[str]:
    """What a person should know about a photo besides."""
    if says := alike_remark(photo):
        yield f"         {says}"
    if photo.assigned:
        yield f"         put here by hand; taken {taken_words(photo)}"
    if photo.doubtful:
        yield f"         date doubtful: {photo.reason}"
    if photo.damage:
        yield f"         damaged: {visible(photo.damage)}"
    if len(photo.paths) > 1:
        yield f"         also at {visible(', '.join(photo.paths[1:]))}"
