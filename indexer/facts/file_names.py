"""Dates in file names: each pattern is one row of a table.

A name yields one claim or none, never a rolled-over date.
"""

import re
from dataclasses import dataclass
from datetime import UTC, datetime

from indexer.facts.dates import iso_text
from indexer.facts.records import Claim, Precision

#: Before this year no camera gave a name with a date; a person who names a scan may write any year of a print.
EARLIEST_YEAR, EARLIEST_TYPED_YEAR = 1990, 1900

#: Scanning programs name their files by the day of the scan (common practice); an earlier one is more likely the day
#: that somebody read on the print.
_EARLIEST_SCAN = 2005

#: Digits inside a longer run of digits are no date.
_START, _END = r"(?<!\d)", r"(?!\d)"
#: Where the name or a word of it begins: "Copy of" may have been put before it.
_WORD = r"(?<!\S)"
_DATE = rf"{_START}(?P<year>\d{{4}})(?P<month>\d{{2}})(?P<day>\d{{2}})"
_DASHED = rf"{_START}(?P<year>\d{{4}})(?P<dash>[-_.])(?P<month>\d{{2}})(?P=dash)(?P<day>\d{{2}})"
_TIME = r"(?P<hour>\d{2})(?P<minute>\d{2})(?P<second>\d{2})"


@dataclass(frozen=True, slots=True)
class NamePattern:
    """One way in which names carry a date: how it looks, how exact it is, whether in UTC, whether of arrival, and the
    first year that is believed."""

    says: str
    pattern: re.Pattern[str]
    precision: Precision
    is_utc: bool = False
    is_arrival: bool = False
    earliest: int = EARLIEST_YEAR


def _row(
    says: str, pattern: str, precision: Precision, *, utc: bool = False, arrival: bool = False, typed: bool = False
) -> NamePattern:
    earliest = EARLIEST_TYPED_YEAR if typed else EARLIEST_YEAR
    return NamePattern(says, re.compile(pattern + _END, re.IGNORECASE | re.ASCII), precision, utc, arrival, earliest)


#: Four digits after one of these are a counter and no year.
_COUNTING = (
    "img|image|photo|foto|picture|pict?|scan|dsc[fn]?|bild|file|page|untitled|no|nr|number|copy|video|vid|clip|frame"
)

#: Tried in order; the first that matches speaks. Sources: the forms and their zones were found in phone file names and
#: in code that writes them (local unless said). From memory: 13-digit epoch milliseconds, and the two forms in which
#: message programs save what they received, with the time of that. A "Z" is universal time by ISO 8601. The forms that
#: people type ("typed") are common practice.
PATTERNS = (
    _row("PXL_YYYYMMDD_HHMMSSmmm", rf"PXL_{_DATE}_{_TIME}(?P<fraction>\d{{3}})", "second", utc=True),
    _row("IMG-YYYYMMDD-WA####", rf"[A-Z]{{3}}-{_DATE}-WA\d+", "day", arrival=True),
    _row("photo_YYYY-MM-DD_HH-MM-SS", rf"{_WORD}(?:photo|image|video|file)_{_DASHED}_(?P<hour>\d{{2}})-"
         r"(?P<minute>\d{2})-(?P<second>\d{2})", "second", arrival=True),
    _row("word-YYYY-MM-DD-HHMMSS", rf"{_WORD}(?-i:(?!screen)[a-z]{{3,}})-{_DASHED}-(?P<hour>\d{{2}})(?P<mark>-?)"
         r"(?P<minute>\d{2})(?P=mark)(?P<second>\d{2})(?:-\d{3})?", "second", arrival=True),
    *(NamePattern(says, re.compile(rf"(?<![a-z])scan[a-z]*[-_ ]?{form}" + _END, re.IGNORECASE | re.ASCII), "day",
                  is_arrival=True, earliest=_EARLIEST_SCAN)
      for says, form in (("scan YYYYMMDD", _DATE), ("scan YYYY-MM-DD HH", rf"{_DASHED}(?=[-_ T.]+\d{{2}})"))),
    # What stands for "at" in other languages too; U+202F stands before AM and PM, or what a copy put in its place.
    _row("YYYY-MM-DD at H.MM.SS", rf"{_DASHED}(?: [^\d\s]{{1,6}}){{1,2}} (?P<hour>\d{{1,2}})\.(?P<minute>\d{{2}})\."
         r"(?P<second>\d{2})(?:[\W_]?(?P<half>[AP]M)(?![a-z]))?", "second"),
    _row("YYYYMMDDTHHMMSSZ", rf"{_DATE}T{_TIME}(?:[.,]?(?P<fraction>\d{{3}}))?Z(?![a-z])", "second", utc=True),
    _row("YYYY-MM-DDTHH-MM-SSZ", rf"{_DASHED}T(?P<hour>\d{{2}})(?P<mark>[-_.:]?)(?P<minute>\d{{2}})(?P=mark)"
         r"(?P<second>\d{2})(?:[-_.,](?P<fraction>\d{3}))?Z(?![a-z])", "second", utc=True),
    _row("YYYYMMDD_HHMMSS", rf"{_DATE}[-_ T]{_TIME}(?:_?(?P<fraction>\d{{3}}))?", "second"),
    _row("YYYYMMDD_HH_MM_SS", rf"{_DATE}[-_ ](?P<hour>\d{{2}})(?P<mark>[-_.])(?P<minute>\d{{2}})(?P=mark)"
         r"(?P<second>\d{2})", "second"),
    _row("YYYY-MM-DD HH.MM.SS", rf"{_DASHED}[-_ T.]+(?P<hour>\d{{2}})(?P<mark>[-_.:h]?)(?P<minute>\d{{2}})(?P=mark)"
         r"(?P<second>\d{2})", "second"),
    _row("YYYY-MM-DD", _DASHED, "day", typed=True),
    _row("YYYYMMDD", _DATE, "day"),
    _row("epoch milliseconds", rf"{_START}(?P<epoch>1\d{{12}})", "second", utc=True),
    # Not after other numbers: 05-01-2026_10 is a day, in an order that is not guessed.
    _row("YYYY-MM", rf"(?<!\d[-_.]){_START}(?P<year>\d{{4}})[-_](?P<month>\d{{2}})(?![-_.]?\d)", "month", typed=True),
    _row("words YYYY", rf"^(?:.* )?(?!(?:{_COUNTING}) )[^\d\s_.-]{{2,}} (?P<year>\d{{4}})(?=(?:\.\w*)?$)", "year",
         typed=True),
)  # fmt: skip


#: What a pulled copy is called: that name repeats a verdict, doubtful ones too, and is no evidence for it.
_PULLED = re.compile(
    r"\d{4}-\d\d-\d\d_(?:notime|\d{4}(?:-\d\d(?:-\d{3})?)?)_[0-9a-f]{5,32}\.\w+|\d{4}(?:-\d\d)?_noday_[0-9a-f]{5,32}\.\w+",
    re.ASCII,
)


def claim_from_name(name: str, latest_year: int) -> Claim | None:
    """The claim that a file's name makes, if any. Years after `latest_year` are refused, and before the row's first."""
    if _PULLED.fullmatch(name):
        return None
    for row in PATTERNS:
        match = row.pattern.search(name)
        when = match and _when(match.groupdict(), row, latest_year)
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


def _when(parts: dict[str, str | None], row: NamePattern, latest_year: int) -> tuple[str, str] | None:
    """(ISO text, fraction digits) of the matched parts, or None where they are no date."""
    epoch = parts.get("epoch")
    try:
        when = _from_epoch(epoch) if epoch else iso_text(*_fields(parts))[0]
    except ValueError:
        return None
    if not row.earliest <= int(when[:4]) <= latest_year:
        return None
    return when, parts.get("fraction") or (epoch[-3:] if epoch else "")


def _from_epoch(milliseconds: str) -> str:
    return datetime.fromtimestamp(int(milliseconds) // 1000, UTC).replace(tzinfo=None).isoformat()


def _fields(parts: dict[str, str | None]) -> list[int]:
    """The numbers that the name gives, from the year on. Raises ValueError for a 13 PM."""
    numbers = [int(text) for unit in _UNITS if (text := parts.get(unit))]
    if half := parts.get("half"):
        if not 1 <= numbers[3] <= 12:
            raise ValueError(numbers[3])
        numbers[3] = numbers[3] % 12 + (12 if half.upper() == "PM" else 0)
    return numbers


_UNITS = ("year", "month", "day", "hour", "minute", "second")
