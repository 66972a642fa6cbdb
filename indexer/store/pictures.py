"""One row per photo, derived from the rows of its files: when it was taken, which file speaks for it, its code."""

import sqlite3
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby
from typing import TypeVar

from indexer.facts.capture_time import CaptureTime, ToLocal, decide
from indexer.facts.codes import LEAST, shortest_codes
from indexer.facts.records import Claim
from indexer.facts.zones import THIS_COMPUTER, is_zone, wall_clock
from indexer.store.settled import unsettle

HOME_TIMEZONE = "home.timezone"
#: How many keys one statement names; SQLite's own limit on variables is far higher.
_CHUNK = 500

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class FileClaim:
    """A claim and the rows it comes from; `claim` is None for a file that makes none."""

    file_id: int
    is_missing: bool
    evidence_id: int | None
    claim: Claim | None


@dataclass(frozen=True, slots=True)
class Home:
    """What the verdict needs to know besides the evidence."""

    to_local: ToLocal
    zone_is_told: bool
    tomorrow: date


def judge_all(connection: sqlite3.Connection, today: date) -> None:
    """Judge every photo anew, inside the caller's transaction."""
    judge(connection, [key for (key,) in connection.execute("SELECT key FROM picture")], today)


def judge(connection: sqlite3.Connection, keys: Collection[str], today: date) -> None:
    """Derive the rows of these photos from their files, inside the caller's transaction.

    A key that no file has any more loses its row; what was told of it hangs on the key and stays.
    """
    if keys:
        unsettle(connection)
    home = _home(connection, today)
    for chunk in _chunks(sorted(keys), _CHUNK):
        known = {key for (key,) in connection.execute(f"SELECT key FROM picture WHERE key IN ({_marks(chunk)})", chunk)}
        judged = [_judged(key, claims, home) for key, claims in _claims_by_key(connection, chunk)]
        connection.executemany(_UPSERT, judged)
        found = {str(row[0]) for row in judged}
        connection.executemany("DELETE FROM picture WHERE key = ?", [(key,) for key in known - found])
        _renew_codes(connection, {key[:LEAST] for key in found - known})


def speaking_file(claims: Sequence[FileClaim], verdict: CaptureTime) -> int:
    """The file that speaks for a photo: the one whose claim was believed if it is there, else the first that is."""
    chosen = claims[verdict.chosen] if verdict.chosen is not None else claims[0]
    present = [claim for claim in claims if not claim.is_missing] or list(claims)
    return chosen.file_id if chosen in present else present[0].file_id


def _judged(key: str, claims: Sequence[FileClaim], home: Home) -> tuple[object, ...]:
    spoken = [claim for claim in claims if claim.claim] or list(claims)
    verdict = decide([item.claim for item in spoken if item.claim], home.to_local, home.zone_is_told, home.tomorrow)
    return (
        key,
        key[:LEAST],
        speaking_file(spoken, verdict),
        verdict.taken,
        verdict.fraction,
        verdict.precision,
        verdict.offset_minutes,
        verdict.source,
        verdict.doubtful,
        verdict.reason,
        spoken[verdict.chosen].evidence_id if verdict.chosen is not None else None,
    )


def _home(connection: sqlite3.Connection, today: date) -> Home:
    row = connection.execute("SELECT value FROM setting WHERE name = ?", (HOME_TIMEZONE,)).fetchone()
    zone = row["value"] if row and is_zone(row["value"]) else THIS_COMPUTER

    def to_local(utc: datetime) -> datetime:
        return wall_clock(utc, zone)

    return Home(to_local, zone != THIS_COMPUTER, today + timedelta(days=1))


def _claims_by_key(connection: sqlite3.Connection, keys: list[str]) -> Iterator[tuple[str, list[FileClaim]]]:
    """The claims of each key's files: those of files that are there first, else in the order of place."""
    rows = connection.execute(_CLAIMS.format(_marks(keys)), keys)
    for key, group in groupby(rows, key=lambda row: str(row["key"])):
        yield key, [_file_claim(row) for row in group]


def _file_claim(row: sqlite3.Row) -> FileClaim:
    claim = Claim(
        source=row["source"],
        text=row["text"],
        when=row["claimed"],
        precision=row["precision"],
        fraction=row["fraction"],
        offset_minutes=row["offset_minutes"],
        is_utc=bool(row["is_utc"]),
        is_arrival=bool(row["is_arrival"]),
        problem=row["problem"],
    )
    return FileClaim(row["file_id"], row["is_missing"], row["evidence_id"], claim if row["evidence_id"] else None)


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


_CLAIMS = """
SELECT file.key, file.id AS file_id, file.missing_since IS NOT NULL AS is_missing, evidence.id AS evidence_id,
       evidence.source, evidence.text, evidence.claimed, evidence.precision, evidence.fraction,
       evidence.offset_minutes, evidence.is_utc, evidence.is_arrival, evidence.problem
FROM file LEFT JOIN evidence ON evidence.file_id = file.id
WHERE file.key IN ({})
ORDER BY file.key, is_missing, file.folder_id, file.path, evidence.id
"""

_UPSERT = """
INSERT INTO picture (key, code, lead_file_id, taken, fraction, precision, offset_minutes, source, doubtful, reason,
                     evidence_id)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
ON CONFLICT (key) DO UPDATE SET
  lead_file_id = excluded.lead_file_id, taken = excluded.taken, fraction = excluded.fraction,
  precision = excluded.precision, offset_minutes = excluded.offset_minutes, source = excluded.source,
  doubtful = excluded.doubtful, reason = excluded.reason, evidence_id = excluded.evidence_id
"""
