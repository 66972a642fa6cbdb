"""The counter in a camera's file name, by which a run of photos keeps its order whatever the clock said. Pure.

DCF (CIPA DC-009) names are four characters and 0001 to 9999; other cameras and telephones count in up to six digits.
"""

import re

from indexer.facts.file_names import claim_from_name

_DCF = re.compile(r"([A-Z0-9_]{4})(\d{4})", re.ASCII | re.IGNORECASE)
_COUNTED = re.compile(r"(.*[^\d])(\d{4,6})", re.DOTALL | re.ASCII)
#: So many digits in what stands before the counter are a date, a size or a counter of their own.
_OTHER_NUMBER = re.compile(r"\d{4}", re.ASCII)
_ANY_YEAR = 9999


def file_number(name: str) -> tuple[str, int] | None:
    """(what stands before the digits, in capitals, and the number), or None where the name does not end in a counter.

    A name with something after its digits is that of an edit or copy, and digits that are part of a date count nothing.
    """
    stem = name[: name.rfind(".")] if name.rfind(".") > 0 else name
    match = _DCF.fullmatch(stem) if not stem.isdigit() else None
    match = match or _COUNTED.fullmatch(stem)
    if match is None or (match.re is _COUNTED and _OTHER_NUMBER.search(match[1])) or not int(match[2]):
        return None
    if claim_from_name(name, _ANY_YEAR):  # last, since it is slow
        return None
    return match[1].upper(), int(match[2])
