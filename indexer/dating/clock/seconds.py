"""Wall clocks as whole seconds since 1970, and back. Pure."""

from datetime import date, datetime, timedelta

MINUTE, HOUR, DAY = 60, 3_600, 86_400
_EPOCH = datetime(1970, 1, 1)  # noqa: DTZ001 - a wall clock
_SECOND = timedelta(seconds=1)
_FIRST, _LAST = (datetime.min - _EPOCH) // _SECOND, (datetime.max - _EPOCH) // _SECOND  # noqa: DTZ901 - a wall clock


def seconds_of(when: str) -> int:
    """Seconds since 1970 of an ISO 8601 time without a zone."""
    return (datetime.fromisoformat(when) - _EPOCH) // _SECOND


def seconds_of_day(day: date) -> int:
    """Seconds since 1970 at which a day begins."""
    return (day.toordinal() - _EPOCH.toordinal()) * DAY


def moment_of(seconds: int) -> datetime:
    """The naive time; beyond the calendar, its first or last one."""
    return _EPOCH + timedelta(seconds=min(max(seconds, _FIRST), _LAST))


def text_of(seconds: int) -> str:
    """ "2026-03-30T09:15:20"."""
    return moment_of(seconds).isoformat(timespec="seconds")


def start_of_day(seconds: int) -> int:
    """The midnight before."""
    return seconds - seconds % DAY
