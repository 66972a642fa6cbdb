"""A date as Exif has it, with its sub-seconds and offset, to a claim (Exif 2.32 = CIPA DC-008)."""

import re

from indexer.facts.dates import LONGEST_TEXT, NO_SUCH_TIME, is_blank, iso_text
from indexer.facts.records import Claim

#: The widest zones in use are UTC-12 and UTC+14 (IANA time zone database).
WIDEST_OFFSET_MINUTES = 14 * 60

#: `YYYY:MM:DD HH:MM:SS`; blanks stand for what is not known. Other marks between the numbers, a "T", and a fraction or
#: zone behind were found in real files.
_FORM = re.compile(
    r"(\d{4})[:\-/.](\d\d|  )[:\-/.](\d\d|  )[ T](\d\d|  ):(\d\d|  ):(\d\d|  )(?!\d)(?:\.(\d+))?(.*)",
    re.ASCII | re.DOTALL,
)
_LETTERS = 19
_OFFSET = re.compile(r"([+-])(\d{2}):?(\d{2})|Z", re.ASCII)
#: Behind a time: "+02:00", "Z", "GMT+2" (the last in a file of the pillow-heif source package).
_ZONE = re.compile(r"(?:GMT|UTC)?\s*(?:Z|([+-])(\d{1,2})(?::?(\d\d))?)?", re.ASCII)


def exif_date_claim(source: str, text: str, fraction: str = "", offset: str = "") -> Claim:
    """A claim from an Exif date and, where there are any, its sub-second digits and offset.

    A month or day of blanks or zeros, with nothing known after it, makes the claim less exact: scanners write so.
    """
    text, fraction, offset = (part[:LONGEST_TEXT] for part in (text, fraction, offset))
    shown = " ".join(part for part in (text.strip(), offset.strip()) if part)
    if is_blank(text):
        return Claim(source, shown, None, problem="blank: the camera did not know the time")
    match = _FORM.fullmatch(text.strip("\0 ").ljust(_LETTERS))
    if not match:
        return Claim(source, shown, None, problem="not a date as Exif writes it (YYYY:MM:DD HH:MM:SS)")
    try:
        when, precision = iso_text(*_known(match.groups()[:6]))
    except ValueError:
        return Claim(source, shown, None, problem=NO_SUCH_TIME)
    minutes, problem = parse_offset(offset)
    behind = match[8].strip("\0 ")
    zone = _ZONE.fullmatch(behind)
    if zone is None and any(letter.isalnum() for letter in behind):
        return Claim(source, shown, when[:10], "day", problem=f"{behind!r} after the time: only the day is taken")
    if zone and zone[1] and minutes is None:
        minutes, problem = parse_offset(f"{zone[1]}{zone[2].zfill(2)}:{zone[3] or '00'}")
    digits = fraction.strip("\0 ") or match[7] or ""
    return Claim(
        source,
        shown,
        when,
        precision,
        fraction=digits if precision == "second" and digits.isascii() and digits.isdigit() else "",
        offset_minutes=minutes,
        is_utc=bool(behind and zone and not zone[1]) and minutes is None,
        problem=problem,
    )


def parse_offset(text: str) -> tuple[int | None, str | None]:
    """Minutes east of Greenwich of "+02:00", and what is wrong with the text otherwise (None for an absent one)."""
    text = text.strip("\0 ")
    if not text.strip(": "):
        return None, None
    match = _OFFSET.fullmatch(text)
    if not match:
        return None, f"offset {text!r} is none, left aside"
    if text == "Z":
        return 0, None
    minutes = int(match[2]) * 60 + int(match[3])
    if minutes > WIDEST_OFFSET_MINUTES or int(match[3]) > 59:
        return None, f"offset {text} does not exist, left aside"
    return (-minutes if match[1] == "-" else minutes), None


def _known(parts: tuple[str, ...]) -> list[int]:
    """The numbers as far as they are known; ValueError where a known one follows an unknown one."""
    for known in range(1, len(parts)):
        rest = parts[known:]
        # Zeros are no month and no day, and they are an hour.
        if all(map(is_blank, rest)) if known < 3 else not "".join(rest).strip():
            return [int(part) for part in parts[:known]]
    return [int(part) for part in parts]
