"""The folder of an order: all of its files come into place at once, or none does.

They are written into a folder of another name inside, read back, and renamed when the last one stands. A file is
replaced or removed only where order.json says that we made it, and it has not been changed since.
"""

import contextlib
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from indexer.errors import PrintError
from indexer.interrupts import interrupts_held
from indexer.store.run_lock import lock_on
from queries.made_files.folder import look_at
from queries.made_files.values import is_as_recorded
from queries.made_files.writing import clear_leftovers, reason_of, write_verified
from queries.prints.order_file import FILE_NAME, HeldOrder, MadeFile, held_order

_STAGING = ".weeksheaf-prints.part"
_LOCK = "running"


@dataclass(slots=True)
class Staging:
    """The files of an order before they have their places; `made` are those that stand."""

    folder: Path
    place: Path
    made: list[MadeFile] = field(default_factory=list)

    def add(self, name: str, data: bytes) -> None:
        """Write a file and read it back. Raises OSError, FolderError."""
        written = write_verified([data], self.place, name, "file")
        self.made.append(MadeFile(name, written.sha256, written.size, written.mtime_ns))

    def path(self, name: str) -> Path:
        """Where a file that was added lies for now."""
        return self.place / name


def held_in(folder: Path) -> HeldOrder | None:
    """The order that lies in the folder; None where there is none. Raises PrintError where that cannot be told."""
    path = folder / FILE_NAME
    if path.is_symlink() or (path.exists() and not path.is_file()):
        raise PrintError(f"{path} is no plain file; choose another folder for the prints")
    try:
        held = held_order(path.read_bytes())
    except FileNotFoundError:
        return None
    except OSError as problem:
        raise PrintError(f"{path} cannot be read ({reason_of(problem)}); choose another folder") from problem
    if isinstance(held, str):
        raise PrintError(f"{path} cannot be relied on: {held}; move it away, or choose another folder for the prints")
    return held


def check_names(folder: Path, names: Collection[str], held: HeldOrder | None) -> None:
    """Raise PrintError where a file that is not ours, or was changed since, has the name of one to be written, or of
    an earlier print that would be sent along."""
    records = {file.file: file for file in held.files} if held else {}
    for name, state in look_at(folder, sorted({*names, *records}), records).items():
        record = records.get(name)
        if record is None:
            raise PrintError(f"{folder / name} is there already and was not made for this order; move it away")
        if not state.is_plain or not is_as_recorded(record, state):
            raise PrintError(f"{folder / name} was changed since it was written; move it away, then print again")


@contextlib.contextmanager
def staged(folder: Path) -> Iterator[Staging]:
    """A place for the files of an order, gone at the end whatever comes; what a run left in it that was killed goes
    first. Raises OSError, PrintError."""
    made_folder = not folder.exists()
    place = folder / _STAGING
    place.mkdir(parents=True, exist_ok=True)
    with lock_on(place / _LOCK) as is_ours:
        if not is_ours:
            raise PrintError(f"another run is writing into {folder}; wait until it is done, then try again")
        _clear(place)
        try:
            yield Staging(folder, place)
        finally:
            _clear(place)
            _remove(place, folder if made_folder else None)


def _remove(place: Path, folder: Path | None) -> None:
    """The place with its lock, and the folder where the run made it and it holds nothing."""
    with contextlib.suppress(OSError):  # where an open file cannot be removed, both stay, empty and harmless
        (place / _LOCK).unlink()
        place.rmdir()
        if folder:
            folder.rmdir()


def _clear(place: Path) -> None:
    for path in place.iterdir():
        if path.name != _LOCK:
            with contextlib.suppress(OSError):
                path.unlink()


def put_in_place(staging: Staging, held: HeldOrder | None, text: Callable[[Sequence[MadeFile]], str]) -> None:
    """Rename all that was staged into the folder, earlier files of ours gone; `text` makes order.json. Raises OSError.

    Should the computer stop in between, files are missing and none is wrong: order.json stands before the first file
    has its name, so that running again puts all of them there.
    """
    with interrupts_held():
        for file in held.files if held else ():
            (staging.folder / file.file).unlink(missing_ok=True)
        write_verified([text(staging.made).encode("ascii")], staging.folder, FILE_NAME, "order", over=True)
        for made in staging.made:
            staging.path(made.file).rename(staging.folder / made.file)
        clear_leftovers(staging.folder)
