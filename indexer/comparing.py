"""The second half of an index run: look at the pictures, compare them, judge when they were taken, make the sets."""

import sqlite3
from collections.abc import Callable, Generator, Sequence
from contextlib import closing
from datetime import date
from functools import partial
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from indexer.comparing_closely import LOOKING_TWICE, without_look_alikes
from indexer.interrupts import interrupts_held
from indexer.places import first_there
from indexer.store.alikes import make_sets
from indexer.store.likenesses import compare_changed, is_all_compared, save_compared
from indexer.store.opening import transaction
from indexer.store.pictures import judge_all
from indexer.store.pixels import ToLookAt, save_look, save_nothing, tidy, to_look_at, to_look_at_closer
from indexer.store.settled import is_settled, mark_settled

if TYPE_CHECKING:  # slow to load, and most runs find nothing to look at
    from indexer.facts.pixels import PixelFacts

    _Seen = tuple[ToLookAt, PixelFacts | str]  # a photo and what it shows, or why it shows nothing

#: What was seen is written down at least this often.
SECONDS_PER_BATCH = 1.0

#: Takes what is being done, how many are done of how many, and the last one's path.
Report = Callable[[str, int, int, str], None]

#: What the two rounds of looking are called: by thumbnails where they will do, and closer.
_FIRST, _CLOSER = "looking at pictures", "looking closer at pictures"


def compare_photos(connection: sqlite3.Connection, today: date, report: Report) -> int:
    """Bring what is known of the pictures, the verdicts on capture times, and the sets of photos alike, up to date;
    gives how many were looked at.

    Photos are judged before they are compared, since bursts are near in time, and after it, since copies tell of times.

    No set rests on thumbnails: a photo that resembles another by its thumbnail is decoded and compared anew, until none
    is left. No burst rests on a doubt: both photos are then looked at once more. Ctrl-C keeps what was seen, makes the
    sets that it allows, and goes on as KeyboardInterrupt.
    """
    if is_settled(connection):
        return 0
    try:
        return _compare_photos(connection, today, report)
    except KeyboardInterrupt:
        with interrupts_held(), transaction(connection):
            make_sets(connection)
        raise


def judge_what_was_read(connection: sqlite3.Connection, today: date) -> None:
    """After a run was stopped: judge what it read, by its own files alone so far, by the other photos too, whose doubts
    would be missing until the next run. Ctrl-C once more leaves that to it."""
    try:
        if not is_settled(connection):
            with transaction(connection):
                judge_all(connection, today)
    except KeyboardInterrupt:
        return


def _compare_photos(connection: sqlite3.Connection, today: date, report: Report) -> int:
    with transaction(connection):
        tidy(connection)
        judge_all(connection, today)
    photos = to_look_at(connection)
    looked, tried = _look(connection, photos, _FIRST, report), set[str]()
    while True:
        compared = compare_changed(connection, lambda count: report("comparing", 0, count, ""))
        compared = without_look_alikes(connection, compared, partial(report, LOOKING_TWICE))
        with transaction(connection):
            save_compared(connection, compared)
            make_sets(connection)
        closer = [photo for photo in to_look_at_closer(connection) if photo.key not in tried]
        if not closer:
            break
        tried.update(photo.key for photo in closer)
        looked += _look(connection, closer, _CLOSER, report)
    with transaction(connection):
        if judge_all(connection, today):
            make_sets(connection)
        if _is_all_done(connection):
            mark_settled(connection)
    return looked


def _is_all_done(connection: sqlite3.Connection) -> bool:
    """Whether nothing is left: no file was out of reach, and nothing was told meanwhile that dates photos anew."""
    return not to_look_at(connection) and not to_look_at_closer(connection) and is_all_compared(connection)


def _look(connection: sqlite3.Connection, photos: Sequence[ToLookAt], doing: str, report: Report) -> int:
    """Look at photos in worker processes and write down what they show, a batch at a time; gives how many were seen.

    A file that cannot be opened now leaves no row: it may be out of reach, and is tried again at the next run.
    """
    batch: list[_Seen] = [(photo, photo.damage) for photo in photos if photo.damage]
    reachable = [(photo, path) for photo in photos if not photo.damage and (path := first_there(photo.places))]
    seen = 0
    try:
        if reachable:
            last_write = monotonic()
            with closing(_results([path for _, path in reachable], doing)) as results:
                for done, (place, result) in enumerate(results, start=1):
                    photo, path = reachable[place]
                    if not isinstance(result, str) or _can_be_opened(path):
                        batch.append((photo, result))
                        seen += 1
                    report(doing, done, len(reachable), path)
                    if monotonic() - last_write > SECONDS_PER_BATCH:
                        _write(connection, batch)
                        last_write = monotonic()
    finally:
        _write(connection, batch)
    return seen


def _results(paths: Sequence[str], doing: str) -> "Generator[tuple[int, PixelFacts | str]]":
    """(place in `paths`, what the picture shows or why it shows nothing) as they come."""
    from indexer.facts.looking import look_at_all
    from indexer.facts.pixels import NoPixels

    with closing(look_at_all(paths, may_trust_thumbnails=doing == _FIRST)) as results:
        for place, result in results:
            yield place, result.reason if isinstance(result, NoPixels) else result


def _write(connection: sqlite3.Connection, batch: "list[_Seen]") -> None:
    """Write the batch down; it stays in hand until it has been written whole."""
    if not batch:
        return
    with interrupts_held():
        with transaction(connection):
            for photo, seen in batch:
                if isinstance(seen, str):
                    save_nothing(connection, photo, seen)
                else:
                    save_look(connection, photo, seen)
        batch.clear()


def _can_be_opened(path: str) -> bool:
    try:
        with Path(path).open("rb") as file:
            file.read(1)
    except OSError:
        return False
    return True
