"""Dates in file names: each pattern is one row of a table.

A name yields one claim or none, never a rolled-over date.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime

from indexer.facts.records import Claim, Precision

EARLIEST_YEAR = 1990

#: Digits inside a longer run of digits are no date.
_START, _END = r"(?<!\d)", r"(?!\d)"
_DATE = rf"{_START}(?P<year>\d{{4}})(?P<month>\d{{2}})(?P<day>\d{{2}})"
_DASHED = rf"{_START}(?P<year>\d{{4}})(?P<dash>[-_.])(?P<month>\d{{2}})(?P=dash)(?P<day>\d{{2}})"
_TIME = r"(?P<hour>\d{2})(?P<minute>\d{2})(?P<second>\d{2})"


@dataclass(frozen=True, slots=True)
class NamePattern:
    """One way in which names carry a date: how it looks, how exact it is, whether in UTC, whether of arrival."""

    says: str
    pattern: re.Pattern[str]
    precision: Precision
    is_utc: bool = False
    is_arrival: bool = False


def _row(says: str, pattern: str, precision: Precision, *, utc: bool = False, arrival: bool = False) -> NamePattern:
    return NamePattern(says, re.compile(pattern + _END, re.IGNORECASE | re.ASCII), precision, utc, arrival)


#: Tried in order; the first that matches speaks. Sources: the forms and their zones were found in phone file names and
#: in code that writes them (local unless said); 13-digit epoch milliseconds are from memory.
PATTERNS = (
    _row("PXL_YYYYMMDD_HHMMSSmmm", rf"PXL_{_DATE}_{_TIME}(?P<fraction>\d{{3}})", "second", utc=True),
    _row("IMG-YYYYMMDD-WA####", rf"(?:IMG|VID)-{_DATE}-WA\d{{4}}", "day", arrival=True),
    _row("YYYY-MM-DD at H.MM.SS", rf"{_DASHED} at (?P<hour>\d{{1,2}})\.(?P<minute>\d{{2}})\.(?P<second>\d{{2}})"
         r"(?:[\W_]?(?P<half>[AP]M)(?![a-z]))?", "second"),  # U+202F stands before it, or what a copy put in its place
    _row("YYYYMMDD_HHMMSS", rf"{_DATE}[-_ T]{_TIME}(?:_?(?P<fraction>\d{{3}}))?", "second"),
    _row("YYYY-MM-DD HH.MM.SS", rf"{_DASHED}[-_ T.]+(?P<hour>\d{{2}})(?P<mark>[-_.:h])(?P<minute>\d{{2}})(?P=mark)"
         r"(?P<second>\d{2})", "second"),
    _row("YYYY-MM-DD", _DASHED, "day"),
    _row("YYYYMMDD", _DATE, "day"),
    _row("epoch milliseconds", rf"{_START}(?P<epoch>1\d{{12}})", "second", utc=True),
    # Not after other numbers: 05-01-2026_10 is a day, in an order that is not guessed.
    _row("YYYY-MM", rf"(?<!\d[-_.]){_START}(?P<year>\d{{4}})[-_](?P<month>\d{{2}})(?![-_.]?\d)", "month"),
)  # fmt: skip


#: What a pulled copy is called: that name repeats a verdict, doubtful ones too, and is no evidence for it.
_PULLED = re.compile(
    r"\d{4}-\d\d-\d\d_(?:notime|\d{4}(?:-\d\d(?:-\d{3})?)?)_[0-9a-f]{5,32}\.\w+|\d{4}(?:-\d\d)?_noday_[0-9a-f]{5,32}\.\w+",
    re.ASCII,
)


def claim_from_name(name: str, latest_year: int) -> Claim | None:
    """The claim that a file's name makes, if any. Years outside 1990..`latest_year` are refused."""
    if _PULLED.fullmatch(name):
        return None
    for row in PATTERNS:
        match = row.pattern.search(name)
        when = match and _when(match.groupdict(), row.precision, latest_year)
        if when:
            return Claim(
                "file name",
                name,
                when[0],
                row.precision,
                fraction=when[1],
                is_utc=row.is_utc,
                is_arrival=row.is_arrival,
            )
    return None


def _when(parts: dict[str, str | None], precision: Precision, latest_year: int) -> tuple[str, str] | None:
    """(ISO text, fraction digits) of the matched parts, or None where they are no date."""
    try:
        moment = _from_epoch(parts["epoch"]) if parts.get("epoch") else _from_fields(parts)
    except ValueError:
        return None
    if not EARLIEST_YEAR <= moment.year <= latest_year:
        return None
    fraction = parts.get("fraction") or (str(parts["epoch"])[-3:] if parts.get("epoch") else "")
    return _ISO_TEXT[precision](moment), fraction


_ISO_TEXT: dict[Precision, Callable[[datetime], str]] = {
    "second": lambda moment: moment.isoformat(timespec="seconds"),
    "day": lambda moment: moment.date().isoformat(),
    "month": lambda moment: moment.date().isoformat()[:7],
}


def _from_epoch(milliseconds: str | None) -> datetime:
    return datetime.fromtimestamp(int(milliseconds or 0) // 1000, UTC).replace(tzinfo=None)


def _from_fields(parts: dict[str, str | None]) -> datetime:
    """Raises ValueError for a month 13, a day 32, an hour 24, and a 13 PM."""
    hour, half = int(parts.get("hour") or 0), (parts.get("half") or "").upper()
    if half:
        if not 1 <= hour <= 12:
            raise ValueError(hour)
        hour = hour % 12 + (12 if half == "PM" else 0)
    return datetime(  # noqa: DTZ001 - a name holds a wall clock, or UTC where its row says so
        int(parts["year"] or 0),
        int(parts["month"] or 0),
        int(parts.get("day") or 1),
        hour,
        int(parts.get("minute") or 0),
        int(parts.get("second") or 0),
    )
