"""Dates as they are written, to ISO 8601 text: as exact as they are, and never rolled over."""

from datetime import datetime

from indexer.facts.records import Precision

#: Precision and letters of the ISO 8601 text, by how many of year, month, day, hour, minute, second are known.
_FORMS: dict[int, tuple[Precision, int]] = {
    1: ("year", 4),
    2: ("month", 7),
    3: ("day", 10),
    5: ("minute", 16),
    6: ("second", 19),
}

#: No date as anybody writes it is longer; what is longer is cut, so that a crafted file does not fill the index.
LONGEST_TEXT = 64
NO_SUCH_TIME = "no such day or time"


def iso_text(*fields: int) -> tuple[str, Precision]:
    """The text and its precision, from a year alone to all of year, month, day, hour, minute and second.

    Raises ValueError for what no calendar or clock shows, such as a month 13, 30 February, or an hour without minutes.
    """
    if len(fields) not in _FORMS:
        raise ValueError(fields)
    precision, letters = _FORMS[len(fields)]
    year, month, day, *time = (*fields, 1, 1) if len(fields) < 3 else fields
    hour, minute, second = (*time[: max(len(fields) - 3, 0)], 0, 0, 0)[:3]
    moment = datetime(year, month, day, hour, minute, second)  # noqa: DTZ001 - a wall clock has no zone
    return moment.isoformat()[:letters], precision


def is_blank(text: str) -> bool:
    """Whether nothing but zeros and marks stands in it: so cameras and scanners write a time that they do not know."""
    return not any(letter.isalnum() and letter != "0" for letter in text)
