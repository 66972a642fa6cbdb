"""The album day of a photo in SQL, for counting without loading photos."""

from datetime import time


def shift_of(starts_at: time) -> str:
    """SQLite's date modifier that moves the small hours to the day they belong to."""
    return f"-{starts_at.hour * 60 + starts_at.minute} minutes"


#: The album day of a photo in SQL, the same as `weeks.day_of` gives (a test holds the two together);
#: `:shift` is what `shift_of` gives.
ALBUM_DAY = "CASE precision WHEN 'day' THEN taken ELSE date(taken, :shift) END"
