"""The tool itself, run on a made library: index it, ask for the verdicts, apply the clock corrections it proposes."""

import os
import sqlite3
from datetime import date
from pathlib import Path

from indexer import index_folders, open_for_writing
from indexer.errors import WordError
from indexer.facts.records import Camera
from indexer.store.opening import transaction
from indexer.store.settings import tell_setting
from tests.benchmarks.dating.household import HOME, TODAY
from tests.benchmarks.dating.measures import Verdict

#: How often all that is proposed is applied: a corrected clock may make another one known.
ROUNDS = 3


def indexed(index: Path, library: Path) -> sqlite3.Connection:
    """The library in a new index, with the zone at home told."""
    connection = open_for_writing(index, create=True)
    with transaction(connection):
        tell_setting(connection, "home.timezone", HOME, TODAY)
    index_folders(connection, [library], today=TODAY)
    return connection


def verdicts(connection: sqlite3.Connection) -> dict[str, Verdict]:
    """By path below the library: the day of `placed` where a day is known (10 letters or more)."""
    rows = connection.execute(
        "SELECT photo_file.path, photo.placed, photo.doubtful, photo.reason, photo.source, photo.precision"
        " FROM photo_file JOIN photo ON photo.key = photo_file.key"
    )
    return {os.fsdecode(path): Verdict(_day(placed), bool(doubtful), f"{source}, {precision}: {reason}")
            for path, placed, doubtful, reason, source, precision in rows}  # fmt: skip


def apply_all_proposed(connection: sqlite3.Connection) -> list[str]:
    """Apply every clock correction that stands proposed, round after round; gives each in words."""
    from indexer.store.clocks import tell_correction

    told = []
    for turn in range(1, ROUNDS + 1):
        proposed = connection.execute("SELECT * FROM clock_suggestion ORDER BY number").fetchall()
        if not proposed:
            break
        for row in proposed:
            camera = Camera(row["make"], row["model"], row["serial"])
            span = f"{row['since'] or 'the first'} to {row['until'] or 'the last'}"
            said = f"round {turn}: {camera.model} {row['shift_seconds']:+d} s, {span}: {row['grounds']}"
            try:
                with transaction(connection):
                    tell_correction(connection, camera, row["shift_seconds"], row["since"], row["until"], TODAY)
            except WordError as error:
                said += f" (refused: {error})"
            told.append(said)
    return told


def _day(placed: str | None) -> date | None:
    if placed is None or len(placed) < 10:
        return None
    try:
        return date.fromisoformat(placed[:10])
    except ValueError:
        return None
