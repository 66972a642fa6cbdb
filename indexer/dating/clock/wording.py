"""Grounds in words for a person. Pure."""

from collections.abc import Iterable

from indexer.dating.clock.seconds import DAY, HOUR, MINUTE, moment_of

# English whatever the machine's locale, so strftime("%b") will not do.
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def duration(seconds: int) -> str:
    """ "3 d 7 h 12 min", without a sign."""
    left, parts = abs(seconds), []
    for size, unit in ((DAY, "d"), (HOUR, "h"), (MINUTE, "min"), (1, "s")):
        count, left = divmod(left, size)
        if count:
            parts.append(f"{count:,} {unit}")
    return " ".join(parts) or "0 s"


def day_text(seconds: int) -> str:
    """ "30 Mar 2026"."""
    moment = moment_of(seconds)
    return f"{moment.day} {_MONTHS[moment.month - 1]} {moment.year}"


def time_text(seconds: int) -> str:
    """ "30 Mar 2026, 09:15"."""
    return f"{day_text(seconds)}, {moment_of(seconds):%H:%M}"


def counted(count: int, one: str, many: str = "") -> str:
    """ "1 scene", "4 scenes"."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"


def listed(names: Iterable[str]) -> str:
    """ "the Quay 3, the Mole 2 and others"."""
    items = [f"the {name}" for name in names]
    if len(items) > 2:
        items = [*items[:2], "others"]
    return " and ".join([", ".join(items[:-1]), items[-1]] if len(items) > 1 else items)
