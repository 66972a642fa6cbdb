"""Times as a person types them. Pure."""

import re
from datetime import date, datetime, timedelta

from indexer.errors import WordError

_MOMENT = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})[ T]([0-9]{1,2}):([0-9]{2})(?::([0-9]{2}))?")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_LESS = re.compile(r"[0-9]{4}(?:-[0-9]{2})?")


def parse_moment(text: str) -> str:
    """A clock's time to the second in ISO 8601, from "2026-03-02 18:20", with seconds or without, or from a date (its
    first moment). Raises WordError."""
    word = " ".join(text.split())
    try:
        if _DAY.fullmatch(word):
            return datetime.fromisoformat(word).isoformat()
        if found := _MOMENT.fullmatch(word):
            return _clock(found).isoformat()
    except ValueError:
        raise _no_such(word) from None
    raise WordError(f"{word!r} is no time of a clock; write it like 2026-03-02 18:20")


def parse_taken(text: str, today: date) -> str:
    """When a photo was taken, in ISO 8601 as exact as it is told: seconds, minutes, a date, a month or a year.

    Raises WordError, also for what lies after tomorrow.
    """
    word = " ".join(text.split())
    try:
        if found := _MOMENT.fullmatch(word):
            when = _clock(found).isoformat(timespec="seconds" if found[4] else "minutes")
        elif _DAY.fullmatch(word):
            when = date.fromisoformat(word).isoformat()
        elif _LESS.fullmatch(word):
            when = date.fromisoformat(f"{word}-01-01"[:10] if len(word) == 4 else f"{word}-01").isoformat()[: len(word)]
        else:
            raise WordError(
                f"{word!r} is no time; write it like 2026-03-30 14:00, or what is known: 2026-03-30, 2026-03, 2026"
            )
    except ValueError:
        raise _no_such(word) from None
    if when[:10] > (today + timedelta(days=1)).isoformat():
        raise WordError(f"{word} is yet to come: give the time at which the photo was taken")
    return when


def _clock(found: re.Match[str]) -> datetime:
    return datetime.fromisoformat(f"{found[1]}T{int(found[2]):02}:{found[3]}:{found[4] or '00'}")


def _no_such(word: str) -> WordError:
    return WordError(f"there is no time {word}: give one that exists")
