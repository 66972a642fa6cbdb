"""Dates in the names of the folders that a photo lies in, below the library folder. Pure.

A folder speaks for all that lies in it: it tells a day, a month or a year, and never a time. Day and month in another
order than year, month, day are not guessed.
"""

import re
from collections.abc import Sequence

from indexer.facts.dates import iso_text
from indexer.facts.records import Claim, Precision

#: Folders of scans are named by the years of old prints, so this reaches further back than the names that cameras give.
EARLIEST_YEAR = 1900

_YEAR = r"(?<!\d)(?P<year>\d{4})"
_DAY = re.compile(rf"{_YEAR}(?:(?P<dash>[-_.])(?P<month>\d\d)(?P=dash)|(?P<joined>\d\d))(?P<day>\d\d)(?!\d)", re.ASCII)
#: Not the end of a date in another order, such as 05-01-2026-10.
_NO_DAY_BEFORE = r"(?<!\D\d\d[-_.]\d\d[-_.])(?<!^\d\d[-_.]\d\d[-_.])"
_MONTH = re.compile(rf"{_NO_DAY_BEFORE}{_YEAR}[-_.](?P<month>\d\d)(?![-_.]?\d(?!\d{{3}}))(?!\d)", re.ASCII)
_LONE_YEAR = re.compile(r"\d{4}", re.ASCII)
#: What follows the first day of a span: "2026-03-30 - 04-02", "2026-03-30-31".
_SPAN = re.compile(r"\s*[-\u2013~]\s*\d{1,2}(?!\d)(?P<longer>[-_.]\d)?", re.ASCII)
#: The folders of a month in that of a year, and of a day in that of a month: "03", "03 March", "30".
_NUMBER = re.compile(r"\d\d", re.ASCII)
_NAMED_MONTH = re.compile(r"(\d\d)[-_. ]+([a-z]{3,9})", re.ASCII | re.IGNORECASE)
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
)  # fmt: skip
_LETTERS: dict[Precision, int] = {"day": 10, "month": 7, "year": 4}
#: A day's folder in a month's in a year's: no date is told by more, and a crafted path has thousands.
_MOST_FOLDERS = 3


def claim_from_folders(folders: Sequence[str], latest_year: int) -> Claim | None:
    """The claim of the nearest folder that carries a date, if any.

    `folders` are their names, from the outermost to the nearest. Years outside 1900..`latest_year` are refused.
    """
    for depth in range(len(folders), 0, -1):
        if when := _date_of(folders[max(depth - _MOST_FOLDERS, 0) : depth], latest_year):
            text, count = when
            precision = next(name for name, letters in _LETTERS.items() if letters == len(text))
            return Claim("folder name", "/".join(folders[depth - count : depth]), text, precision)
    return None


def _date_of(folders: Sequence[str], latest_year: int) -> tuple[str, int] | None:
    """The date of the last of these folders, ISO 8601, and how many folders it took to tell it."""
    name = folders[-1]
    if own := _own_date(name, latest_year):
        return own, 1
    number = _number_of(name)
    if number is None or len(folders) < 2:
        return None
    above = _date_of(folders[:-1], latest_year)
    if above is None or len(above[0]) >= 10 or (len(above[0]) == 7 and not _NUMBER.fullmatch(name)):
        return None
    text = _checked(*(int(part) for part in above[0].split("-")), number)
    return (text, above[1] + 1) if text else None


def _number_of(name: str) -> int | None:
    """The number of a month or day that a folder's name is, alone or with the month's name."""
    if _NUMBER.fullmatch(name):
        return int(name)
    if match := _NAMED_MONTH.fullmatch(name):
        number, word = int(match[1]), match[2].lower()
        if 1 <= number <= 12 and _MONTHS[number - 1].startswith(word):
            return number
    return None


def _own_date(name: str, latest_year: int) -> str | None:
    """The date in one name, no more exact than all the dates in it agree."""
    found = [text for match in _DAY.finditer(name) if (text := _day(match))]
    found += [text for match in _MONTH.finditer(name) if (text := _checked(int(match["year"]), int(match["month"])))]
    found = [text for text in found or _lone_years(name) if EARLIEST_YEAR <= int(text[:4]) <= latest_year]
    return _agreed(found) if found else None


def _day(match: re.Match[str]) -> str | None:
    """The day, or only its month or year where it is the first of a span that is written short."""
    text = _checked(int(match["year"]), int(match["month"] or match["joined"]), int(match["day"]))
    span = _SPAN.match(match.string, match.end())
    return text and text[: 10 if span is None else 4 if span["longer"] else 7]


def _lone_years(name: str) -> list[str]:
    """The years in the name where it begins or ends with one as a word of its own: "1987", "Summer 1987"."""
    words = re.split("[ _]+", name)
    years = [word for word in words if _LONE_YEAR.fullmatch(word)]
    return years if {words[0], words[-1]} & set(years) else []


def _agreed(texts: Sequence[str]) -> str | None:
    """What all of these dates say alike, if it is the year at least."""
    same = []
    for parts in zip(*(text.split("-") for text in texts), strict=False):
        if len(set(parts)) > 1:
            break
        same.append(parts[0])
    return "-".join(same) or None


def _checked(*fields: int) -> str | None:
    """ISO 8601 text, None for what no calendar shows."""
    try:
        return iso_text(*fields)[0]
    except ValueError:
        return None
