"""Universal time to the wall clock of a named zone, or of this computer."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from indexer.errors import WordError

#: The value of `home.timezone` that stands for the zone this computer is set to.
THIS_COMPUTER = "computer"


def check_zone(name: str) -> str:
    """The name as the IANA database writes it, or WordError with what would be right."""
    if name.casefold() == THIS_COMPUTER:
        return THIS_COMPUTER
    known = {zone.casefold(): zone for zone in available_timezones()}
    if name.casefold() not in known:
        raise WordError(
            f"no time zone is called {name!r}; give one of the IANA names, such as Europe/Lisbon or"
            f" America/Chicago, or {THIS_COMPUTER!r}"
        )
    return known[name.casefold()]


def is_zone(name: str) -> bool:
    """Whether this computer knows the zone: a name may have been told on one with a newer database."""
    try:
        return name == THIS_COMPUTER or bool(ZoneInfo(name))
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False


def wall_clock(utc: datetime, zone: str) -> datetime:
    """The aware local time in `zone` of a naive universal time; OverflowError near the ends of the calendar."""
    aware = utc.replace(tzinfo=UTC)
    return aware.astimezone() if zone == THIS_COMPUTER else aware.astimezone(ZoneInfo(zone))
