"""Done weeks against today's photos: what turned up after a page was made, and what is no longer there."""

import json
import sqlite3
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import time

from queries.album_days import ALBUM_DAY, HAS_DAY, shift_of
from queries.photos import Photo
from queries.week_log import Word
from queries.weeks import Week


@dataclass(frozen=True, slots=True)
class Finished:
    """A done week against today's photos: `late` photos are in the week and not on the page, `gone` keys the reverse.

    `edits` tells of a late photo's key which photo of the page it took the place of; that one is not among the gone.
    `copies` are photos that turned up and show nothing new, each with the code of the photo on the page that it is a
    copy of; they are not late.
    """

    late: Sequence[Photo] = ()
    gone: Sequence[str] = ()
    edits: Mapping[str, str] = field(default_factory=dict)
    copies: Sequence[tuple[Photo, str]] = ()


def compare_with_page(connection: sqlite3.Connection, word: Word, photos: Sequence[Photo]) -> Finished:
    """What changed in a week since it was marked done; nothing when it is not done."""
    if word.state != "done":
        return Finished()
    page = {str(key) for (key,) in connection.execute(_PAGE, (word.uuid,))}
    shown = {str(key): str(code) for key, code in connection.execute(_COPIES, {"page": word.uuid})}
    new = [photo for photo in photos if photo.key not in page]
    late = [photo for photo in new if photo.key not in shown]
    followed = connection.execute("SELECT old_key, new_key FROM succession ORDER BY told_at, uuid")
    late_keys = {photo.key for photo in late}
    edits = {new: old for old, new in followed if old in page and new in late_keys}
    gone = page - {photo.key for photo in photos} - set(edits.values())
    return Finished(late, sorted(gone), edits, [(photo, shown[photo.key]) for photo in new if photo.key in shown])


def late_counts(connection: sqlite3.Connection, words: Mapping[Week, Word], starts_at: time) -> Counter[Week]:
    """How many photos turned up in each done week after it was marked so, copies of what it holds aside."""
    done = {week.first_day.isoformat(): week for week, word in words.items() if word.state == "done"}
    asked = json.dumps([[first, week.next_first_day.isoformat(), words[week].uuid] for first, week in done.items()])
    rows = connection.execute(_LATE, {"weeks": asked, "shift": shift_of(starts_at)})
    return Counter({done[first]: count for first, count in rows})


_PAGE = "SELECT photo_key FROM week_holding WHERE log_uuid = ?"

#: Photos that a done page does not hold, and the code of the one it holds that they are a copy of.
_COPIES = """
SELECT other.photo_key, min(photo.code)
FROM week_holding
JOIN alike_set AS held ON held.photo_key = week_holding.photo_key AND held.kind = 'copy'
JOIN alike_set AS other ON other.set_id = held.set_id
JOIN photo ON photo.key = held.photo_key
WHERE log_uuid = :page
  AND NOT EXISTS (SELECT 1 FROM week_holding AS also
                  WHERE also.log_uuid = :page AND also.photo_key = other.photo_key)
GROUP BY other.photo_key
"""

_LATE = f"""
SELECT json_extract(asked.value, '$[0]') AS first_day, count(*)
FROM json_each(:weeks) AS asked
JOIN photo ON placed >= json_extract(asked.value, '$[0]') AND placed < date(json_extract(asked.value, '$[1]'), '+1 day')
WHERE present AND {HAS_DAY}
  AND {ALBUM_DAY} >= json_extract(asked.value, '$[0]') AND {ALBUM_DAY} < json_extract(asked.value, '$[1]')
  AND NOT EXISTS (SELECT 1 FROM week_holding
                  WHERE log_uuid = json_extract(asked.value, '$[2]') AND photo_key = photo.key)
  AND NOT EXISTS (SELECT 1 FROM alike_set AS own
                  JOIN alike_set AS other ON other.set_id = own.set_id
                  JOIN week_holding ON week_holding.photo_key = other.photo_key
                  WHERE own.photo_key = photo.key AND own.kind = 'copy'
                    AND log_uuid = json_extract(asked.value, '$[2]'))
GROUP BY first_day
"""
