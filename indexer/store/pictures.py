"""One row per photo, derived from all that is known: when it was taken, which file speaks for it, its code."""

import sqlite3
from collections.abc import Collection, Iterable, Iterator, Sequence
from datetime import date
from typing import TypeVar

from indexer.dating.judging import judge_alone, judge_archive
from indexer.dating.offsets import Offsets
from indexer.dating.values import CaptureTime, PhotoSaid, Suggestion
from indexer.facts.codes import LEAST, shortest_codes
from indexer.store.archive import archive, photos_said, words_alone, world
from indexer.store.settled import unsettle

#: How many keys are judged at a time.
_CHUNK = 500

_T = TypeVar("_T")


def judge_all(connection: sqlite3.Connection, today: date) -> bool:
    """Judge every photo anew by all that is known, inside the caller's transaction, and keep what the evidence says of
    clocks; gives whether any verdict has changed."""
    unsettle(connection)
    known = archive(connection)
    judged = judge_archive(known, world(connection, today))
    rows = {photo.key: _row(photo, judged.verdicts[photo.key]) for photo in known.photos}
    before = {str(row[0]): tuple(row) for row in connection.execute(_ROWS)}
    changed = [row for key, row in rows.items() if before.get(key) != row]
    connection.executemany(_UPSERT, changed)
    connection.executemany("DELETE FROM picture WHERE key = ?", [(key,) for key in before.keys() - rows.keys()])
    _renew_codes(connection, {key[:LEAST] for key in rows.keys() - before.keys()})
    _save_suggestions(connection, judged.suggestions)
    return bool(changed)


def judge(connection: sqlite3.Connection, keys: Collection[str], today: date) -> None:
    """Derive the rows of these photos from their own files and from what was told of them, inside the caller's
    transaction; what other photos tell waits for `judge_all`.

    A key that no file has any more loses its row; what was told of it hangs on the key and stays.
    """
    if not keys:
        return
    unsettle(connection)
    words, around = words_alone(connection), world(connection, today)
    for chunk in _chunks(sorted(keys), _CHUNK):
        known = {
            str(key) for (key,) in connection.execute(f"SELECT key FROM picture WHERE key IN ({_marks(chunk)})", chunk)
        }
        photos = photos_said(connection, chunk)
        verdicts = judge_alone(photos, words, Offsets(), around)
        connection.executemany(_UPSERT, [_row(photo, verdicts[photo.key]) for photo in photos])
        connection.executemany("DELETE FROM picture WHERE key = ?", [(key,) for key in known - verdicts.keys()])
        _renew_codes(connection, {key[:LEAST] for key in verdicts.keys() - known})


def speaking_file(photo: PhotoSaid, verdict: CaptureTime) -> int:
    """The file that speaks for a photo: the one whose claim was believed if it is there, else the first that is there
    and says something of its own, else the first of all."""
    if verdict.chosen is not None:
        chosen = photo.said[verdict.chosen].file
        if not chosen.is_missing or all(file.is_missing for file in photo.files):
            return chosen.id
    present = [file for file in photo.files if not file.is_missing] or list(photo.files)
    saying = {item.file.id for item in photo.said}
    return next((file.id for file in present if file.id in saying), present[0].id)


def _row(photo: PhotoSaid, verdict: CaptureTime) -> tuple[object, ...]:
    return (
        photo.key,
        speaking_file(photo, verdict),
        verdict.taken,
        verdict.fraction,
        verdict.precision,
        verdict.offset_minutes,
        verdict.source,
        int(verdict.doubtful),
        verdict.reason,
        photo.said[verdict.chosen].evidence_id if verdict.chosen is not None else None,
        verdict.placed,
        verdict.twin,
    )


def _save_suggestions(connection: sqlite3.Connection, suggestions: Sequence[Suggestion]) -> None:
    connection.execute("DELETE FROM clock_suggestion")
    connection.executemany(
        "INSERT INTO clock_suggestion (number, make, model, serial, shift_seconds, since, until, grounds)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (
            (number, *_camera(item), item.shift_seconds, item.since, item.until, item.grounds)
            for number, item in enumerate(suggestions, start=1)
        ),
    )


def _camera(suggestion: Suggestion) -> tuple[str, str, str]:
    camera = suggestion.camera
    return camera.make, camera.model, camera.serial


def _renew_codes(connection: sqlite3.Connection, beginnings: Iterable[str]) -> None:
    """Give all photos whose keys begin so the codes that tell them apart. "g" follows the last hexadecimal letter."""
    for beginning in beginnings:
        rows = connection.execute("SELECT key FROM picture WHERE key >= ? AND key < ?", (beginning, beginning + "g"))
        codes = shortest_codes(key for (key,) in rows)
        connection.executemany(
            "UPDATE picture SET code = ?2 WHERE key = ?1 AND code <> ?2 AND length(code) < length(?2)", codes.items()
        )


def _marks(values: Sequence[object]) -> str:
    return ", ".join("?" * len(values))


def _chunks(items: Sequence[_T], size: int) -> Iterator[list[_T]]:
    for start in range(0, len(items), size):
        yield list(items[start : start + size])


_COLUMNS = (
    "key, lead_file_id, taken, fraction, precision, offset_minutes, source, doubtful, reason, evidence_id, placed,"
    " twin_key"
)
_ROWS = f"SELECT {_COLUMNS} FROM picture"
_UPSERT = f"""
INSERT INTO picture ({_COLUMNS}, code)
VALUES (?1, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, substr(?1, 1, {LEAST}))
ON CONFLICT (key) DO UPDATE SET
  lead_file_id = excluded.lead_file_id, taken = excluded.taken, fraction = excluded.fraction,
  precision = excluded.precision, offset_minutes = excluded.offset_minutes, source = excluded.source,
  doubtful = excluded.doubtful, reason = excluded.reason, evidence_id = excluded.evidence_id,
  placed = excluded.placed, twin_key = excluded.twin_key
"""
