"""What a photo is called in the working folder, and in which order photos stand. Pure.

A name begins with the capture time, so that names sort as the pictures were taken. What is known less exactly comes
after what is known more exactly, in names and in the order alike ("_" and letters sort after digits and hyphens).
"""

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from pathlib import PurePath

from queries.photos import Photo

#: The suffix of each format that can be turned into another. What is not here is raw data, and keeps its own suffix.
SUFFIXES = {
    "JPEG": ".jpg",
    "HEIF": ".heic",
    "PNG": ".png",
    "WEBP": ".webp",
    "TIFF": ".tif",
    "AVIF": ".avif",
}

#: How many letters of an ISO 8601 time hold good at each precision.
_LETTERS = {"second": 19, "minute": 16, "day": 10, "between": 10, "month": 7, "year": 4}


def known_time(photo: Photo) -> str:
    """The capture time in ISO 8601, no longer than its precision allows; "" when nothing is known."""
    return (photo.taken or "")[: _LETTERS.get(photo.precision, 0)]


def capture_order(photo: Photo) -> tuple[str, str]:
    """A key to sort photos by capture time, then by code."""
    time = known_time(photo)
    if len(time) == _LETTERS["second"] and photo.fraction:
        time += f".{photo.fraction:0<9.9}"
    return time + "~", photo.code  # "~" sorts after all else: the less exact time comes last


def names_of(
    photos: Iterable[Photo], recorded: Mapping[str, str], *, as_jpeg: bool, beside: Iterable[Photo] = ()
) -> dict[str, str]:
    """A file name for each photo's key; a name recorded for a key stays, and no two names differ only in case.

    `beside` are photos that get none now and may later: the names keep in order with theirs.
    """
    ordered = sorted(photos, key=capture_order)
    around = [known_time(photo) for photo in (*ordered, *beside)]
    minutes, seconds = Counter(time[:16] for time in around), Counter(around)
    used = {name.casefold() for name in recorded.values()}
    names: dict[str, str] = {}
    for photo in ordered:
        name = recorded.get(photo.key)
        if name is None:
            time = known_time(photo)
            moment = _moment(photo, exact=minutes[time[:16]] > 1, finest=seconds[time] > 1)
            name = _unused(photo, moment, ".jpg" if as_jpeg else suffix_of(photo), used)
            used.add(name.casefold())
        names[photo.key] = name
    return names


def suffix_of(photo: Photo) -> str:
    """The suffix that tells the photo's real format, in lower case, whatever the original is called."""
    known = SUFFIXES.get(photo.format.upper())
    if known:
        return known
    suffix = PurePath(photo.path).suffix.lower()
    return suffix if re.fullmatch(r"\.[a-z0-9]{1,8}", suffix) else ".raw"


def _moment(photo: Photo, *, exact: bool, finest: bool) -> str:
    """The part of a name that tells the time: seconds where the minute is shared, milliseconds where the second is.

    The hyphens keep file managers in order that compare a run of digits as one number: 0915-07 before 1015.
    """
    day, _, clock = known_time(photo).partition("T")
    if not day:
        return "undated"
    if not clock:
        return f"{day}_notime" if len(day) == _LETTERS["day"] else f"{day}_noday"
    hours, minutes, *seconds = clock.split(":")
    if not (exact and seconds):
        return f"{day}_{hours}{minutes}"
    finer = f"-{photo.fraction:0<3.3}" if finest and photo.fraction else ""
    return f"{day}_{hours}{minutes}-{seconds[0]}{finer}"


def _unused(photo: Photo, moment: str, suffix: str, used: set[str]) -> str:
    """The name with the photo's code, or with as many more letters of its key as make it free."""
    codes = [photo.code, *(photo.key[:end] for end in range(len(photo.code) + 1, len(photo.key) + 1))]
    candidates = (f"{moment}_{code}{suffix}" for code in codes)
    return next((name for name in candidates if name.casefold() not in used), f"{moment}_{photo.key}{suffix}")
