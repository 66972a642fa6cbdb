"""One file in, one reading out: what it is, what it says, and which steps failed."""

import os
from datetime import UTC, datetime
from pathlib import Path
from typing import BinaryIO

from indexer.facts.containers import BrokenContainer, Container, NotAPicture, parse
from indexer.facts.file_names import claim_from_name
from indexer.facts.metadata import Metadata, MetadataError, read_exif
from indexer.facts.picture_files import promises_picture
from indexer.facts.picture_key import picture_key
from indexer.facts.records import Claim, Failure, FileReading, PhotoFacts
from indexer.facts.xmp import xmp_claims


def read_file(path: str, latest_year: int | None = None) -> FileReading:
    """Read one file, as little of it as will do.

    Years after `latest_year` (next year when not given) are refused in file names. Raises nothing for any content; what
    goes wrong is in the reading.
    """
    try:
        with Path(path).open("rb") as file:
            return _read(file, path, latest_year or datetime.now(UTC).year + 1)
    except OSError as error:
        reason = error.strerror or str(error) or type(error).__name__
        return FileReading("unreadable", failures=(Failure("open", reason),))


def _read(file: BinaryIO, path: str, latest_year: int) -> FileReading:
    status = os.fstat(file.fileno())
    name = os.path.basename(path)  # noqa: PTH119 - no other part of the path is needed
    try:
        container = parse(file, status.st_size)
    except NotAPicture as error:
        if promises_picture(name):
            return _unreadable(f"it holds {error}" if status.st_size else "the file is empty")
        return FileReading("other")
    except BrokenContainer as error:
        container = _without_picture(error)
    metadata, failures = _metadata(file, container)
    if container.damage:
        failures = (*failures, Failure("pixels", container.damage))
    width, height = container.width or metadata.width, container.height or metadata.height
    if not (width and height):
        return _unreadable(container.damage or "its header gives no size")
    facts = PhotoFacts(
        key=picture_key(file, status.st_size, container.picture_spans),
        format=container.format,
        stored_width=width,
        stored_height=height,
        orientation=container.turn or metadata.orientation,
        camera=metadata.camera,
        latitude=metadata.latitude,
        longitude=metadata.longitude,
        claims=(
            *metadata.claims,
            *xmp_claims(container.xmp or b""),
            *_claims_of_file(name, status.st_mtime_ns, latest_year),
        ),
    )
    return FileReading("photo", facts, failures)


def _unreadable(reason: str) -> FileReading:
    return FileReading("unreadable", failures=(Failure("header", reason),))


def _without_picture(error: BrokenContainer) -> Container:
    """What is left of a picture whose header breaks off: its metadata may still say when it was taken, and how
    large."""
    return Container("JPEG", 0, 0, exif=error.exif, xmp=error.xmp, damage=error.reason)


def _metadata(file: BinaryIO, container: Container) -> tuple[Metadata, tuple[Failure, ...]]:
    block = file if container.format in ("TIFF", "raw") and container.exif is None else container.exif
    if block is None:
        return Metadata(), ()
    try:
        return read_exif(block), ()
    except MetadataError as error:
        return Metadata(), (Failure("metadata", str(error)),)


def _claims_of_file(name: str, mtime_ns: int, latest_year: int) -> tuple[Claim, ...]:
    from_name = claim_from_name(name, latest_year)
    from_time = _file_time_claim(mtime_ns)
    return tuple(claim for claim in (from_name, from_time) if claim)


def _file_time_claim(mtime_ns: int) -> Claim:
    try:
        when = datetime.fromtimestamp(mtime_ns // 1_000_000_000, UTC).replace(tzinfo=None).isoformat()
    except (OverflowError, ValueError, OSError):
        return Claim("file time", str(mtime_ns), None, problem="outside the calendar")
    return Claim("file time", f"{when} UTC", when, "second", is_utc=True, is_arrival=True)
