"""The calendar of weeks: dates in, weeks out.

A week belongs to a week-year and has a number in it, as UTS #35 (CLDR weekData) rules: week 1 is the first week,
starting on `first_day`, with at least `min_days` days in the calendar year. So one day of each week decides its
year: the one `7 - min_days` days after the first. Under ISO 8601 (Monday, 4) that is the Thursday. All reckoning
here rests on that day, and is done on ordinals, which cannot overflow at either end of the calendar.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from indexer.dating.album_weeks import WEEKDAYS as WEEKDAYS
from indexer.dating.album_weeks import week_start
from indexer.dating.words import MONTHS
from indexer.errors import WeekError

_WEEK_NAME = re.compile(r"([0-9]{4})-?W([0-9]{1,3})", re.IGNORECASE)
_DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_LAST_FIRST_DAY = date.max.toordinal() - 7


@dataclass(frozen=True, slots=True, order=True)
class Week:
    """Seven days from `first_day` on, and their name ("2026-W14"): the half-open span [first_day, next_first_day)."""

    first_day: date
    name: str

    @property
    def last_day(self) -> date:
        return self.first_day + timedelta(days=6)

    @property
    def next_first_day(self) -> date:
        return self.first_day + timedelta(days=7)

    @property
    def fourth_day(self) -> date:
        """The middle day, by which words about the week find their week after the week's start has changed."""
        return self.first_day + timedelta(days=3)

    @property
    def number(self) -> int:
        """The week's number in its week-year, 1 to 53."""
        return int(self.name.rpartition("W")[2])

    def days(self) -> tuple[date, ...]:
        """The seven days in order."""
        return tuple(self.first_day + timedelta(days=offset) for offset in range(7))

    def __contains__(self, day: date) -> bool:
        return self.first_day <= day < self.next_first_day


@dataclass(frozen=True, slots=True)
class WeekRule:
    """How days fall into weeks: the weekday a week starts on (Monday 0) and the days week 1 needs in its year (1 to 7).

    The default is ISO 8601. Raises WeekError when either number is out of range.
    """

    first_day: int = 0
    min_days: int = 4

    def __post_init__(self) -> None:
        if not 0 <= self.first_day <= 6:
            raise WeekError(f"a week cannot start on weekday {self.first_day}: give 0 (Monday) to 6 (Sunday)")
        if not 1 <= self.min_days <= 7:
            raise WeekError(f"week 1 cannot need {self.min_days} days in its year: give 1 to 7")

    def week_of(self, day: date) -> Week:
        """The week that holds `day`. Raises WeekError where that week reaches out of the years 1 to 9999."""
        return self._week_starting(week_start(day.toordinal(), self.first_day), day)

    def whole_week_of(self, day: date) -> Week | None:
        """The week that holds `day`, or None where it reaches out of the calendar: a broken camera may say year 1."""
        try:
            return self.week_of(day)
        except WeekError:
            return None

    def week_named(self, year: int, number: int) -> Week:
        """Week `number` of the week-year. Raises WeekError, naming the year's last week, when there is no such week."""
        if not 1 <= number <= self.weeks_in(year):
            raise self._no_such_week(year, number)
        first_deciding_day = date(year, 1, 1).toordinal() + self._days_to_deciding_day(year)
        start = first_deciding_day - (7 - self.min_days) + 7 * (number - 1)
        return self._week_starting(start, _week_name(year, number))

    def weeks_in(self, year: int) -> int:
        """How many weeks the week-year has, 52 or 53. Raises WeekError for a year outside 1 to 9999."""
        if not date.min.year <= year <= date.max.year:
            raise WeekError(f"there is no year {year:04d} in the calendar: give a year from 0001 to 9999")
        days = date(year, 12, 31).toordinal() - date(year, 1, 1).toordinal() + 1
        return (days - 1 - self._days_to_deciding_day(year)) // 7 + 1

    def week_holding_told(self, first_day_as_told: date) -> Week:
        """The week under this rule that holds the fourth day of a week told under any rule.

        Told weeks of one rule land one to one: none is doubled and none lost. Raises WeekError as `week_of` does.
        """
        return self._week_starting(week_start(first_day_as_told.toordinal() + 3, self.first_day), first_day_as_told)

    def whole_week_told(self, first_day_as_told: date) -> Week | None:
        """The same, or None at the edge of the calendar, where this rule has no whole week for it."""
        try:
            return self.week_holding_told(first_day_as_told)
        except WeekError:
            return None

    def between(self, first: Week, last: Week) -> Iterator[Week]:
        """The consecutive weeks from `first` to `last`, both included and of this rule; none when last is earlier."""
        for start in range(first.first_day.toordinal(), last.first_day.toordinal() + 1, 7):
            yield self._week_starting(start, first.name)

    def _days_to_deciding_day(self, year: int) -> int:
        """Days from 1 January to the first weekday that decides a week's year, 0 to 6."""
        return (self.first_day + 7 - self.min_days - date(year, 1, 1).weekday()) % 7

    def _week_starting(self, start: int, asked: object) -> Week:
        """The week that begins on that ordinal; `asked` is what to name when the calendar does not hold it whole."""
        if not 1 <= start <= _LAST_FIRST_DAY:
            raise WeekError(f"{asked} is too near the edge of the calendar for a whole week: give another year")
        deciding_day = date.fromordinal(start + 7 - self.min_days)
        year = deciding_day.year
        number = (deciding_day.toordinal() - date(year, 1, 1).toordinal()) // 7 + 1
        return Week(date.fromordinal(start), _week_name(year, number))

    def _no_such_week(self, year: int, number: int) -> WeekError:
        weeks = self.weeks_in(year)
        try:
            days = f" ({span_words(self.week_named(year, weeks))})"
        except WeekError:  # the last week of 9999 may end in the year 10000
            days = ""
        return WeekError(
            f"there is no week {_week_name(year, number)}: {year:04d} has {weeks} weeks, "
            f"and the last is {_week_name(year, weeks)}{days}"
        )


def parse_week(text: str, rule: WeekRule, today: date) -> Week:
    """The week a person means by `2026-W14` (in any case, also `2026-w4` or `2026W14`), a date in it, `this` or `last`.

    `today` is the album day that `this` and `last` count from. Raises WeekError for anything else, and for weeks and
    dates that do not exist.
    """
    word = text.strip()
    if named := _WEEK_NAME.fullmatch(word):
        return rule.week_named(int(named[1]), int(named[2]))
    if _DATE.fullmatch(word):
        return rule.week_of(_existing_date(word))
    if word.casefold() == "this":
        return rule.week_of(today)
    if word.casefold() == "last":
        return _week_before(today, rule)
    raise WeekError(f"{text!r} is not a week: give 2026-W14, any date in it (2026-04-01), this or last")


def day_of(placed: str | None, starts_at: time) -> date | None:
    """The album day of a time, or None where no day is known (it has fewer than ten letters).

    `placed` is ISO 8601 of reduced precision, local wall clock. What has a clock time before `starts_at` belongs to the
    day before; a day without a clock time is itself. None also for the night before 0001-01-01. Raises ValueError when
    `placed` is not ISO 8601.
    """
    if placed is None or len(placed) < 10:
        return None
    moment = datetime.fromisoformat(placed)
    day = moment.date()
    if len(placed) == 10 or moment.time() >= starts_at:
        return day
    return None if day == date.min else day - timedelta(days=1)


def span_words(week: Week) -> str:
    """The week's days for people: "30 Mar - 5 Apr 2026", "6 - 12 Apr 2026", "29 Dec 2025 - 4 Jan 2026"."""
    first, last = week.first_day, week.last_day
    start = f"{first.day}"
    if first.month != last.month:
        start += f" {MONTHS[first.month - 1]}"
    if first.year != last.year:
        start += f" {first.year}"
    return f"{start} - {last.day} {MONTHS[last.month - 1]} {last.year}"


def week_words(week: Week) -> str:
    """The week for people, days first: "30 Mar - 5 Apr 2026, week 14"."""
    return f"{span_words(week)}, week {week.number}"


def short_week_words(week: Week) -> str:
    """The same for narrow tables; a week over the turn of the year has the year of its last day alone."""
    return week_words(week).replace(f" {week.first_day.year} -", " -", 1)


def date_words(day: date) -> str:
    """ "30 Mar 2026"."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def day_words(day: date) -> str:
    """ "Mon 30 Mar"."""
    return f"{WEEKDAYS[day.weekday()][:3].title()} {day.day} {MONTHS[day.month - 1]}"


def weekday_number(text: str) -> int:
    """Monday 0 to Sunday 6, from the English name or its first three letters in any case; WeekError otherwise."""
    word = text.strip().casefold()
    for number, name in enumerate(WEEKDAYS):
        if word in (name, name[:3]):
            return number
    raise WeekError(f"{text!r} is not a weekday: give one of {', '.join(WEEKDAYS)}")


def _week_name(year: int, number: int) -> str:
    return f"{year:04d}-W{number:02d}"


def _existing_date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise WeekError(f"there is no date {text}: give a date that exists, or a week such as 2026-W14") from None


def _week_before(day: date, rule: WeekRule) -> Week:
    if day < date.min + timedelta(days=7):
        raise WeekError(f"there is no week before that of {day}: give another year")
    return rule.week_of(day - timedelta(days=7))
