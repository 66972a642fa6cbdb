"""Carry a plan out: copy what is missing, put week.json in its place, and keep account of it."""

import contextlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from queries.made_files.writing import write_verified
from queries.originals import Source, SourceError
from queries.pull.content import Content, copied
from queries.pull.decoding import conversions
from queries.pull.manifest import FILE_NAME, Manifest, PulledPhoto, PulledSheet, manifest_text
from queries.pull.plan import PlannedFile
from queries.pull.records import new_record


@dataclass(slots=True)
class Account:
    """What has been done so far. `records` go by photo key and become week.json, whenever the run ends."""

    records: dict[str, PulledPhoto]
    sheets: tuple[PulledSheet, ...]
    added: list[str] = field(default_factory=list)
    left: list[tuple[str, str]] = field(default_factory=list)
    failed: list[tuple[str, str]] = field(default_factory=list)
    notes: list[tuple[str, str]] = field(default_factory=list)
    sheet_paths: list[Path] = field(default_factory=list)
    bytes_written: int = 0


def copy_files(files: Sequence[PlannedFile], folder: Path, account: Account, *, as_jpeg: bool) -> None:
    """Write these photos of the plan; what is wrong with an original is noted and does not stop the run."""
    jobs = [(file, file.photo, file.source) for file in files if isinstance(file.source, Source)]
    if not as_jpeg:
        for file, _, source in jobs:
            _put(file, source, copied(source), folder, account)
        return
    with contextlib.closing(conversions([(photo, source) for _, photo, source in jobs])) as results:
        for place, content in results:
            file, _, source = jobs[place]
            if isinstance(content, str):
                account.failed.append((source.path, content))
            else:
                _put(file, source, content, folder, account)


def _put(file: PlannedFile, source: Source, content: Content, folder: Path, account: Account) -> None:
    photo = file.photo
    try:
        written = write_verified(content.blocks, folder, file.name, photo.code, mtime_ns=source.mtime_ns)
    except SourceError as problem:
        account.failed.append((source.path, str(problem)))
    except FileExistsError:
        account.left.append((file.name, "another file took this name meanwhile"))
    else:
        account.records[photo.key] = new_record(photo, file.name, source.path, written, content.source_sha256)
        account.added.append(file.name)
        account.bytes_written += written.size
        if content.note:
            account.notes.append((file.name, content.note))


def write_manifest(manifest: Manifest, folder: Path) -> None:
    """Put week.json in place, unless it says the same already. Raises OSError."""
    text = manifest_text(manifest).encode("ascii")
    path = folder / FILE_NAME
    if not (path.is_file() and path.read_bytes() == text):
        write_verified([text], folder, FILE_NAME, "week", over=True)
