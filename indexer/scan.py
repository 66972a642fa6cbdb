"""The story of an index run: gather what lies in the folders, decide what to read, read it, write it down."""

import os
import sqlite3
from collections.abc import Callable, Iterable, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path
from time import monotonic

from indexer.comparing import compare_photos, judge_what_was_read
from indexer.errors import FolderError
from indexer.facts.changes import Changes, KnownFile, compare, holds_back
from indexer.facts.folders import Walk, walk
from indexer.facts.picture_files import READER_VERSION, promises_picture
from indexer.facts.records import FileToRead
from indexer.facts.sidecars import find_sidecars, sidecar_texts
from indexer.store import files, library_folders
from indexer.store.alikes import count_sets
from indexer.store.landing import Landing
from indexer.store.library_folders import Place
from indexer.store.opening import transaction
from indexer.store.pixels import count_without_pixels
from indexer.store.words import written

#: What was read is written down at least this often: little is lost when a run is stopped, and a transaction stays
#: small.
SECONDS_PER_BATCH = 1.0


@dataclass(frozen=True, slots=True)
class Progress:
    """Where a run is: what is being done ("looking", "reading", "looking at pictures", "comparing", "looking twice at
    pictures", "looking closer at pictures"), how many of how many files or photos, and the last one's path."""

    doing: str
    done: int
    total: int | None
    path: str = ""


@dataclass(slots=True)
class Summary:
    """The counts of one run, in files, but for `missing`: photos that are gone from every place they lay in.

    `looked` counts the looks at pictures, `not_looked` the photos in the whole library whose pixels cannot be read,
    `copies` and `bursts` its sets of photos alike. `held` names folders that held photos and show none; `closed` those
    that could not be listed, with the reason.
    """

    found: int = 0
    new: int = 0
    changed: int = 0
    moved: int = 0
    unchanged: int = 0
    missing: int = 0
    other: int = 0
    unreadable: int = 0
    skipped: int = 0
    looked: int = 0
    not_looked: int = 0
    copies: int = 0
    bursts: int = 0
    held: list[str] = field(default_factory=list)
    closed: list[tuple[str, str]] = field(default_factory=list)
    was_stopped: bool = False


@dataclass(slots=True)
class _Gathered:
    """One place with all that is known of it and all that was found in it.

    `sidecars` and their texts are there for the files that have any, by their paths below the library folder.
    """

    place: Place
    walked: Walk
    known: list[KnownFile]
    changes: Changes
    sidecars: dict[bytes, tuple[bytes, ...]]
    sidecar_texts: dict[bytes, str]


def index_folders(
    connection: sqlite3.Connection,
    folders: Sequence[Path],
    *,
    today: date,
    accept_missing: bool = False,
    report: Callable[[Progress], None] = lambda _: None,
) -> Summary:
    """Bring the index up to date with these folders, or with all known ones when none is given.

    Ctrl-C stops the run: what was read is kept and the summary says `was_stopped`. With `accept_missing` photos that
    are not to be seen count as missing even where their folder may only be out of reach. Raises FolderError.
    """
    summary = Summary()
    try:
        gathered = [_gather(connection, place, accept_missing, report) for place in _places(connection, folders)]
        landing = Landing(connection, _lost(connection, gathered), today)
        try:
            try:
                _read(gathered, landing, report)
            finally:
                landing.write()
            _settle(gathered, landing, summary)
        finally:
            _count_files(summary, gathered, landing)
        summary.looked = compare_photos(connection, today, lambda *where: report(Progress(*where)))
    except KeyboardInterrupt:
        summary.was_stopped = True
        judge_what_was_read(connection, today)
    _count_alike(connection, summary)
    return summary


def _places(connection: sqlite3.Connection, folders: Sequence[Path]) -> list[Place]:
    """The places to walk, none inside another."""
    if not folders:
        return _known_places(connection)
    paths = sorted({real_folder(folder, connection) for folder in folders})
    outermost = [path for path in paths if not any(library_folders.is_reached(path, up) for up in paths if up != path)]
    with transaction(connection):
        return [library_folders.place_of(connection, path) for path in outermost]


def _known_places(connection: sqlite3.Connection) -> list[Place]:
    """Every library folder but those that are gone and hold no photo any more, as told by `accept_missing`."""
    holding = library_folders.folders_with_photos(connection)
    known = library_folders.library_folders(connection)
    places = [Place(folder, "") for folder in known if folder.id in holding or Path(folder.path).is_dir()]
    if not places:
        raise FolderError("no folder has been indexed yet; name one: weeksheaf index FOLDER")
    return places


def check_before_opening(index: Path, folders: Sequence[Path]) -> None:
    """Raises FolderError for what must not even make an index: a wrong name, or a folder that the index would lie in,
    where nothing is ever written."""
    for folder in folders:
        if not index.exists():
            usable_folder(folder)
        if folder.is_dir() and library_folders.is_inside(os.path.realpath(index), os.path.realpath(folder)):
            raise FolderError(
                f"the index {index} would lie inside {folder}, where nothing is ever written; name another place with"
                " --index FILE"
            )


def real_folder(folder: Path, connection: sqlite3.Connection) -> str:
    """The real path of a folder to be indexed. Raises FolderError unless it can be listed, or held files before."""
    real = os.path.realpath(folder)
    is_known = files.has_held_files(connection, real) and not Path(real).is_file()
    return real if is_known else usable_folder(folder)  # what a known one held is held back, and said


def usable_folder(folder: Path) -> str:
    """The real path of a folder that is there and can be listed. Raises FolderError."""
    real = os.path.realpath(folder)
    if Path(real).exists() and not Path(real).is_dir():
        raise FolderError(f"{folder} is not a folder; name the folder that holds the photos")
    if not Path(real).exists():
        raise FolderError(f"there is no folder {folder}; check the name, or that its disk is connected")
    try:
        os.scandir(real).close()
    except OSError as error:
        raise FolderError(f"the folder {folder} cannot be read ({error.strerror}); check its permissions") from error
    return real


def _gather(
    connection: sqlite3.Connection, place: Place, accept_missing: bool, report: Callable[[Progress], None]
) -> _Gathered:
    """What is known of a place and what lies there; decides what is to be read."""
    known = files.known_files(connection, place.folder.id, place.below)
    root = os.path.join(place.folder.path, place.below)  # noqa: PTH118
    walked = walk(place.folder.path, place.below, lambda count: report(Progress("looking", count, None, root)))
    out_of_reach = set(walked.closed) | walked.bare
    photos_known = {row.path for row in known if row.kind == "photo" and not row.is_missing}
    photos_found = sum(path in photos_known or promises_picture(os.fsdecode(path)) for path in walked.files)
    if holds_back(len(photos_known), photos_found, Path(root).is_dir()):
        out_of_reach.add(os.fsencode(place.below))
    reach = () if accept_missing else out_of_reach
    beside = find_sidecars(walked.files)
    texts = sidecar_texts(beside, walked.files)
    changes = compare(known, walked.files, reach, READER_VERSION, texts)
    return _Gathered(place, walked, known, changes, beside, texts)


def _lost(connection: sqlite3.Connection, gathered: Sequence[_Gathered]) -> list[KnownFile]:
    """Rows whose files are not where they were: those that a new file with the same picture may have moved from."""
    lost = [row for item in gathered for row in (*item.changes.absent, *item.changes.held)]
    walked = {item.place.folder.id for item in gathered}
    for folder in library_folders.library_folders(connection):
        if folder.id not in walked and not Path(folder.path).is_dir():
            lost.extend(row for row in files.known_files(connection, folder.id) if not row.is_missing)
    return lost


def _read(gathered: Sequence[_Gathered], landing: Landing, report: Callable[[Progress], None]) -> None:
    """Read all that is to be read, in worker processes; write it down a batch at a time."""
    jobs = [(item, path, row) for item in gathered for path, row in item.changes.to_read]
    asked = [_to_read(item, path) for item, path, _ in jobs]
    if not jobs:
        return
    from indexer.facts.workers import read_all  # the readers are slow to load, and most runs find nothing to read

    last_write = monotonic()
    with closing(read_all(asked, datetime.now(UTC).year + 1)) as readings:
        for done, (number, reading) in enumerate(readings, start=1):
            item, path, row = jobs[number]
            found = item.walked.files[path]
            landing.add(
                files.FileRow(
                    row.id if row else None,
                    item.place.folder.id,
                    path,
                    found.size,
                    found.mtime_ns,
                    READER_VERSION,
                    reading,
                    item.sidecar_texts.get(path, ""),
                ),
                row,
            )
            report(Progress("reading", done, len(asked), asked[number].path))
            if monotonic() - last_write > SECONDS_PER_BATCH:
                landing.write()
                last_write = monotonic()


def _to_read(item: _Gathered, path: bytes) -> FileToRead:
    root, below = item.place.folder.path, os.fsdecode(path)
    beside = item.sidecars.get(path, ())
    return FileToRead(
        os.path.join(root, below),  # noqa: PTH118
        Path(below).parts[:-1],
        tuple(os.path.join(root, os.fsdecode(sidecar)) for sidecar in beside),  # noqa: PTH118
    )


def _settle(gathered: Sequence[_Gathered], landing: Landing, summary: Summary) -> None:
    """Write down who is missing and who is back, and name the folders that could not be looked into."""
    absent = [row for item in gathered for row in item.changes.absent]
    returned = [row for item in gathered for row in item.changes.returned]
    summary.missing = landing.settle(absent, returned, written(datetime.now(UTC)))
    for item in gathered:
        held = list(_held_folders(item, landing))
        summary.held.extend(held)
        closed = (
            (str(Path(item.place.folder.path, os.fsdecode(path))), why) for path, why in item.walked.closed.items()
        )
        summary.closed.extend((path, why) for path, why in closed if path not in held and Path(path).is_dir())


def _held_folders(item: _Gathered, landing: Landing) -> Iterable[str]:
    """The folders out of reach that photos are known in, by name."""
    held = [row for row in landing.not_moved(item.changes.held) if row.kind == "photo"]
    if not held:
        return []
    root = Path(item.place.folder.path)
    if len(held) == sum(row.kind == "photo" and not row.is_missing for row in item.known):
        return [str(root / item.place.below)]
    return sorted({str(root / Path(os.fsdecode(row.path)).parent) for row in held})


def _count_files(summary: Summary, gathered: Sequence[_Gathered], landing: Landing) -> None:
    unchanged = [row for item in gathered for row in item.changes.unchanged]
    counts = landing.counts
    summary.new, summary.changed, summary.moved = counts["new"], counts["changed"], counts["moved"]
    summary.unchanged = counts["unchanged"] + sum(row.kind == "photo" for row in unchanged)
    summary.found = summary.new + summary.changed + summary.moved + summary.unchanged
    summary.other = counts["other"] + sum(row.kind == "other" for row in unchanged)
    summary.unreadable = counts["unreadable"] + sum(row.has_failed for row in unchanged)
    summary.skipped = sum(item.walked.skipped for item in gathered)


def _count_alike(connection: sqlite3.Connection, summary: Summary) -> None:
    sets = count_sets(connection)
    summary.copies, summary.bursts = sets["copy"], sets["burst"]
    summary.not_looked = count_without_pixels(connection)
