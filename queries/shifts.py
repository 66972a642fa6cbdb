"""What is added to a camera's own times: from what a person types, and back into words. Pure."""

import re
from datetime import datetime

from indexer.errors import WordError
from queries.told_times import parse_moment

#: The units of a shift and their seconds, in the order they are written.
_UNITS = (("d", 86_400), ("h", 3600), ("m", 60), ("s", 1))
_WORDS = {"d": "d", "h": "h", "m": "min", "s": "s"}
_PARTS = (
    r"(?:([0-9]{1,6})d(?:ays?)?)?(?:([0-9]{1,6})h(?:ours?)?)?"
    r"(?:([0-9]{1,6})m(?:in(?:utes?)?)?)?(?:([0-9]{1,6})s(?:ec(?:onds?)?)?)?"
)
_SHIFT = re.compile(rf"([+\-\u2212]){_PARTS}", re.IGNORECASE)
_IS = re.compile(r"(.+?)\s+is\s+(.+)", re.IGNORECASE)

EXAMPLES = 'write it like +1h, -6h30m, +3d7h12m, +90s, or "2015-01-01 00:00 is 2026-03-02 18:20"'


def parse_shift(text: str) -> int:
    """Seconds to add: "+1h", "-6h30m", "+3d 7h 12min", or "A is B", the camera's own time and what it really was.

    Raises WordError.
    """
    if said := _IS.fullmatch(text.strip()):
        own, real = parse_moment(said[1]), parse_moment(said[2])
        return round((datetime.fromisoformat(real) - datetime.fromisoformat(own)).total_seconds())
    found = _SHIFT.fullmatch("".join(text.split()))
    if not found or not any(found.groups()[1:]):
        raise WordError(f"{text.strip()!r} is no shift; {EXAMPLES}")
    seconds = sum(
        int(count) * size for count, (_, size) in zip(found.groups()[1:], _UNITS, strict=True) if count is not None
    )
    return seconds if found[1] == "+" else -seconds


def shift_words(seconds: int) -> str:
    """ "+3 d 7 h 12 min", "-6 h 30 min", "none" for no shift at all."""
    return _signed(seconds, " ", {unit: f" {word}" for unit, word in _WORDS.items()}) or "none"


def shift_text(seconds: int) -> str:
    """The shift as it may be typed again: "+3d7h12m", "+0s"."""
    return _signed(seconds, "", {unit: unit for unit in _WORDS}) or "+0s"


def _signed(seconds: int, gap: str, names: dict[str, str]) -> str:
    rest, parts = abs(seconds), []
    for unit, size in _UNITS:
        count, rest = divmod(rest, size)
        if count:
            parts.append(f"{count}{names[unit]}")
    return ("-" if seconds < 0 else "+") + gap.join(parts) if parts else ""
