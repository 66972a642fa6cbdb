"""The album day of a photo in SQL, for counting without loading photos."""

from datetime import time


def shift_of(starts_at: time) -> str:
    """SQLite's date modifier that moves the small hours to the day they belong to."""
    return f"-{starts_at.hour * 60 + starts_at.minute} minutes"


#: Whether a day is known of what puts a photo into a week.
HAS_DAY = "length(placed) >= 10"
#: The album day of a photo of which a day is known, in SQL, the same as `weeks.day_of` gives (a test holds the two
#: together); `:shift` is what `shift_of` gives.
ALBUM_DAY = "CASE length(placed) WHEN 10 THEN placed ELSE date(placed, :shift) END"
