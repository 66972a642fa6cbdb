"""The rows read off files: places, evidence and failures."""

import os
import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import blake2b

from indexer.facts.changes import KnownFile
from indexer.facts.picture_files import READER_VERSION
from indexer.facts.records import Failure, FileReading
from indexer.store.library_folders import is_reached, library_folders


@dataclass(frozen=True, slots=True)
class FileRow:
    """What is to be written of one file that was read. `id` is the row it takes, None for a new one; `sidecar` the text
    of the sidecars it was read with."""

    id: int | None
    folder_id: int
    path: bytes
    size: int
    mtime_ns: int
    reader_version: int
    reading: FileReading
    sidecar: str = ""

    @property
    def key(self) -> str | None:
        return self.reading.facts.key if self.reading.facts else None


def known_files(connection: sqlite3.Connection, folder_id: int, below: str = "") -> list[KnownFile]:
    """The rows of a library folder, or of its subfolder `below`."""
    rows = connection.execute(
        "SELECT id, folder_id, path, size, mtime_ns, kind, key, reader_version, missing_since IS NOT NULL,"
        " (SELECT min(step = 'open' OR step = 'reader' AND kind = 'photo') FROM failure WHERE file_id = file.id),"
        f" sidecar FROM file WHERE {_BELOW}",
        (folder_id, _prefix(below)),
    )
    rows.row_factory = None
    return [
        KnownFile(
            id_, folder, path, size, mtime_ns, kind, key, version, bool(gone), shut is not None, shut == 1, beside
        )
        for id_, folder, path, size, mtime_ns, kind, key, version, gone, shut, beside in rows
    ]


def has_held_files(connection: sqlite3.Connection, folder: str) -> bool:
    """Whether any file is known, there or missing, in a folder given by its real path."""
    for library in library_folders(connection):
        if is_reached(folder, library.path):
            below = "" if folder == library.path else os.path.relpath(folder, library.path)
            found = connection.execute(f"SELECT 1 FROM file WHERE {_BELOW} LIMIT 1", (library.id, _prefix(below)))
            return found.fetchone() is not None
    return False


def _prefix(below: str) -> bytes:
    """What the paths of all files in the subfolder begin with."""
    return os.fsencode(below + os.sep) if below else b""


def digest_of(reading: FileReading) -> str:
    """A hash of all that was read, the file's own time left out: touching a file does not change what it says."""
    facts, claims = reading.facts, ()
    if facts:
        claims = tuple(claim for claim in facts.claims if claim.source != "file time")  # type: ignore[assignment]
    said = (
        reading.kind,
        reading.failures,
        claims,
        facts
        and (
            facts.key,
            facts.format,
            facts.stored_width,
            facts.stored_height,
            facts.orientation,
            facts.camera,
            facts.latitude,
            facts.longitude,
        ),
    )
    return blake2b(repr(said).encode("utf-8", "surrogatepass"), digest_size=16).hexdigest()


def known_digest(connection: sqlite3.Connection, file_id: int) -> str:
    """The digest of what was last read off that file."""
    (digest,) = connection.execute("SELECT facts_digest FROM file WHERE id = ?", (file_id,)).fetchone()
    return str(digest)


def is_known(connection: sqlite3.Connection, key: str) -> bool:
    """Whether any file, there or missing, shows that photo."""
    return connection.execute("SELECT 1 FROM file WHERE key = ? LIMIT 1", (key,)).fetchone() is not None


def was_read_by_another_version(connection: sqlite3.Connection) -> bool:
    """Whether some file that is there was read by an older reader, so that an index run would find more in it."""
    found = connection.execute(
        "SELECT 1 FROM file WHERE reader_version <> ? AND missing_since IS NULL LIMIT 1", (READER_VERSION,)
    )
    return found.fetchone() is not None


def is_present(connection: sqlite3.Connection, key: str) -> bool:
    """Whether a file that is there shows that photo."""
    row = connection.execute("SELECT 1 FROM file WHERE key = ? AND missing_since IS NULL LIMIT 1", (key,)).fetchone()
    return row is not None


def save(connection: sqlite3.Connection, rows: Iterable[FileRow]) -> None:
    """Write what was read, in the caller's transaction; claims and failures of before are replaced."""
    for row in rows:
        file_id = _save_file(connection, row)
        connection.execute("DELETE FROM evidence WHERE file_id = ?", (file_id,))
        save_failures(connection, file_id, row.reading.failures)
        claims = row.reading.facts.claims if row.reading.facts else ()
        connection.executemany(
            _INSERT_EVIDENCE,
            [
                (
                    file_id,
                    claim.source,
                    claim.text.encode("utf-8", "replace").decode(),  # a file name may hold what UTF-8 cannot
                    claim.when,
                    claim.precision,
                    claim.fraction,
                    claim.offset_minutes,
                    claim.is_utc,
                    claim.is_arrival,
                    claim.problem,
                )
                for claim in claims
            ],
        )


def save_failures(connection: sqlite3.Connection, file_id: int, failures: Iterable[Failure]) -> None:
    """Write which steps failed on a file now, in the caller's transaction; those of before are replaced."""
    connection.execute("DELETE FROM failure WHERE file_id = ?", (file_id,))
    connection.executemany(
        "INSERT INTO failure (file_id, step, reason) VALUES (?, ?, ?) ON CONFLICT DO NOTHING",
        [(file_id, failure.step, failure.reason) for failure in failures],
    )


def mark_missing(connection: sqlite3.Connection, file_ids: Iterable[int], since: str) -> None:
    """Keep that these files are no longer where they lay; their rows and all words about them stay."""
    connection.executemany("UPDATE file SET missing_since = ? WHERE id = ?", [(since, item) for item in file_ids])


def mark_returned(connection: sqlite3.Connection, file_ids: Iterable[int]) -> None:
    """Keep that these files are there again."""
    connection.executemany("UPDATE file SET missing_since = NULL WHERE id = ?", [(item,) for item in file_ids])


def _save_file(connection: sqlite3.Connection, row: FileRow) -> int:
    facts = row.reading.facts
    values = (
        row.folder_id,
        row.path,
        row.size,
        row.mtime_ns,
        row.reading.kind,
        row.key,
        row.reader_version,
        "" if row.reading.has_shut_sidecar else row.sidecar,  # so that the next run tries again
        digest_of(row.reading),
        *(
            (
                facts.stored_width,
                facts.stored_height,
                facts.orientation,
                facts.format,
                facts.camera.make,
                facts.camera.model,
                facts.camera.serial,
                facts.latitude,
                facts.longitude,
            )
            if facts
            else (None,) * 9
        ),
    )
    if row.id is None:
        return int(connection.execute(_INSERT_FILE, values).lastrowid or 0)
    connection.execute(_UPDATE_FILE, (*values, row.id))
    return row.id


#: The files of folder ?1 whose paths begin with ?2.
_BELOW = "folder_id = ?1 AND (?2 = x'' OR substr(path, 1, length(?2)) = ?2)"
_FILE_COLUMNS = (
    "folder_id, path, size, mtime_ns, kind, key, reader_version, sidecar, facts_digest, stored_width, stored_height,"
    " orientation, format, make, model, serial, latitude, longitude"
)
_INSERT_FILE = f"INSERT INTO file ({_FILE_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
_UPDATE_FILE = (
    f"UPDATE file SET ({_FILE_COLUMNS}) = (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?), missing_since = NULL"
    " WHERE id = ?"
)
_INSERT_EVIDENCE = (
    "INSERT INTO evidence (file_id, source, text, claimed, precision, fraction, offset_minutes, is_utc, is_arrival,"
    " problem) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
)
