"""Times of reduced precision, in ISO 8601 and without a zone: how long they last, how far apart they lie. Pure."""

from datetime import date, datetime, timedelta

#: Letters of each precision: "2026", "2026-03", "2026-03-30", "2026-03-30T09:15", "2026-03-30T09:15:20".
_DAY, _MINUTE = 10, 16


def has_day(when: str | None) -> bool:
    """Whether a day is known."""
    return when is not None and len(when) >= _DAY


def has_clock(when: str | None) -> bool:
    """Whether the minute is known."""
    return when is not None and len(when) >= _MINUTE


def span(when: str) -> tuple[datetime, datetime]:
    """[first, last) moment that a time may mean: a year, a month, a day, a minute or a second."""
    if len(when) < _DAY:
        year, _, month = when.partition("-")
        first = date(int(year), int(month or 1), 1)
        return _start(first), _start(_month_after(first) if month else _year_after(first))
    moment = datetime.fromisoformat(when)
    length = timedelta(days=1) if len(when) == _DAY else timedelta(seconds=60 if len(when) == _MINUTE else 1)
    return moment, moment + length if moment <= datetime.max - length else datetime.max  # noqa: DTZ901 - a wall clock


def apart(one: str, other: str) -> timedelta:
    """How far two times lie apart at least: none where one may mean what the other means."""
    (first, end), (first_other, end_other) = span(one), span(other)
    return max(first_other - end, first - end_other, timedelta())


def moved(when: str, seconds: int) -> str | None:
    """The time so many seconds later, as exact as it was; None outside the calendar.

    A day without a clock time moves by the whole days that are nearest; a month or a year stays where it is.
    """
    if not has_day(when):
        return when
    try:
        if not has_clock(when):
            return (date.fromisoformat(when) + timedelta(days=round(seconds / 86_400))).isoformat()
        moment = datetime.fromisoformat(when) + timedelta(seconds=seconds)
    except OverflowError:
        return None
    return moment.isoformat(timespec="minutes" if len(when) == _MINUTE else "seconds")


def _start(day: date) -> datetime:
    return datetime(day.year, day.month, day.day)  # noqa: DTZ001 - a wall clock


def _month_after(first: date) -> date:
    return _year_after(first.replace(month=1)) if first.month == 12 else first.replace(month=first.month + 1)


def _year_after(first: date) -> date:
    return date.max if first.year == date.max.year else date(first.year + 1, 1, 1)
