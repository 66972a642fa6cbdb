"""The invented household: what it photographs with, where it travels, and the calendar of its days. Pure.

Home follows Europe/Lisbon, whose clocks change on the last Sundays of October and of March (IANA time zone database).
"""

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

HOME = "Europe/Lisbon"
#: The Mondays of the first week and of the one after the last.
FIRST, END = date(2025, 9, 1), date(2026, 6, 8)
#: When the library was copied to where it lies now, and the day of the run.
COPIED, TODAY = datetime(2026, 6, 20, 15, 4), date(2026, 7, 1)  # noqa: DTZ001 - a wall clock has no zone


@dataclass(frozen=True, slots=True)
class Device:
    """One phone, camera or scanner. `prefix` begins the names of its numbered files; phones have dated names.

    `weeks`: when it is in use, as places in the calendar of weeks. `presence`: on which share of the occasions then.
    """

    name: str
    make: str
    model: str
    serial: str = ""
    prefix: str = ""
    weeks: tuple[int, int] = (0, 99)
    presence: float = 0.0

    @property
    def is_phone(self) -> bool:
        return not self.prefix


ADA = Device("ada", "Skerry", "Skerry S2", presence=0.75)
BEN = Device("ben", "Lantern", "L5", presence=0.6)
#: The honest camera: somebody sets its clock whenever clocks change, and nobody does abroad.
TARN = Device("tarn", "Tarnmoor", "Tarnmoor 400", "T400-11873", "DSC_", presence=0.28)
#: Its battery runs out twice.
HARBOUR = Device("harbour", "Harbour Optics", "Pocket 200", "", "HRBR", presence=0.34)
#: Set wrong by hours when it was unpacked, and never touched.
COMPACT = Device("compact", "Brinlow", "Brinlow Compact 12", "BC12-0047215", "P101", (9, 26), 0.36)
#: Set wrong by a year.
DUNMERE = Device("dunmere", "Dunmere", "Dory 3", "3300178", "DUN_", (17, 34), 0.26)
#: Not moved on when clocks change, for some weeks; which change it is differs by seed.
PELLICK = Device("pellick", "Pellick", "Pebble 60", "", "PLK_", (25, 39), 0.65)
PELLICK_IN_AUTUMN = Device("pellick", "Pellick", "Pebble 60", "", "PLK_", (3, 17), 0.65)
#: Wrong by a day and some, but its satellites' time is right.
WRACKLINE = Device("wrackline", "Wrackline", "Gull 2", "WG-5501", "WRK_", (11, 22), 0.3)
#: Who goes abroad.
TRAVELLERS = (ADA, BEN, TARN)
GUEST = Device("guest", "Oarlock", "Reed 3")
SCANNER = Device("scanner", "Foldmere", "Flat 9")


@dataclass(frozen=True, slots=True)
class Trip:
    """Days abroad, the first and the last included."""

    zone: str
    first: date
    last: date

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last


#: Each over one turn of the week, Thursday to Friday of the next week.
TRIPS = (Trip("Asia/Tokyo", date(2025, 11, 13), date(2025, 11, 21)),
         Trip("America/New_York", date(2026, 5, 7), date(2026, 5, 15)))  # fmt: skip


def zone_on(day: date) -> str:
    """Where the household is on that day."""
    return next((trip.zone for trip in TRIPS if day in trip), HOME)


def universal(local: datetime, zone: str) -> datetime:
    """The naive universal time of a wall clock in a zone."""
    return local.replace(tzinfo=ZoneInfo(zone)).astimezone(UTC).replace(tzinfo=None)


def wall(utc: datetime, zone: str = HOME) -> datetime:
    """The wall clock in a zone at a naive universal time."""
    return utc.replace(tzinfo=UTC).astimezone(ZoneInfo(zone)).replace(tzinfo=None)


def monday_of(day: date) -> date:
    """The first day of the ISO 8601 week that holds the day."""
    return day - timedelta(days=day.weekday())


def mondays() -> list[date]:
    """The first days of all weeks of the calendar."""
    return [FIRST + timedelta(weeks=number) for number in range((END - FIRST).days // 7)]
