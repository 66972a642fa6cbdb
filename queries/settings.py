"""The settings: their names, what they take, and what holds where nothing was told."""

import sqlite3
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import time

from indexer.dating.album_weeks import FIRST_DAY, STARTS_AT, WEEKDAYS
from indexer.errors import WeekError, WordError
from queries.print_settings import Lab, check_dpi, check_home_paper, check_size, check_trim, lab_of, paper_of
from queries.weeks import WeekRule, weekday_number


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting. `check` gives the value in its one written form, or raises WordError with what would be right."""

    name: str
    default: str
    says: str
    check: Callable[[str], str]


def _weekday(text: str) -> str:
    try:
        return WEEKDAYS[weekday_number(text)]
    except WeekError as error:
        raise WordError(str(error)) from error


def _day_count(text: str) -> str:
    if text.strip() not in set("1234567"):
        raise WordError(f"week.min_days is a number from 1 to 7, not {text!r} (4 is the international rule)")
    return text.strip()


def _clock_time(text: str) -> str:
    hours, _, minutes = text.strip().partition(":")
    if not (hours.isdecimal() and minutes.isdecimal() and len(minutes) == 2 and int(minutes) < 60 and int(hours) < 12):
        raise WordError(f"day.starts_at is a time of the night or morning such as 00:00 or 04:00, not {text!r}")
    return f"{int(hours):02}:{int(minutes):02}"  # digits of any script become ours


def _zone(text: str) -> str:
    from indexer.facts.zones import check_zone  # reads the zone database: only when a zone is told

    return check_zone(text.strip())


SETTINGS = {
    setting.name: setting
    for setting in (
        Setting("week.first_day", FIRST_DAY, "the day on which your weeks begin", _weekday),
        Setting("week.min_days", "4", "days that a year's first week needs (ISO 4, US 1)", _day_count),
        Setting("day.starts_at", STARTS_AT, "photos before this time belong to the day before", _clock_time),
        Setting("home.timezone", "computer", "your time zone (IANA name), for times in UTC", _zone),
        Setting("home.paper", "210x297mm", "the paper of your own printer: A4, letter, a size", check_home_paper),
        Setting("print.size", "6x4in", "the size that your lab prints", check_size),
        Setting("print.dpi", "300", "pixels to the inch of the files for the lab", check_dpi),
        Setting("print.lab_trim", "0in", "what the lab takes of the edges, or of each edge", check_trim),
    )
}


def setting_named(name: str) -> Setting:
    """Raises WordError with the names there are."""
    if name not in SETTINGS:
        raise WordError(f"there is no setting {name!r}; there are: {', '.join(SETTINGS)}")
    return SETTINGS[name]


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings that hold, and what the calendar makes of them."""

    told: Mapping[str, str]

    def __getitem__(self, name: str) -> str:
        """The value that holds: the told one, unless this computer cannot take it, as a restored one may be."""
        setting = setting_named(name)
        try:
            return setting.check(self.told.get(name, setting.default))
        except WordError:
            return setting.default

    @property
    def week_rule(self) -> WeekRule:
        return WeekRule(weekday_number(self["week.first_day"]), int(self["week.min_days"]))

    @property
    def day_starts_at(self) -> time:
        return time.fromisoformat(self["day.starts_at"])

    @property
    def lab(self) -> Lab:
        return lab_of(self["print.size"], self["print.dpi"], self["print.lab_trim"])

    @property
    def home_paper(self) -> tuple[int, int]:
        """Width and height of the paper at home, in micrometres."""
        return paper_of(self["home.paper"])


def load_settings(connection: sqlite3.Connection) -> Settings:
    """The told settings."""
    return Settings({row["name"]: row["value"] for row in connection.execute("SELECT name, value FROM setting")})
