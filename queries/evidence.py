"""All that speaks about when a photo was taken."""

import os
import sqlite3
from dataclasses import dataclass

from queries.photos import Photo, zone_text


@dataclass(frozen=True, slots=True)
class EvidenceRow:
    """One claim as it stands in a file; `claimed` is what it comes to (ISO 8601, None when unusable).

    `is_arrival` marks the time at which a file came to its place.
    """

    source: str
    text: str
    claimed: str | None
    precision: str
    zone: str | None
    is_utc: bool
    is_arrival: bool
    problem: str | None
    path: str
    is_chosen: bool


def evidence_of(connection: sqlite3.Connection, photo: Photo) -> list[EvidenceRow]:
    """Every claim in every file of the photo, those of its speaking file first."""
    rows = connection.execute(_EVIDENCE, (photo.key,))
    found = [
        EvidenceRow(
            row["source"],
            row["text"],
            row["claimed"],
            row["precision"],
            "UTC" if row["is_utc"] else zone_text(row["offset_minutes"]),
            bool(row["is_utc"]),
            bool(row["is_arrival"]),
            row["problem"],
            os.path.join(os.fsdecode(row["folder"]), os.fsdecode(row["path"])),  # noqa: PTH118
            bool(row["is_chosen"]),
        )
        for row in rows
    ]
    return sorted(found, key=lambda row: row.path != photo.path)


def count_suggestions(connection: sqlite3.Connection) -> int:
    """How many corrections of cameras' clocks the evidence speaks for."""
    return int(connection.execute("SELECT count(*) FROM clock_suggestion").fetchone()[0])


_EVIDENCE = """
SELECT evidence.*, photo_file.folder, photo_file.path, evidence.id IS photo.evidence_id AS is_chosen
FROM photo JOIN photo_file ON photo_file.key = photo.key JOIN evidence ON evidence.file_id = photo_file.file_id
WHERE photo.key = ?
ORDER BY evidence.id
"""
