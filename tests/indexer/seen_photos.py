"""Photos as if files of theirs had been read and looked at, and a simple rule of likeness in place of the real one."""

import sqlite3
from collections.abc import Collection, Sequence
from datetime import date
from types import ModuleType
from typing import Any, Literal

from indexer.alike.values import Likeness, Looked
from indexer.facts.fingerprint import Fingerprint
from indexer.facts.pixels import PixelFacts
from indexer.facts.records import NO_CAMERA, Camera, Claim, FileReading, PhotoFacts
from indexer.store import files
from indexer.store.library_folders import place_of
from indexer.store.opening import transaction
from indexer.store.pictures import judge
from indexer.store.pixels import ToLookAt, save_look, save_nothing

TODAY = date(2026, 6, 1)
CAMERA = Camera("Tidewell", "TW-100", "")
A, B, C, D = (letter * 32 for letter in "abcd")


def taken(second: int | str, fraction: str = "") -> Claim:
    """What a camera says of a picture taken that second after ten, or at that time."""
    when = f"2026-03-30T10:00:{second:02}" if isinstance(second, int) else second
    return Claim("exif original", when, when, "second", fraction)


def put(connection: sqlite3.Connection, key: str, *claims: Claim, name: str = "", **facts: Any) -> int:
    """A file that shows this photo, in /library; gives its row."""
    values: dict[str, Any] = {
        "format": "JPEG",
        "stored_width": 40,
        "stored_height": 30,
        "orientation": 1,
        "camera": CAMERA if claims else NO_CAMERA,
        "latitude": None,
        "longitude": None,
    } | facts
    reading = FileReading("photo", PhotoFacts(key=key, claims=claims, **values))
    path = (name or f"{key[0]}.jpg").encode()
    with transaction(connection):
        folder = place_of(connection, "/library").folder.id
        known = connection.execute(
            "SELECT id, key FROM file WHERE folder_id = ? AND path = ?", (folder, path)
        ).fetchone()
        row = files.FileRow(known["id"] if known else None, folder, path, 10, 20, 1, reading)
        files.save(connection, [row])
        judge(connection, {key} | ({known["key"]} if known else set()), TODAY)
    return int(connection.execute("SELECT id FROM file WHERE path = ?", (path,)).fetchone()[0])


def lose(connection: sqlite3.Connection, key: str) -> None:
    """Its files are no longer there."""
    rows = [row["id"] for row in connection.execute("SELECT id FROM file WHERE key = ?", (key,))]
    with transaction(connection):
        files.mark_missing(connection, rows, "2026-06-01T00:00:00.000000Z")
        judge(connection, {key}, TODAY)


def find_again(connection: sqlite3.Connection, key: str) -> None:
    rows = [row["id"] for row in connection.execute("SELECT id FROM file WHERE key = ?", (key,))]
    with transaction(connection):
        files.mark_returned(connection, rows)
        judge(connection, {key}, TODAY)


def seen(
    shot: int,
    scene: int = 0,
    made_from: Literal["thumbnail", "decode"] = "decode",
    sharpness: float = 100.0,
) -> PixelFacts:
    """What a photo shows: the same `shot` is the same picture, the same `scene` (but 0) is a burst."""
    print_ = Fingerprint(bytes([shot] * 8), bytes([scene] * 8), bytes(64 * 64), bytes(192), 40.0)
    return PixelFacts(made_from, print_, (sharpness,) * 3, 0.0, 0.0, "photograph")


def asked(key: str, orientation: int = 1) -> ToLookAt:
    return ToLookAt(key, (), orientation, 40, 30, None)


def look(connection: sqlite3.Connection, key: str, shot: int, scene: int = 0, **facts: Any) -> None:
    with transaction(connection):
        save_look(connection, asked(key), seen(shot, scene, **facts))


def look_in_vain(connection: sqlite3.Connection, key: str, reason: str = "cut off") -> None:
    with transaction(connection):
        save_nothing(connection, asked(key), reason)


class SimpleLikeness(ModuleType):
    """Stands in for the module that finds likenesses; `compared` holds the keys that were fresh, time by time.

    `scenes` are the pairs of keys, the smaller first, that are scenes seen by two cameras besides. `burst_score` is how
    sure bursts are: so sure that they are in no doubt.
    """

    def __init__(self) -> None:
        super().__init__("indexer.alike.likeness")
        self.compared: list[set[str]] = []
        self.scenes: set[tuple[str, str]] = set()
        self.burst_score = 20.0

    def likenesses(self, photos: Sequence[Looked], fresh: Collection[str]) -> list[Likeness]:
        self.compared.append(set(fresh))
        ordered = sorted(photos, key=lambda photo: photo.key)
        pairs = ((a, b) for a in ordered for b in ordered if a.key < b.key and {a.key, b.key} & set(fresh))
        kinds = [(a.key, b.key, kind) for a, b in pairs if (kind := self._kind(a, b))]
        return [Likeness(a, b, kind, self.burst_score if kind == "burst" else 1.0) for a, b, kind in kinds]

    def _kind(self, a: Looked, b: Looked) -> Literal["copy", "burst", "scene"] | None:
        if a.phash == b.phash:
            return "copy"
        if self._is_burst(a, b):
            return "burst"
        return "scene" if (a.key, b.key) in self.scenes else None

    def same_picture(self, one: Looked, other: Looked) -> bool:
        return one.phash == other.phash

    @staticmethod
    def _is_burst(a: Looked, b: Looked) -> bool:
        timed = a.moment is not None and b.moment is not None and abs(a.moment - b.moment) <= 600
        return timed and a.dhash == b.dhash and a.dhash != bytes(8)


def sets(connection: sqlite3.Connection) -> list[tuple[str, str, str]]:
    """Kind, members and keepers of every set, by the first letters of the keys."""
    found: dict[int, tuple[str, str, str]] = {}
    for row in connection.execute("SELECT * FROM alike_set ORDER BY set_id, place"):
        kind, members, keepers = found.get(row["set_id"], (row["kind"], "", ""))
        letter = row["photo_key"][0]
        found[row["set_id"]] = kind, members + letter, keepers + (letter if row["keeper"] else "")
    return list(found.values())
