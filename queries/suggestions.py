"""Likely corrections of cameras' clocks, and what each would do."""

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import time

from indexer.dating.moments import moved
from indexer.errors import WordError
from indexer.facts.records import Camera
from queries.cameras import KnownCamera, OwnTime, known_cameras, name_of, own_times
from queries.week_log import Word
from queries.week_moves import NO_MOVES, Placed, WeekMoves, placed_by_key, week_moves
from queries.weeks import Week, WeekRule


@dataclass(frozen=True, slots=True)
class LikelyCorrection:
    """A correction that the evidence speaks for: what to add to the camera's own times in [since, until), and why.

    `photos` are those that it would date otherwise, `moves` what that does to weeks.
    """

    number: int
    camera: KnownCamera
    shift_seconds: int
    since: str | None
    until: str | None
    grounds: str
    photos: int = 0
    moves: WeekMoves = NO_MOVES


def suggestion_numbered(connection: sqlite3.Connection, number: int) -> LikelyCorrection:
    """Without its effect. Raises WordError for a number that none has."""
    for item in _suggestions(connection):
        if item.number == number:
            return item
    raise WordError(f"there is no suggestion {number}; weeksheaf clock suggest lists those that stand")


def likely_corrections(
    connection: sqlite3.Connection, words: Mapping[Week, Word], rule: WeekRule, starts_at: time
) -> list[LikelyCorrection]:
    """All of them, each with what it would do if it alone were applied."""
    found = _suggestions(connection)
    if not found:
        return []
    before, times = placed_by_key(connection), own_times(connection)
    fixed = {key for (key,) in connection.execute("SELECT photo_key FROM photo_assignment")}
    twins = _twins(connection)
    effects = []
    for item in found:
        after = _times_after(item, [own for own in times if own.key not in fixed])
        copies = {copy: after[twin] for copy, twin in twins.items() if twin in after and copy not in fixed}
        changed = {key: after.get(key) or copies.get(key) for key in {*after, *copies} & before.keys()}
        effects.append((len(changed), week_moves(before, changed, words, rule, starts_at)))
    return [
        LikelyCorrection(
            item.number, item.camera, item.shift_seconds, item.since, item.until, item.grounds, photos, moves
        )
        for item, (photos, moves) in zip(found, effects, strict=True)
    ]


def _times_after(item: LikelyCorrection, times: Sequence[OwnTime]) -> Placed:
    """By key: the corrected time of the photos that a correction is for."""
    return {
        own.key: corrected
        for own in times
        if own.camera == item.camera.camera
        and (item.since or "") <= own.own < (item.until or "~")
        and (corrected := moved(own.own, item.shift_seconds))
    }


def _suggestions(connection: sqlite3.Connection) -> list[LikelyCorrection]:
    by_camera = {known.camera: known for known in known_cameras(connection)}
    found = []
    for row in connection.execute("SELECT * FROM clock_suggestion ORDER BY number"):
        camera = Camera(row["make"], row["model"], row["serial"])
        known = by_camera.get(camera) or KnownCamera(0, camera, name_of(camera))
        found.append(
            LikelyCorrection(row["number"], known, row["shift_seconds"], row["since"], row["until"], row["grounds"])
        )
    return found


def _twins(connection: sqlite3.Connection) -> dict[str, str]:
    rows = connection.execute("SELECT key, twin_key FROM photo WHERE present AND twin_key IS NOT NULL")
    return dict(map(tuple, rows))
