"""One file in, one reading out: what it is, what it says, and which steps failed."""

import os
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import BinaryIO

from indexer.facts.containers import BrokenContainer, Container, NotAPicture, parse
from indexer.facts.file_names import claim_from_name
from indexer.facts.folder_names import claim_from_folders
from indexer.facts.iptc import iptc_claims
from indexer.facts.metadata import Metadata, MetadataError, read_exif
from indexer.facts.picture_files import promises_picture
from indexer.facts.picture_key import picture_key
from indexer.facts.records import Claim, Failure, FileReading, FileToRead, PhotoFacts
from indexer.facts.xmp import sidecar_claims, xmp_claims


def read_file(asked: str | FileToRead, latest_year: int | None = None) -> FileReading:
    """Read one file, as little of it as will do; a path alone stands for a file with nothing around it.

    Years after `latest_year` (next year when not given) are refused in the names of files and folders. Raises nothing
    for any content; what goes wrong is in the reading.
    """
    asked = FileToRead(asked) if isinstance(asked, str) else asked
    try:
        with Path(asked.path).open("rb") as file:
            return _read(file, asked, latest_year or datetime.now(UTC).year + 1)
    except OSError as error:
        return FileReading("unreadable", failures=(Failure("open", _reason(error)),))


def _reason(error: OSError) -> str:
    return error.strerror or str(error) or type(error).__name__


def _read(file: BinaryIO, asked: FileToRead, latest_year: int) -> FileReading:
    status = os.fstat(file.fileno())
    name = os.path.basename(asked.path)  # noqa: PTH119 - no other part of the path is needed
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
    beside, has_shut_sidecar = _claims_of_sidecars(asked.sidecars)
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
            *iptc_claims(container.resources, container.iptc),
            *beside,
            *_claims_of_file(name, asked.folders, status.st_mtime_ns, latest_year),
        ),
    )
    return FileReading("photo", facts, failures, has_shut_sidecar)


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


def _claims_of_sidecars(paths: Sequence[str]) -> tuple[list[Claim], bool]:
    """What the sidecars claim, and whether one of them could not be opened. Where there are several, each date names
    its own."""
    claims: list[Claim] = []
    has_shut = False
    for path in paths:
        name = os.path.basename(path)  # noqa: PTH119
        try:
            found = sidecar_claims(path)
        except OSError as error:
            claims.append(Claim("sidecar", name, None, problem=f"it could not be opened ({_reason(error)})"))
            has_shut = True
            continue
        several = len(paths) > 1  # then each date names its own
        claims += [
            replace(claim, text=f"{claim.text} ({name})") if several and claim.when else claim for claim in found
        ]
    return claims, has_shut


def _claims_of_file(name: str, folders: Sequence[str], mtime_ns: int, latest_year: int) -> tuple[Claim, ...]:
    claims = (
        claim_from_name(name, latest_year),
        claim_from_folders(folders, latest_year),
        _file_time_claim(mtime_ns),
    )
    return tuple(claim for claim in claims if claim)


def _file_time_claim(mtime_ns: int) -> Claim:
    try:
        when = datetime.fromtimestamp(mtime_ns // 1_000_000_000, UTC).replace(tzinfo=None).isoformat()
    except (OverflowError, ValueError, OSError):
        return Claim("file time", str(mtime_ns), None, problem="outside the calendar")
    return Claim("file time", f"{when} UTC", when, "second", is_utc=True, is_arrival=True)
