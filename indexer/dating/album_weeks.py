"""Which album week a time falls into: what a verdict needs to know of the calendar. Pure.

The names of weeks, and all else about them, are the business of `queries.weeks`.
"""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from indexer.dating.moments import has_day, span

#: What holds where nothing was told: ISO 8601 weeks, and days that begin at midnight.
FIRST_DAY, STARTS_AT = "monday", "00:00"
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def week_start(ordinal: int, first_day: int) -> int:
    """The ordinal of the day on which the week around a day begins; `first_day`: Monday 0 to Sunday 6.

    It may lie before the first day of the calendar.
    """
    return ordinal - (ordinal - 1 - first_day) % 7  # day 1, 0001-01-01, is a Monday


@dataclass(frozen=True, slots=True)
class AlbumWeeks:
    """Weeks that begin on `first_day` (Monday 0), and days that begin `starts_at` after midnight."""

    first_day: int = 0
    starts_at: timedelta = timedelta()

    def week_of(self, when: str | None) -> int | None:
        """The week of a time, as the ordinal of its first day; None where no day is known."""
        if when is None or not has_day(when):
            return None
        return self.week_at(datetime.fromisoformat(when), is_whole_day=len(when) == 10)

    def day_of(self, when: str) -> str:
        """The album day, "2026-03-29", of a time that names a day: before `starts_at` the day before goes on."""
        return day_text(max(self._day(datetime.fromisoformat(when), is_whole_day=len(when) == 10), 1))

    def week_at(self, moment: datetime, *, is_whole_day: bool = False) -> int:
        """The week of a moment; a whole day is itself, whenever days begin."""
        return week_start(self._day(moment, is_whole_day=is_whole_day), self.first_day)

    def may_be_same(self, one: str, other: str) -> bool:
        """Whether two times, each as exact as it is, can lie in one week."""
        first, last = self._weeks(one)
        first_other, last_other = self._weeks(other)
        return first <= last_other and first_other <= last

    def is_within_one(self, first: datetime, last: datetime) -> bool:
        """Whether both moments lie in one week."""
        return self.week_at(first) == self.week_at(last)

    def _day(self, moment: datetime, *, is_whole_day: bool) -> int:
        """The ordinal of the album day."""
        is_before = not is_whole_day and timedelta(hours=moment.hour, minutes=moment.minute) < self.starts_at
        return moment.date().toordinal() - is_before

    def _weeks(self, when: str) -> tuple[int, int]:
        week = self.week_of(when)
        if week is not None:
            return week, week
        first, end = span(when)
        return self.week_at(first, is_whole_day=True), self.week_at(end - timedelta(days=1), is_whole_day=True)


def day_text(ordinal: int) -> str:
    """ "2026-03-30" of an ordinal."""
    return date.fromordinal(ordinal).isoformat()
