"""Rows put into an index by hand: photos, looks and sets, with no files behind them."""

import sqlite3
from collections.abc import Sequence

FOLDER = "/library"


def put_photo(
    connection: sqlite3.Connection,
    key: str,
    taken: str | None = "2026-04-01T10:00:00",
    *,
    size: tuple[int, int] = (4000, 3000),
    name: str = "",
    camera: str = "Lanternfish P4",
    picture_format: str = "JPEG",
    missing: bool = False,
    placed: str | None = None,
) -> None:
    """One photo with one file, called after its key unless `name` is given; its code is the key's beginning.

    `placed` is a day of the week that it was put into by hand.
    """
    connection.execute("INSERT OR IGNORE INTO library_folder (id, path) VALUES (1, ?)", (FOLDER.encode(),))
    file = connection.execute(
        "INSERT INTO file (folder_id, path, size, mtime_ns, kind, key, reader_version, missing_since, stored_width,"
        " stored_height, orientation, format, make, model, serial) VALUES (1, ?, 10, 20, 'photo', ?, 1, ?, ?, ?, 1, ?,"
        " '', ?, '')",
        ((name or f"{key}.jpg").encode(), key, "2026-04-20" if missing else None, *size, picture_format, camera),
    )
    precision = {None: "unknown", 7: "month", 10: "day", 16: "minute", 19: "second"}[taken and len(taken)]  # type: ignore[index]
    connection.execute(
        "INSERT INTO picture (key, code, lead_file_id, taken, placed, fraction, precision, source, doubtful, reason)"
        " VALUES (?, ?, ?, ?, ?, '', ?, 'exif original', 0, 'the camera says so')",
        (key, key[:5], file.lastrowid, taken, placed or taken, precision),
    )


def put_set(
    connection: sqlite3.Connection,
    number: int,
    kind: str,
    keys: Sequence[str],
    *,
    keepers: int = 1,
    reason: str = "",
) -> None:
    """One set of photos alike, the first `keepers` of which stand for it."""
    for place, key in enumerate(keys):
        said = (reason or f"sharpest of {len(keys)}") if place == 0 else ""
        row = (number, kind, key, place, int(place < keepers), said)
        connection.execute("INSERT INTO alike_member VALUES (?, ?, ?, ?, ?, ?)", row)


def put_choice(connection: sqlite3.Connection, key: str, choice: str | None) -> None:
    """What the person said of a photo, without the sets being made anew."""
    (count,) = connection.execute("SELECT count(*) FROM choice").fetchone()
    row = (f"u{count}", f"2026-04-20T09:00:00.{count:06}Z", key, choice)
    connection.execute("INSERT INTO choice VALUES (?, ?, ?, ?)", row)


def put_look(
    connection: sqlite3.Connection,
    key: str,
    *,
    problem: str | None = None,
    pictures: int = 1,
    subject: str = "photograph",
) -> None:
    """What looking at a photo gave: a problem, or some pixels."""
    values = (bytes(8), bytes(8), bytes(64 * 64), bytes(192), 40.0, 200.0, 0.0, 0.0, subject, pictures)
    if problem:
        values = (None,) * len(values)  # type: ignore[assignment]
    connection.execute(
        "INSERT INTO pixel (key, method, made_from, problem, phash, dhash, grey, layout, contrast, sharpness_240, dark,"
        " bright, subject, pictures) VALUES (?, 1, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (key, "nothing" if problem else "decode", problem, *values),
    )


def put_claim(connection: sqlite3.Connection, key: str, source: str, claimed: str) -> None:
    """A claim in the file of a photo; the photo itself is not judged by it."""
    precision = {10: "day", 16: "minute", 19: "second"}[len(claimed)]
    connection.execute(
        "INSERT INTO evidence (file_id, source, text, claimed, precision, fraction, is_utc, is_arrival)"
        " SELECT id, ?, ?, ?, ?, '', ?, ? FROM file WHERE key = ?",
        (source, claimed, claimed, precision, source in ("gps", "file time"), source == "file time", key),
    )
