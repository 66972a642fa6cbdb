"""What was told of cameras' clocks: corrections, and corrections taken back."""

import sqlite3
from datetime import date

from indexer.errors import WordError
from indexer.facts.records import Camera
from indexer.store.alikes import renew_sets
from indexer.store.archive import corrections
from indexer.store.pictures import judge_all
from indexer.store.words import LARGEST_SHIFT, new_stamp


def tell_correction(
    connection: sqlite3.Connection,
    camera: Camera,
    shift_seconds: int,
    since: str | None,
    until: str | None,
    today: date,
) -> str:
    """Keep what is to be added to a camera's own times in [since, until), and judge every photo anew by it; the UUID.

    Both bounds are the camera's own, uncorrected times to the second, or None. Runs inside the caller's transaction.
    Raises WordError for a span without time in it, a shift beyond all clocks, and an overlap with what holds already.
    """
    if (since or "") >= (until or "~"):
        raise WordError(f"the span from {_clock(since)} to {_clock(until)} holds no time; give the earlier one first")
    if abs(shift_seconds) > LARGEST_SHIFT:
        raise WordError("no clock is wrong by more than a hundred years; check the shift")
    _refuse_overlap(connection, camera, since, until)
    stamp = new_stamp(connection)
    connection.execute(
        "INSERT INTO clock_log (uuid, told_at, make, model, serial, shift_seconds, since, until)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, camera.make, camera.model, camera.serial, shift_seconds, since, until),
    )
    _derive(connection, today)
    return stamp.uuid


def take_back(connection: sqlite3.Connection, uuid: str, today: date) -> None:
    """Keep that a correction no longer holds, and judge every photo anew. Runs inside the caller's transaction.

    Raises WordError where it holds no more: another run may have been first.
    """
    held = next((item for item in corrections(connection) if item.uuid == uuid), None)
    if held is None:
        raise WordError("this correction was taken back already; weeksheaf clock lists those that hold")
    stamp, camera = new_stamp(connection), held.camera
    connection.execute(
        "INSERT INTO clock_log (uuid, told_at, make, model, serial, takes_back) VALUES (?, ?, ?, ?, ?, ?)",
        (stamp.uuid, stamp.told_at, camera.make, camera.model, camera.serial, uuid),
    )
    _derive(connection, today)


def _derive(connection: sqlite3.Connection, today: date) -> None:
    judge_all(connection, today)
    renew_sets(connection)


def _refuse_overlap(connection: sqlite3.Connection, camera: Camera, since: str | None, until: str | None) -> None:
    for number, held in enumerate(corrections(connection), start=1):
        is_apart = (until or "~") <= (held.since or "") or (held.until or "~") <= (since or "")
        if held.camera == camera and not is_apart:
            span = f"{_clock(held.since) or 'its first photo'} to {_clock(held.until) or 'its last photo'}"
            raise WordError(
                f"correction {number} of this camera holds from {span} already; take it back first with"
                f" weeksheaf clock forget {number}, or part the two with --from and --until"
            )


def _clock(time: str | None) -> str:
    return (time or "").replace("T", " ")
