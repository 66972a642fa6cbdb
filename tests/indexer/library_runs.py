"""What an index run found and what the index then holds, in the short forms that tests compare."""

import os
import sqlite3
from collections.abc import Callable
from pathlib import Path

from indexer.scan import Progress, Summary


def counts(summary: Summary) -> dict[str, int]:
    """The counts that are not zero, without `found` and `skipped`, which other tests look at."""
    names = ("new", "changed", "moved", "unchanged", "missing", "other", "unreadable")
    return {name: getattr(summary, name) for name in names if getattr(summary, name)}


def places(connection: sqlite3.Connection, *, missing: bool = False) -> list[str]:
    """Where the photos lie, or lay: whole paths."""
    rows = connection.execute(
        "SELECT folder, path FROM photo_file WHERE (missing_since IS NOT NULL) = ? ORDER BY 1, 2", (missing,)
    )
    return [str(Path(os.fsdecode(folder), os.fsdecode(path))) for folder, path in rows]


def keys(connection: sqlite3.Connection, *, present: bool = True) -> list[str]:
    """The keys of the photos that are there, or of those that are missing."""
    return [key for (key,) in connection.execute("SELECT key FROM photo WHERE present = ? ORDER BY 1", (present,))]


def key_at(connection: sqlite3.Connection, path: Path) -> str:
    """The key of the photo whose file lies, or lay, there."""
    rows = connection.execute("SELECT folder, path, key FROM photo_file")
    return next(str(row["key"]) for row in rows if Path(os.fsdecode(row["folder"]), os.fsdecode(row["path"])) == path)


def successions(connection: sqlite3.Connection) -> list[tuple[str, str]]:
    """The told successions, (old key, new key), oldest first."""
    return [tuple(row) for row in connection.execute("SELECT old_key, new_key FROM succession ORDER BY told_at")]


def tree(folder: Path) -> dict[str, tuple[bytes, int]]:
    """Every file with its bytes and time, every folder with its time."""
    return {
        str(path): (path.read_bytes() if path.is_file() else b"", path.stat().st_mtime_ns)
        for path in (folder, *folder.rglob("*"))
    }


def stop_after(count: int) -> Callable[[Progress], None]:
    """A report that answers the given file with Ctrl-C."""

    def report(progress: Progress) -> None:
        if progress.doing == "reading" and progress.done == count:
            raise KeyboardInterrupt

    return report
