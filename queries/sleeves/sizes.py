"""Lengths and sizes as a person writes them: 1/8in, 3mm, 6x4in, 102x152mm. Pure.

A bare number is inches. Sizes are width x height; one length alone is a square. One inch is 25.4 mm exactly
(international inch; from memory).
"""

import re
from dataclasses import dataclass
from typing import Literal

from indexer.errors import WordError

Unit = Literal["in", "mm"]
MM_PER_INCH = 25.4

_LENGTH = re.compile(
    r"\s*(?P<number>[0-9]{1,6}(?:[.,][0-9]{1,12})?|[.,][0-9]{1,12})(?:\s*/\s*(?P<below>[0-9]{1,6}))?"
    r"\s*(?P<unit>in|inch|inches|\"|mm|cm)?\s*"
)


@dataclass(frozen=True, slots=True)
class Size:
    """Width and height in the unit in which they were told."""

    width: float
    height: float
    unit: Unit

    def inches(self) -> tuple[float, float]:
        per_inch = 1.0 if self.unit == "in" else MM_PER_INCH
        return self.width / per_inch, self.height / per_inch

    def __str__(self) -> str:
        """As it is kept, and read again: 1x0.5in."""
        return f"{self.width:.12g}x{self.height:.12g}{self.unit}"


def parse_length(text: str) -> float:
    """Inches. Raises WordError."""
    number, unit = _length(text)
    return number / MM_PER_INCH if unit == "mm" else number


def parse_size(text: str) -> Size:
    """A size, or one length for both sides; a unit after the second number holds for both. Raises WordError."""
    parts = re.split("[x\u00d7*]", text.lower())
    if len(parts) > 2:
        raise WordError(f"{text!r} is no size; write it like 6x4in or 102x152mm")
    if len(parts) == 2 and parts[1].strip().endswith("cm") and parts[0].strip()[-1:].isdecimal():
        parts[0] += "cm"  # centimetres become millimetres at once, so the first number needs to know
    width, height = _length(parts[0], text), _length(parts[-1], text)
    return _in_one_unit(width, height)


def size_words(width: float, height: float, unit: Unit = "in") -> str:
    """A size given in inches as it is shown, in inches to a hundredth or millimetres to a tenth: 6x4in, 102x152mm."""
    if unit == "mm":
        return f"{_short(width * MM_PER_INCH, 1)}x{_short(height * MM_PER_INCH, 1)}mm"
    return f"{_short(width, 2)}x{_short(height, 2)}in"


def _in_one_unit(width: tuple[float, Unit | None], height: tuple[float, Unit | None]) -> Size:
    if width[1] in (None, height[1]) or height[1] is None:
        return Size(width[0], height[0], width[1] or height[1] or "in")
    across, down = (number / MM_PER_INCH if unit == "mm" else number for number, unit in (width, height))
    return Size(across, down, "in")


def _length(text: str, whole: str = "") -> tuple[float, Unit | None]:
    """A number and its unit, centimetres made millimetres."""
    match = _LENGTH.fullmatch(text.lower())
    below = float(match["below"] or 1) if match else 0.0
    if match is None or below == 0:
        told = (whole or text).strip()[:40]
        raise WordError(f"{told!r} is no size; write a length like 1in, 1/8in or 25.4mm, a size like 6x4in")
    number = float(match["number"].replace(",", ".")) / below
    if match["unit"] == "cm":
        return number * 10, "mm"
    return number, "mm" if match["unit"] == "mm" else "in" if match["unit"] else None


def _short(number: float, decimals: int) -> str:
    return f"{round(number, decimals):.{decimals}f}".rstrip("0").rstrip(".")
