"""The two plain ways beside ours: the Exif original date only, and the Exif original date, then the file's own time.

Read by Pillow, which is no reader of ours.
"""

import re
from datetime import UTC, date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from PIL import ExifTags, Image

from tests.benchmarks.dating.household import HOME

_WRITTEN = re.compile(r"(\d{4}):(\d{2}):(\d{2}) \d{2}:\d{2}:\d{2}")


def exif_original(path: Path) -> date | None:
    """The day of DateTimeOriginal (Exif 2.32, tag 0x9003), None where it is missing, blank or no day."""
    with Image.open(path) as picture:
        text = str(picture.getexif().get_ifd(ExifTags.IFD.Exif).get(ExifTags.Base.DateTimeOriginal, ""))
    found = _WRITTEN.fullmatch(text)
    try:
        return date(*map(int, found.groups())) if found else None
    except ValueError:
        return None


def exif_then_file_time(path: Path) -> date:
    """The same, and where there is none the day of the file's own time, at home."""
    return exif_original(path) or datetime.fromtimestamp(path.stat().st_mtime, UTC).astimezone(ZoneInfo(HOME)).date()
