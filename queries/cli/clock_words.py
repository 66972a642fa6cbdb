"""Cameras' clocks and their corrections, as JSON and in words."""

import textwrap
from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from queries.cameras import Held, KnownCamera
from queries.cli.moving import done_lines, moved_line
from queries.cli.output import columns, plural, width
from queries.cli.visible import visible
from queries.cli.wording import suggestions_line
from queries.shifts import shift_text, shift_words
from queries.suggestions import LikelyCorrection
from queries.week_moves import WeekMoves
from queries.weeks import date_words, week_words

# ------------------------------------------------------------------------------------------------------------- JSON


def cameras_document(cameras: Sequence[KnownCamera], held: Sequence[Held], suggestions: int) -> dict[str, Any]:
    return {
        "cameras": [
            {
                "number": known.number,
                **camera_fields(known),
                "photos": known.photos,
                "first": known.first,
                "last": known.last,
                "corrections": [held_fields(item) for item in held if item.camera == known],
            }
            for known in cameras
        ],
        "suggestions": suggestions,
    }


def camera_fields(known: KnownCamera) -> dict[str, Any]:
    return {
        "camera": known.name,
        "make": known.camera.make,
        "model": known.camera.model,
        "serial": known.camera.serial,
    }


def held_fields(held: Held) -> dict[str, Any]:
    correction = held.correction
    return {
        "number": held.number,
        **camera_fields(held.camera),
        **_span_fields(correction.shift_seconds, correction.since, correction.until),
        "told_at": correction.told_at,
    }


def moves_fields(moves: WeekMoves) -> dict[str, Any]:
    return {"weeks_changed": len(moves.keys), "done_weeks": [week.name for week in moves.done]}


def suggestions_document(found: Sequence[LikelyCorrection]) -> dict[str, Any]:
    return {
        "suggestions": [
            {
                "number": item.number,
                **camera_fields(item.camera),
                **_span_fields(item.shift_seconds, item.since, item.until),
                "grounds": item.grounds,
                "photos": item.photos,
                **moves_fields(item.moves),
            }
            for item in found
        ]
    }


def _span_fields(shift: int, since: str | None, until: str | None) -> dict[str, Any]:
    return {"shift": shift_text(shift), "shift_seconds": shift, "from": since, "until": until}


# ------------------------------------------------------------------------------------------------------------ words


def camera_lines(cameras: Sequence[KnownCamera], held: Sequence[Held], suggestions: int) -> Iterator[str]:
    """The cameras with what their own clocks say, then the corrections that hold."""
    if not cameras:
        yield "No photo names its camera."
        return
    rows = [("", "camera", "serial", "photos", "first", "last")]
    rows += [
        (
            str(known.number),
            visible(known.name),
            visible(known.camera.serial),
            f"{known.photos:,}",
            _day_words(known.first),
            _day_words(known.last),
        )
        for known in cameras
    ]
    yield from columns(rows, numbers=[0, 3])
    yield "First and last are what the cameras' own clocks say."
    yield ""
    yield "Corrections that hold:" if held else "No clock is corrected; weeksheaf clock set CAMERA SHIFT corrects one."
    for item in held:
        yield from _wrapped(f"{item.number}  {held_words(item)}", 3)
    if held:
        yield "weeksheaf clock forget NUMBER takes one back."
    if suggestions:
        yield suggestions_line(suggestions)


def held_words(held: Held) -> str:
    """ "Tidewell TW-100 (0042): +1 h, its own times from 29 Mar 2026 02:00 on"."""
    correction = held.correction
    return _correction_words(held.camera, correction.shift_seconds, correction.since, correction.until)


def told_lines(held: Held, moves: WeekMoves) -> Iterator[str]:
    """What holds now, and what it moved."""
    yield from _wrapped(f"Corrected: {held_words(held)}")
    yield moved_line(moves)
    yield from done_lines(moves)


def forgotten_lines(held: Held, moves: WeekMoves) -> Iterator[str]:
    """What no longer holds, and what that moved."""
    yield from _wrapped(f"Taken back: {held_words(held)}")
    yield moved_line(moves)
    yield from done_lines(moves)


def suggestion_lines(found: Sequence[LikelyCorrection], *, is_told: bool = False) -> Iterator[str]:
    """Each likely correction with its grounds and what it would do; `is_told` where the person has corrected some."""
    if not found:
        but = ", where you have not corrected it yourself: weeksheaf clock" if is_told else "."
        yield f"Nothing speaks against any camera's clock{but}"
        return
    for item in found:
        words = _correction_words(item.camera, item.shift_seconds, item.since, item.until)
        yield from _wrapped(f"{item.number}  {words}", 3)
        yield from _wrapped(f"   {visible(item.grounds)}", 3)
        yield from _wrapped(f"   {_effect_words(item)}", 3)
        yield ""
    yield f"To apply one: weeksheaf clock set --suggested {found[0].number}"


def _effect_words(item: LikelyCorrection) -> str:
    done = ", ".join(week_words(week) for week in item.moves.done)
    touched = f"; it touches a week that is done ({done})" if len(item.moves.done) == 1 else f"; done weeks: {done}"
    weeks = plural(len(item.moves.keys), "changes its week", "change their weeks")
    return f"{plural(item.photos, 'photo')}, of which {weeks}{touched if done else ''}"


def _correction_words(camera: KnownCamera, shift: int, since: str | None, until: str | None) -> str:
    added = shift_words(shift) if shift else "it goes right"
    return f"{visible(camera.whole_name)}: {added}, {_span_words(since, until)}"


def _span_words(since: str | None, until: str | None) -> str:
    """The span of a camera's own times."""
    first, end = _moment_words(since), _moment_words(until)
    if since and until:
        return f"its own times from {first} to before {end}"
    if since:
        return f"its own times from {first} on"
    return f"its own times before {end}" if until else "all its photos"


def _moment_words(moment: str | None) -> str:
    """ "30 Mar 2026 09:15", with seconds where there are any, without the clock where it is the day's beginning."""
    clock = (moment or "")[11:].removesuffix(":00").removesuffix("00:00")
    return f"{_day_words(moment)} {clock}".strip()


def _day_words(moment: str | None) -> str:
    return date_words(date.fromisoformat(moment[:10])) if moment else "-"


def _wrapped(text: str, indent: int = 0) -> list[str]:
    return textwrap.wrap(text, width(), subsequent_indent=" " * indent, break_long_words=False, break_on_hyphens=False)
